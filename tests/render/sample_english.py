"""An invented leaflet in English: every element that a section may use, at the length of a long order."""

from __future__ import annotations

from render.sample_parts import aside, figure, n, row, table

LEAD = f"""
<h1>Your new glasses</h1>
<p class="main">We made these glasses to your prescription. Check the fit today, before you wear them outside.</p>
<div class="points">
<ul>
<li>Your <strong>right</strong> lens is the stronger one.</li>
<li>The lenses must not turn in the rim. They work in one direction only.</li>
<li>They darken in the sun. Behind a windscreen they may stay much paler. Do not count on them there.</li>
<li><strong>Drive at dusk or at night only when they have cleared.</strong> In the cold this takes long.</li>
<li>Clean them with water and a drop of soap. Dry them with a soft cloth.</li>
</ul>
</div>
<div class="arrive">
<h2>When you open the parcel</h2>
<ul class="ticks">
<li>The order number on your parcel is {n("LT-7306")}.</li>
<li>Both lenses sit tight. There is no crack or chip.</li>
<li>The frame sits level. It does not slide or pinch.</li>
<li>Cover one eye, then the other. Each eye sees as well as you expect.</li>
</ul>
<p>Is one box left empty? Do not wear the glasses to drive. Call us: {n("01632 960 417")}.</p>
</div>
"""

URGENT = f"""
<h2>Get help today</h2>
<p>Do not wait for your eyes to settle. Act at once if any of these start suddenly:</p>
<ul>
<li>You lose some or all of your sight.</li>
<li>You see flashes, or many new dots or threads.</li>
<li>A shadow or curtain moves over your sight.</li>
<li>You see double, and it stays when you take the glasses off.</li>
<li>Your eye hurts a lot, or light hurts it.</li>
<li>Your eye was hit or splashed. Rinse a splash with clean water first.</li>
</ul>
<p><strong>Call an eye doctor today, or the health line {n("111")}.</strong> Weak arm or face, slurred speech, or no sight
in both eyes? Call {n("999")} now. Do not blame these signs on your new glasses.</p>
"""

NUMBERS = f"""
<h2>Your numbers</h2>
<p>Your slip and our job sheet, side by side.</p>
{table("What we received and what we made", ("", "Right, received", "Right, made", "Left, received", "Left, made"), (
    ("Sphere", "−4.75 D", "−4.75 D", "−3.25 D", "−3.25 D"), ("Cylinder", "−1.50 D", "−1.50 D", "−0.75 D", "−0.75 D"),
    ("Axis", "163°", "163°", "21°", "21°"), ("Addition", "+1.75 D", "+1.75 D", "+1.75 D", "+1.75 D"),
    ("Near power", "−3.00 D", "−3.00 D", "−1.50 D", "−1.50 D")))}
<h3>What each number does</h3>
<p class="term"><strong>Sphere</strong> is the main power of the lens. We count it in dioptres (D), in steps of {n("0.25 D")}.</p>
<ul>
<li><strong>Right eye:</strong> {n("−4.75 D")} is {n("19")} steps below zero. Minus helps you see far.</li>
<li><strong>Left eye:</strong> {n("−3.25 D")} is {n("13")} steps below zero.</li>
</ul>
<p class="term"><strong>Cylinder</strong> is power in one direction only. It evens out an eye that is not quite round.</p>
<ul>
<li><strong>Right eye:</strong> along the axis this lens has {n("−4.75 D")}. Across it, sphere and cylinder add up to {n("−6.25 D")}.</li>
<li><strong>Left eye:</strong> along the axis this lens has {n("−3.25 D")}. Across it they add up to {n("−4.00 D")}.</li>
</ul>
<p class="term"><strong>Addition</strong> is extra power for near. You do not need to add it up. Your reading power is
{n("−3.00 D")} on the right and {n("−1.50 D")} on the left.</p>
<p class="term"><strong>PD</strong> is the distance between your pupils: {n("62.5 mm")}. The centres of your lenses are set to it.</p>
{figure("ladder", 87, 40, "Ladder of lens powers in steps of 0.25 D. Right lens −4.75 D along the axis, left lens −3.25 D.",
        "Each rung is one step. Zero is a lens without power.",
        [(43, 4, "0.00 D", "middle"), (30, 36, "Right −4.75 D", "middle"), (64, 26, "Left −3.25 D", "middle")])}
"""

DIRECTION = f"""
<h2>Why a lens must not turn</h2>
<p>The <strong>axis</strong> is the direction of the cylinder, counted in degrees over half a turn. {n("180°")} lies flat.
{n("90°")} stands upright.</p>
{figure("dial", 87, 46, "Dial of both eyes as someone facing you sees you. Right eye: the axis line stands at 163 degrees. "
        "Left eye: at 21 degrees. Both count anticlockwise from the right.",
        "Drawn as someone facing you sees you. Your right eye is on the left of the picture. Both eyes count the same way.",
        [(21, 43, "Right eye 163°", "middle"), (66, 43, "Left eye 21°", "middle"),
         (21, 3, "90°", "middle"), (66, 3, "90°", "middle"), (43.5, 24, "0° 180°", "middle")])}
<p>The rim holds each lens at its axis. A turned lens blurs the picture. This is the error that would be left:</p>
{table("Error left by a turned lens", ("", "Turned by 5°", "Turned by 10°"), (
    ("Right lens", "0.26 D", "0.52 D"), ("Left lens", "0.13 D", "0.26 D")))}
<p>So do not twist a lens in its rim. Is one loose? Stop and send the glasses back to an optician.</p>
"""

SIGHT = f"""
<h2>What the lenses change</h2>
{row(*(figure(f"sight{i}", 41, 30, f"Letters, simulated for your right eye {how}.", how.capitalize() + ".")
       for i, how in enumerate(("without glasses", "with the sphere alone", "with sphere and cylinder", "with the lens turned"))))}
<p class="unknown">This is a simulation from your prescription, with a pupil {n("4 mm")} wide. Your eye may do better or worse.</p>
"""

LENS = f"""
<h2>Your lenses</h2>
<p>The material is <strong>polycarbonate</strong>. Its refractive index is {n("1.59")}. A higher index bends light more, so
the lens can be flatter.</p>
{table("Thickness and weight, calculated", ("", "Centre", "Nose", "Temple", "Weight"), (
    ("Right lens", "1.5 mm", "3.9 mm", "5.4 mm", "8.1 g"), ("Left lens", "1.5 mm", "3.1 mm", "4.2 mm", "6.9 g")))}
{figure("section", 87, 34, "Right lens cut level through the middle, to scale: nose edge 3.9 mm, centre 1.5 mm, temple edge "
        "5.4 mm. Below it the same lens in hard resin, thickest edge 6.6 mm.",
        "The right lens, cut level through the middle, to scale. Below it the same lens in hard resin.",
        [(1, 9, "3.9 mm", "start"), (86, 9, "5.4 mm", "end"), (43, 16, "nose side left, temple side right", "middle"), (86, 26, "6.6 mm", "end")])}
<p class="unknown">These thicknesses are calculated with typical curves and typical least thicknesses. We did not measure them.</p>
<h3>Light and colour</h3>
<p>Without a coating, each lens surface throws back {n("5.2")} of {n("100")} parts of the light. Your anti-reflection coating
cuts this. We have no measured figure for it.</p>
"""

TINT = f"""
<h2>How dark they get</h2>
<p>The lenses answer to ultraviolet light. Warm days make them paler, cold days darker.</p>
{figure("tint", 87, 44, "Bars of the light that passes, of 100 parts: summer noon at 23 °C 15 to 22, open shade 30 to 45, "
        "behind a windscreen 60 to 85, indoors 85 to 90.",
        "Of 100 parts of light, so many pass. A bar with a range shows what sources give.",
        [(1, 6, "Summer noon", "start"), (86, 6, "15 to 22", "end"), (1, 17, "Open shade", "start"),
         (86, 17, "30 to 45", "end"), (1, 28, "Behind a windscreen", "start"), (86, 28, "60 to 85", "end"),
         (1, 39, "Indoors", "start"), (86, 39, "85 to 90", "end")])}
<dl class="facts">
<dt>Darkening</dt><dd>half of the way in about {n("15 s")}</dd>
<dt>Clearing</dt><dd>half of the way in about {n("150 s")} at {n("23 °C")}, and much longer at {n("5 °C")}</dd>
</dl>
<p class="why">Why it matters: when you drive into a tunnel, the lenses are still dark for minutes.</p>
"""

CAR = f"""
<h2>In the car</h2>
<p>A windscreen holds back most ultraviolet light. So the lenses stay paler there than in the open, and you may be dazzled by
a low sun. Side windows let more through.</p>
{table("Light that passes, of 100 parts", ("", "At 5 °C", "At 23 °C", "At 35 °C"), (
    ("Windscreen, low sun", "45–80", "60–85", "70–88"), ("Side window, clear", "25–50", "35–60", "50–75"),
    ("Open top", "10–17", "15–22", "25–40")))}
<p>By day you may drive with them in all of these cases. Follow your local rules.</p>
"""

FIT = f"""
<h2>Check the fit</h2>
<p>About {n("4")} of {n("5")} people have one ear higher than the other. So nearly every frame needs adjusting.</p>
<h3>On a table</h3>
{row(figure("fit0", 40, 20, "Glasses open on a flat table. Nothing rocks.", "Flat, both ways up."),
     figure("fit1", 40, 20, "Glasses folded. The sides lie over each other.", "Folded, sides level."))}
<ol>
<li>Open the glasses. Lay them on a flat table, the right way up. They must not rock.</li>
<li>Turn them upside down. They must not rock now either.</li>
<li>Fold the sides. They lie over each other, and both hinges feel alike.</li>
</ol>
<h3>On your face</h3>
{row(figure("fit2", 40, 22, "A face from the front. The frame sits level with the eyes.", "Level with the eyes."),
     figure("fit3", 40, 22, "The nose pads lie flat on both sides of the nose.", "Pads flat on the nose."),
     figure("fit4", 40, 22, "The bend of the side begins just behind the top of the ear.", "Bend behind the ear."))}
{table("What you see and what it needs", ("What you see", "What it needs"), (
    ("One lens sits higher", "Bend that side down at the ear"),
    ("One lens sits nearer the eye", "Open that side a little"),
    ("They slide down", "Start the bend sooner"),
    ("Red marks on the nose", "Set the pads flat")), words=True)}
<p><strong>At home</strong> you may tighten a loose screw with a small screwdriver that fits. <strong>Leave every bend to an
optician.</strong> This frame must be warmed first. Too much heat ruins it. Use no boiling water, hair dryer or pliers.</p>
"""

CARE = """
<h2>Clean and keep them</h2>
<ol>
<li>Rinse the lenses under lukewarm water. Grit that stays on scratches.</li>
<li>Rub both sides with a drop of plain dish soap.</li>
<li>Rinse again.</li>
<li>Dry with a clean, soft cotton or microfibre cloth. Use no shirt and no tissue.</li>
</ol>
<ul>
<li>Keep nail-polish remover, petrol and thinner away. They attack polycarbonate, above all at the bare edge.</li>
<li>Do not leave the glasses on a dashboard or near an oven. Heat harms coatings and bends frames.</li>
</ul>
"""

SETTLING = f"""
<h2>The first days</h2>
<p>Most people settle in within {n("14 days")}. This is usual practice, not a promise. Your prescription has changed, so give
your eyes time.</p>
<ul>
<li><strong>Usual at first:</strong> the floor seems to tilt, things look a little nearer or farther, mild strain.</li>
<li><strong>Until distances look right:</strong> do not drive or use machines with them. Keep your old pair at hand.</li>
<li><strong>Contact us at once:</strong> one eye is clearly worse, you see double with the glasses on, or you cannot judge
distances.</li>
<li><strong>Contact us after {n("14 days")}:</strong> you still have headaches or blur. We will measure the glasses again.</li>
</ul>
<h3>Your progressive lenses</h3>
<p>Look through the top for far. Look through the middle for arm’s length. Look through the bottom to read. Turn your head to
what you look at, since the sides are less clear.</p>
"""

CAUTIONS = "<h2>Cautions</h2>" + "".join((
    aside("WARNING", "Do not drive at dusk or at night while the lenses are tinted.",
          "A tint hides people and cars at the roadside.", "Wait until the lenses are clear, or change glasses."),
    aside("WARNING", "Never look at the sun or an eclipse through them.",
          "No tint of glasses is dark enough. It can blind you.", "Look away, and keep children from looking."),
    aside("CAUTION", "Take care on stairs and kerbs.",
          "The lower part of the lens blurs the floor, and you can trip.", "Lower your chin and hold the rail."),
    aside("CAUTION", "These are everyday glasses, not eye protection.",
          "A tool, a chip or a ball can break them and hurt your eye.", "Wear marked eye protection for work and sport."),
)) + "<p>Stop using a lens that is cracked or badly scratched. Follow your local rules for driving.</p>"

BENCH = f"""
<h2>What we measured</h2>
{table("Ordered, measured and allowed", ("", "Ordered", "Measured", "Allowed", "Result"), (
    ("Right sphere", "−4.75 D", "−4.72 D", "±0.13 D", "inside"),
    ("Right cylinder", "−1.50 D", "−1.53 D", "±0.15 D", "inside"),
    ("Right axis", "163°", "162°", "±3°", "inside"),
    ("Left sphere", "−3.25 D", "−3.27 D", "±0.13 D", "inside"),
    ("Left cylinder", "−0.75 D", "−0.71 D", "±0.13 D", "inside"),
    ("Left axis", "21°", "23°", "±5°", "inside"),
    ("Distance of centres", "62.5 mm", "62.0 mm", "±2.5 mm", "inside")), last_words=True)}
<p>No lens is exact, so a published standard gives a limit for each number.
</p>
"""

SOURCES = """
<h2>Where these statements come from</h2>
<p class="basis">Copied from your prescription: sphere, cylinder, axis, addition. Read at our bench: the measured column.
Calculated: near power, steps, thickness, weight, error of a turned lens. A published standard: the limits.</p>
<p>Your optician answers for this leaflet and holds the full list of values and sources. It does not replace an eye
examination.</p>
"""

SECTIONS = (
    ("numbers", "half", NUMBERS),
    ("direction", "half", DIRECTION),
    ("lens", "half", LENS),
    ("sight", "half", SIGHT),
    ("tint", "half", TINT),
    ("car", "half", CAR),
    ("fit", "half", FIT),
    ("care", "half", CARE),
    ("settling-in", "half", SETTLING),
    ("cautions", "half", CAUTIONS),
    ("bench", "half", BENCH),
    ("sources", "half", SOURCES),
)
