"""Words that do not stand in a section: members of closed sets, table heads, figure labels."""

from __future__ import annotations


def _(message: str) -> str:
    """Marks a message for extraction."""
    return message


# "<claim id or its last part>=<value>": the reader's word
WORDS = {
    "lens.material=hard-resin": _("hard resin"),
    "lens.material=polycarbonate": _("polycarbonate"),
    "lens.material=urethane-1.53": _("urethane, index class %(name)s"),
    "lens.material=high-index-1.60": _("high-index plastic, class %(name)s"),
    "lens.material=high-index-1.67": _("high-index plastic, class %(name)s"),
    "lens.material=high-index-1.74": _("high-index plastic, class %(name)s"),
    "lens.material=crown-glass": _("crown glass"),
    "lens.design=single-vision": _("one power in the whole lens"),
    "lens.design=reading": _("reading glasses"),
    "lens.design=bifocal": _("bifocal"),
    "lens.design=progressive": _("progressive"),
    "verdict=inside": _("inside the limit"),
    "verdict=outside": _("outside the limit"),
    "verdict=not-checked": _("not checked"),
    "bench.standard=ansi-z80-1-2015": _("the standard %(name)s"),
    "bench.standard=new-jersey": _("the New Jersey rule"),
    "bench.standard=iso-21987-2017": _("the standard %(name)s"),
    "bench.standard=own-limits": _("our copy of the standard"),
    "tint.class=clear": _("clear"),
    "tint.class=fixed": _("fixed tint"),
    "tint.class=photochromic": _("light-reactive"),
    "tint.class=photochromic-visible": _("light-reactive, also to visible light"),
}

# Proper names that a message takes in: catalogues hold no digits of their own.
NAMES = {
    "urethane-1.53": "1.53",
    "high-index-1.60": "1.60",
    "high-index-1.67": "1.67",
    "high-index-1.74": "1.74",
    "ansi-z80-1-2015": "ANSI Z80.1-2015",
    "iso-21987-2017": "ISO 21987:2017",
}

EYES = {"right": _("Right eye"), "left": _("Left eye")}
LENSES = {"right": _("Right lens"), "left": _("Left lens")}
SIGNALS = {"WARNING": _("WARNING"), "CAUTION": _("CAUTION")}

BASES = {
    "definition": _("Chosen by us"),
    "ordered": _("Copied"),
    "measured": _("Measured"),
    "supplied": _("Our own data"),
    "computed": _("Calculated"),
    "standard": _("Standards"),
    "regulation": _("Law"),
    "published": _("Studies and handbooks"),
    "common-practice": _("Common practice"),
    "memory": _("Typical"),
}

# what stands behind a kind of statement, for the kinds that have no titles to cite
DETAILS = {
    "definition": _("examples, such as a pupil width"),
    "ordered": _("your order"),
    "measured": _("at our bench"),
    "supplied": _("what we know of this lens"),
    "computed": _("from these, by published formulas"),
    "common-practice": _("what opticians see"),
    "memory": _("not checked against a source"),
}

COATINGS = {
    "hard": _("against scratches"),
    "anti-reflection": _("against reflections"),
    "easy-clean": _("easy-clean"),
    "anti-static": _("against static dust"),
    "anti-fog": _("against fog"),
    "uv-filter": _("ultraviolet filter"),
    "blue-filter": _("blue-light filter"),
    "mirror": _("mirror"),
    "polarising": _("polarising"),
}
LEGAL_NAMES = {"eu": "(EU) 2017/745", "uk": "UK MDR 2002", "us": "21 CFR 801.410"}
# the rows of the bench table, by the part of the claims' names
BENCH_PARTS = {
    "stronger": _("Power, stronger direction"),
    "weaker": _("Power, weaker direction"),
    "sphere": _("Sphere"),
    "cylinder": _("Cylinder"),
    "axis": _("Axis"),
    "add": _("Addition"),
    "height": _("Height"),
    "reference_point": _("Distance from the nose"),
}
# what can be measured, as the page names it: what was read, and what was not
MEASURED = {
    "power": _("powers"),
    "axis": _("axes"),
    "addition": _("additions"),
    "prism": _("prism"),
    "centring": _("centring"),
    "height": _("heights"),
    "thickness": _("thickness"),
    "tint": _("tint"),
    "weight": _("weight"),
}
WORDS |= {
    f"bench.{kind}.{quantity}={where}": word
    for kind in ("read", "not_read")
    for where in ("all", "right", "left")
    for quantity, word in MEASURED.items()
}
OF_ONE_LENS: dict[object, str] = {
    "right": _("%(quantity)s of the right lens"),
    "left": _("%(quantity)s of the left lens"),
}
PLACES = {
    "summer_noon": _("Clear sky, high sun"),
    "open_shade": _("Open shade"),
    "overcast": _("Cloudy sky"),
    "snow": _("Snow, high mountains"),
    "windscreen_low_sun": _("Behind the windscreen, low sun ahead"),
    "windscreen_shaded": _("Behind the windscreen, in the roof's shade"),
    "side_window_clear": _("Sun through a clear side window"),
    "side_window_green": _("Sun through a green side window"),
    "convertible": _("Open-top car"),
}
