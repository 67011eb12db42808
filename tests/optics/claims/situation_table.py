"""The table of situations: for each an order, what must be said of it, and what must not.

A row rests on common practice unless it names a source. `says` and `silent` are claims (`know.stairs`) or
`name=word`; `words` and `never` are words that the phrases of the whole leaflet must hold or must not hold.

Rows judged otherwise than the trade notes that they come from:

* A progressive pair without heights or with one distance is not made at all unless the order answers for it; that is
  the bench's rule and is tested there. Here only the words of a pair that is made are held.
* Desk lenses: an order has no such design, so no leaflet calls a pair one. Ordered as `progressive` they would be
  described wrongly; the optician is asked for the design in generic words.
* Safety eyewear: no title promises protection, because an order does not record marks on frame and lenses.
* "Point at a metre": from the cylinder that a half-dioptre step leaves, no far point is named (0.50 D, ours).
* Category 4 for a driver is refused until answered (bench); here its words.
* Straight lines that turn wavy belong to days, not to today, and were found in memory only: left out.
"""

from __future__ import annotations

from copy import deepcopy
from typing import Any, NamedTuple

Data = dict[str, Any]
UK: Data = {"country": "GB", "recheck_days": 21, "delivery_days": 3}


class Row(NamedTuple):
    """One situation."""

    name: str
    order: Data
    says: tuple[str, ...] = ()
    silent: tuple[str, ...] = ()
    words: tuple[str, ...] = ()
    never: tuple[str, ...] = ()


def order(right: str, left: str | None = None, **changes: Any) -> Data:
    """An order with these powers; keywords change its tables."""
    data: Data = {
        "order": "SI-0001",
        "date": "2026-11-24",
        "language": "en-GB",
        "prescription": {"right": right, "left": left or right},
        "wearer": {"birth_year": 1990},
        "measurements": {"pd_right_mm": 32.0, "pd_left_mm": 31.5},
        "frame": {"a_mm": 50.0, "b_mm": 36.0, "dbl_mm": 18.0, "material": "metal"},
        "lens": {"design": "single-vision", "material": "hard-resin", "tint": "clear", "coatings": ["hard"]},
    }
    for name, value in deepcopy(changes).items():
        data[name] = data[name] | value if isinstance(data.get(name), dict) else value
    return data


def born(year: int, **more: Any) -> Data:
    return {"birth_year": year, **more}


PROGRESSIVE = {"design": "progressive"}
HEIGHTS = {"height_right_mm": 20.0, "height_left_mm": 20.0}
REACTIVE = {"tint": "photochromic"}
DARK = {"tint": "fixed", "tint_category": 3}
TWO_EYES = ("one picture", "double", "both eyes", "other eye", "One eye, then")

ROWS = (
    # --- the far point, plus, near --------------------------------------------------------------------------------
    Row("short sight, young", order("-2.50 DS"), ("right.sight.kind=far-point",), words=("clearly up to about 41 cm",)),
    Row(
        "cylinder of two and a half",
        order("-2.25 -2.50 x 96"),
        ("right.sight.kind=least-blurred",),
        words=("nothing is quite sharp for your right eye; least blurred at about",),
        never=("clearly up to",),
    ),
    Row(
        "short sight at sixty-five",
        order("-2.50 DS", wearer=born(1961)),
        ("right.sight.kind=one-distance",),
        words=("clearly only at about 41 cm",),
        never=("clearly up to",),
    ),
    Row(
        "short sight, age unknown",
        order("-2.50 DS") | {"wearer": {}},
        ("right.sight.kind=farthest",),
        words=("nothing is sharp for your right eye beyond about 41 cm",),
        never=("clearly up to",),
    ),
    Row("a cylinder across nought has no far point", order("-0.50 +1.50 x 90"), silent=("right.sight.kind",)),
    Row(
        "plus at sixty-five",
        order("+2.50 DS", wearer=born(1961)),
        ("say.plus_far",),
        ("say.plus_focus",),
        ("the lens makes far things clear",),
        ("focusing work",),
    ),
    Row(
        "plus at twenty-six",
        order("+2.50 DS", wearer=born(2000)),
        ("say.plus_focus",),
        ("say.plus_far",),
        ("takes focusing work off your eye",),
    ),
    Row(
        "plus, age unknown",
        order("+2.50 DS") | {"wearer": {}},
        ("say.plus",),
        ("say.plus_focus", "say.plus_far"),
        ("Plus: for long sight",),
        ("focusing work", "makes far things clear"),
    ),
    Row(
        "fifty-four, far only",
        order("plano", "-1.00 DS", wearer=born(1972, uses=["driving", "reading"])),
        ("say.near_blurred", "know.near_blurred"),
        ("know.loses_near",),
        ("For far away. Close print stays blurred", "wear reading glasses"),
        ("For driving and reading", "every distance"),
    ),
    Row(
        "fifty, far only: where near begins to blur",
        order("+1.00 DS", wearer=born(1976)),
        ("near.begins",),
        words=("nearer than about 80 cm blurs",),
    ),
    Row("thirty-six, far only", order("-1.00 DS"), silent=("say.near_blurred", "know.near_blurred")),
    Row(
        "a short-sighted reader",
        order("-2.50 DS", wearer=born(1966)),
        ("know.loses_near",),
        ("know.near_blurred",),
        ("You read without glasses? Then take these off to read",),
        ("wear reading glasses",),
    ),
    Row(
        "short sight too unequal to read with",
        order("-2.50 DS", "-5.00 DS", wearer=born(1966)),
        ("know.near_blurred",),
        ("know.loses_near",),
    ),
    Row(
        "reading glasses",
        order("+1.00 DS add +2.25", lens={"design": "reading"}, wearer=born(1960)),
        ("pair.kind=reading", "know.near_only", "drive.near_only", "check.small_print", "pair.driving=never"),
        ("drive.settling", "know.settling", "near.range.near_end"),
        ("Do not drive in them", "up to about 44 cm", "A box stays empty? Call us"),
        ("A box stays empty? Do not drive", "By day, yes"),
    ),
    Row(
        "reading distances at fifty",
        order("+1.00 DS add +1.50", lens={"design": "reading"}, wearer=born(1976)),
        ("near.range.near_end",),
        words=("from about 36 cm to about 67 cm",),
    ),
    Row(
        "reading glasses with prism",
        order("+1.00 DS add +2.25 prism 1 base in", lens={"design": "reading"}, wearer=born(1960)),
        ("check.one_line",),
        ("check.one_picture", "drive.double"),
        (
            "For close work only. The prism helps your eyes work together",
            "One line of print, not two",
            "Do not drive in them",
        ),
    ),
    Row(
        "reading glasses ordered as near powers",
        order("+2.25 DS", lens={"design": "reading"}, wearer=born(1960)),
        ("say.plus_reading",),
        ("say.plus", "near.far_end"),
        ("near print",),
        ("long-sighted",),
    ),
    # --- the pair -------------------------------------------------------------------------------------------------
    Row(
        "unequal lenses",
        order("-6.50 DS", "-2.25 DS"),
        ("know.unequal", "say.stronger=matters", "fit.set_place"),
        ("fit.home.pads",),
        ("To look down, lower your chin", "nose pads too"),
        ("soon", "press the nose pads"),
    ),
    Row(
        "unequal progressive lenses: no chin to lower",
        order("-5.00 DS add +2.00", "-2.00 DS add +2.00", lens=PROGRESSIVE, measurements=HEIGHTS, wearer=born(1960)),
        ("know.unequal_near",),
        ("know.unequal",),
        never=("To look down, lower your chin",),
    ),
    Row(
        "lenses about alike",
        order("-2.00 DS", "-2.25 DS"),
        ("say.stronger=alike",),
        ("know.unequal",),
        ("about equally strong",),
    ),
    Row("one a little stronger", order("-2.00 DS", "-2.75 DS"), ("say.stronger=harmless",), words=("needs no care",)),
    Row(
        "one lens plano",
        order("plano", "-1.00 DS"),
        ("right.plano",),
        ("left.plano", "say.plano_pair"),
        ("plano, no power, as prescribed", "It was prescribed so"),
        ("needs none", "0.00"),
    ),
    Row(
        "plano pair, sunglasses",
        order("plano", lens=DARK),
        ("say.plano_pair", "pair.kind=plain-sunglasses"),
        ("know.settling", "usual.tilt", "drive.settling", "say.powered", "safe.fire"),
        ("They change only the light",),
        ("tilt", "settle within", "short-sighted", "long-sighted"),
    ),
    Row(
        "plus of six",
        order("+6.00 DS"),
        ("know.rim", "safe.fire", "fit.slides_matter", "usual.larger"),
        ("know.smaller",),
        ("vanish at the rim", "start a fire", "larger and nearer", "Do they slide?"),
        ("ring of",),
    ),
    Row("plus of four", order("+4.00 DS"), ("know.rim", "safe.fire")),
    Row("plus of two", order("+2.00 DS"), ("safe.fire",), ("know.rim",)),
    Row("minus can start no fire", order("-4.00 DS"), silent=("safe.fire", "know.rim")),
    Row(
        "minus with a reading part gathers sunlight",
        order("-1.00 DS add +2.50", lens={"design": "bifocal"}, wearer=born(1955)),
        ("safe.fire",),
    ),
    Row(
        "minus of eight",
        order("-8.00 DS"),
        ("know.smaller", "usual.smaller"),
        words=("Things look smaller",),
        never=("thin and light",),
    ),
    Row(
        "prism",
        order("-1.00 DS prism 2 base in", "-1.00 DS"),
        ("know.prism", "check.one_picture", "drive.double", "fit.set_place", "say.prism_helps"),
        ("fit.home.pads",),
        ("by 2 cm at 1 m", "your pupil meets the prism ordered", "Two pictures? Do not drive", "tell the DVLA"),
        ("cured", "optical centre", "lens centres"),
    ),
    Row(
        "an eighth of prism more",
        order("-1.00 DS prism 0.375 base in", "-1.00 DS", prescription={"confirmed_steps": True}),
        words=("prism 0.375",),
        never=("0.38",),
    ),
    Row(
        "coloured edges",
        order("-6.00 DS", lens={"material": "polycarbonate"}),
        ("lens.fringe_seen",),
        words=("faint colour",),
    ),
    Row(
        "no coloured edges",
        order("-1.00 DS", lens={"material": "polycarbonate"}),
        silent=("lens.fringe_seen",),
        never=("faint colour",),
    ),
    Row(
        "a filter coating counts",
        order("-1.00 DS", lens={"coatings": ["uv-filter"]}),
        words=("Your filter coating is made to stop the rest",),
        never=("A little passes",),
    ),
    Row(
        "polarising",
        order("-1.00 DS", lens=DARK | {"coatings": ["polarising"]}),
        ("know.polarising",),
        words=("Some screens look black",),
        never=("Safer driving", "safer"),
    ),
    Row(
        "glass",
        order("-1.00 DS", lens={"material": "crown-glass"}),
        ("know.glass",),
        words=("shatter",),
        never=("tough",),
    ),
    Row(
        "rimless",
        order("-1.00 DS", frame={"material": "rimless"}),
        ("know.rimless",),
        ("fit.home.screw", "fit.home.pads"),
        ("Stop wearing them and call us",),
        ("may tighten",),
    ),
    Row(
        "the customer's own frame",
        order("-1.00 DS", frame={"own": True}),
        ("know.own_frame",),
        words=("Old plastic can crack",),
        never=("as new",),
    ),
    Row(
        "a balance lens",
        order("-3.00 DS", "-3.00 DS", lens={"balance": "left"}),
        ("left.balance", "know.balance"),
        ("left.sight.kind",),
        ("does not correct",),
        ("No power needed",),
    ),
    Row(
        "sport ordered",
        order("-1.00 DS", wearer=born(1990, uses=["sport"])),
        ("safe.sport",),
        words=("not sports eyewear",),
        never=("For sport.", "for sport."),
    ),
    Row(
        "mixed astigmatism is neither long nor short sight",
        order("+1.00 -3.00 x 45"),
        ("say.mixed",),
        ("say.plus", "say.minus", "right.sight.kind"),
        ("One direction of your eye needs plus, the other minus",),
        ("long-sighted", "short-sighted"),
    ),
    Row(
        "plus before one eye, minus before the other",
        order("+2.50 DS", "-2.00 DS"),
        ("usual.sizes_differ",),
        ("usual.larger", "usual.smaller"),
        ("sizes look different to each eye",),
        ("larger and nearer", "smaller and farther"),
    ),
    Row(
        "a quarter dioptre makes nothing look smaller",
        order("-0.25 DS"),
        silent=("usual.smaller", "usual.tilt"),
        never=("smaller", "tilt"),
    ),
    Row(
        "vertical prism: no word of in",
        order("-1.00 DS prism 2 base up", "-1.00 DS prism 2 base down"),
        ("know.prism",),
        words=("The base is its thick side.",),
        never=("in is towards the nose",),
    ),
    # --- progressive, bifocal -------------------------------------------------------------------------------------
    Row(
        "first progressive",
        order("+1.00 DS add +2.00", lens=PROGRESSIVE, measurements=HEIGHTS, wearer=born(1968, first_pair=True)),
        ("first.progressive", "know.stairs", "know.nose", "usual.swim", "unusual.head", "pupils.heights"),
        ("first.old_pair", "thickest.side"),
        (
            "Practise sitting, then walking; stairs last",
            "Lower your chin, hold the rail",
            "the sides seem to swim",
            "you must lift or turn your head",
            "Set from distances and heights measured on your face",
        ),
        ("You will adapt", "old pair", "Thickest place", "Prevents falls"),
    ),
    Row(
        "second progressive",
        order(
            "+1.00 DS add +2.25",
            lens=PROGRESSIVE,
            measurements=HEIGHTS,
            wearer=born(1968),
            previous={"right": "+1.00 DS add +2.00", "left": "+1.00 DS add +2.00"},
        ),
        ("first.old_pair",),
        ("first.progressive",),
        ("addition from +2.00 to +2.25",),
    ),
    Row(
        "progressive without heights says nothing of them",
        order("+1.00 DS add +2.00", lens=PROGRESSIVE, wearer=born(1968)),
        silent=("pupils.heights",),
        never=("heights measured",),
    ),
    Row(
        "progressive in a low frame",
        order(
            "+1.00 DS add +2.00",
            lens=PROGRESSIVE,
            measurements={"height_right_mm": 15.0, "height_left_mm": 15.0},
            wearer=born(1968),
        ),
        ("know.short_reading",),
        words=("The reading area is short",),
    ),
    Row(
        "a turned progressive lens",
        order("+1.00 -1.00 x 20 add +2.00", lens=PROGRESSIVE, wearer=born(1968)),
        ("turn.moves_reading",),
        words=("moves the reading area",),
    ),
    Row(
        "bifocal",
        order("+1.00 DS add +2.50", lens={"design": "bifocal"}, wearer=born(1950)),
        ("check.lines_level", "usual.jump", "unusual.line", "know.stairs"),
        ("know.nose", "usual.swim"),
        (
            "through the window below",
            "the window blurs the floor",
            "Both lines level",
            "jumps at the line",
            "the line cuts your view ahead",
        ),
        ("arm’s length",),
    ),
    Row(
        "has fallen before",
        order("+1.00 DS add +2.50", lens={"design": "bifocal"}, wearer=born(1950, falls=True)),
        ("know.falls",),
        words=("Ask about a far-only pair for going out",),
        never=("prevents", "will not fall"),
    ),
    Row("has fallen, single vision", order("+1.00 DS", wearer=born(1950, falls=True)), silent=("know.falls",)),
    # --- the wearer -----------------------------------------------------------------------------------------------
    Row(
        "one seeing eye",
        order("-3.00 DS prism 2 base in", "-0.50 DS", wearer=born(1980, only_seeing_eye="right", uses=["driving"])),
        ("know.one_eye", "safe.one_eye", "check.seeing_eye", "drive.one_eye"),
        (
            "check.each_eye",
            "check.one_picture",
            "drive.double",
            "help.today.double",
            "say.stronger",
            "say.prism_helps",
            "know.unequal",
            "left.sight.kind",
        ),
        (
            "Protect your seeing eye",
            "Any sudden change in your seeing eye",
            "Drive only when your eye clinic agrees",
            "in every sport and with every tool",
        ),
        TWO_EYES,
    ),
    Row(
        "child",
        order("+3.00 DS", wearer=born(2018)),
        ("parents.play", "check.child", "help.today.child"),
        ("say.driver", "pair.driving", "check.each_eye", "drive.settling", "drive.plate"),
        ("For parents", "names small pictures across the room", "A pupil looks white"),
        ("drive", "Drive", "number plate"),
    ),
    Row(
        "child with a patch",
        order("+3.00 DS", "+5.00 DS", wearer=born(2018, patching=True)),
        ("parents.patch",),
        words=("Patch as the clinic wrote. Glasses on too",),
    ),
    Row("fifteen", order("-1.00 DS", wearer=born(2011)), silent=("say.driver",)),
    Row("sixteen", order("-1.00 DS", wearer=born(2010)), ("say.driver",), ("parents.play",)),
    Row(
        "first pair",
        order("-1.00 -1.00 x 40", wearer=born(2000, first_pair=True)),
        silent=("first.old_pair",),
        never=("old pair", "Your prescription has changed"),
    ),
    Row(
        "a pair before",
        order("-1.00 -1.00 x 40", previous={"right": "-1.00 -1.00 x 40", "left": "-1.00 -1.00 x 40"}),
        ("first.old_pair",),
        ("right.changed.sphere", "usual.tilt", "drive.changed"),
        ("Keep your old pair at hand",),
    ),
    Row(
        "an oblique change",
        order("-1.00 -1.50 x 40", previous={"right": "-1.00 -0.50 x 40", "left": "-1.00 -0.50 x 40"}),
        ("changed.tilt", "usual.tilt", "drive.changed", "right.changed.cylinder"),
        ("right.changed.sphere", "right.changed.axis"),
        ("cylinder from −0.50 to −1.50", "Floors may seem to tilt", "wait until distances look right"),
        ("harmless",),
    ),
    Row(
        "the same prescription in the other form",
        order("-1.00 -1.00 x 40", previous={"right": "-2.00 +1.00 x 130", "left": "-1.00 -1.00 x 40"}),
        silent=("right.changed.sphere", "right.changed.cylinder", "right.changed.axis"),
    ),
    # --- light and road -------------------------------------------------------------------------------------------
    Row(
        "light-reactive, driver",
        order("-1.00 DS", wearer=born(1990, uses=["driving"]), lens=REACTIVE),
        (
            "drive.night_tint",
            "drive.strong_sun",
            "drive.glare",
            "pair.driving=by-day",
            "shade.summer.darkest=very-dark",
        ),
        ("drive.open", "know.clear_glasses", "tint.dye"),
        (
            "Carry sunglasses with this prescription",
            "darken less than outdoors, and low sun can still tint them",
            "Stop somewhere safe",
            "a quarter of an hour",
        ),
        (
            "Clear in the car",
            "stay pale",
            "In strong sun drive in other glasses",
            "ultraviolet darkens",
            "121",
            "23 to",
        ),
    ),
    Row(
        "light-reactive to ultraviolet, as ordered",
        order("-1.00 DS", lens=REACTIVE | {"dye": "ultraviolet"}),
        ("tint.dye=ultraviolet",),
        words=("ultraviolet darkens them; bright lamps do not",),
    ),
    Row(
        "light-reactive to visible light, as ordered",
        order("-1.00 DS", lens=REACTIVE | {"dye": "visible"}),
        ("tint.dye=visible",),
        words=("behind glass too",),
    ),
    Row(
        "motorcycle",
        order("-1.00 DS", wearer=born(1990, uses=["motorcycle"]), lens=REACTIVE),
        ("drive.open",),
        words=("As dark as outdoors",),
        never=("windscreen protects",),
    ),
    Row(
        "dark sunglasses",
        order("-1.00 DS", lens=DARK),
        ("know.clear_glasses", "drive.fixed_dark", "pair.kind=sunglasses", "pair.driving=by-day"),
        ("drive.too_dark", "know.clearing"),
        ("Never at dusk or at night", "change to clear glasses", "Carry clear glasses"),
        ("Any time",),
    ),
    Row(
        "a light fixed tint under three quarters",
        order("-1.00 DS", lens={"tint": "fixed", "tint_percent": 60.0}),
        ("drive.fixed_dark", "pair.kind=glasses"),
    ),
    Row(
        "a fixed tint over three quarters",
        order("-1.00 DS", lens={"tint": "fixed", "tint_percent": 82.0}),
        ("pair.driving=yes",),
        ("drive.fixed_dark", "know.clear_glasses"),
        never=("Never at dusk",),
    ),
    Row(
        "category 4",
        order("-1.00 DS", lens={"tint": "fixed", "tint_category": 4}),
        ("drive.too_dark", "pair.driving=never"),
        ("drive.plate", "drive.settling"),
        ("Never drive in these: they are too dark for any road",),
        ("sunny roads", "By day: you may drive"),
    ),
    Row(
        "clear lenses, driving not ordered",
        order("-1.00 DS", wearer=born(1990, uses=["screen"])),
        ("drive.not_ordered", "pair.driving=ask"),
        words=("not ordered for driving: ask us first",),
    ),
    Row("nothing said of uses", order("-1.00 DS"), ("pair.driving=yes",), ("drive.not_ordered",)),
    # --- what is sworn off everywhere -----------------------------------------------------------------------------
    Row(
        "an ordinary pair",
        order("-1.00 DS"),
        ("help.now.sight", "help.now.hurt", "help.today.flashes"),
        words=(
            "even if it comes back",
            "do not rinse, rub, press or pull",
            "at least 20 minutes",
            "keep rinsing",
            "hinge screw, never the rim screw",
            "Fitting needs your face",
            "usually has a cause. We look for it",
            "Your legal rights stay",
            "Yellow Card",
            "number plate 20 m away",
        ),
        never=("can put right", "2017/745", "goggles", "confess", "no bench readings", "of 100 parts"),
    ),
)
