"""Words for the closed sets of situations: shades, coarse times, uses, first days, what changed, places on a lens."""

from __future__ import annotations


def _(message: str) -> str:
    """Marks a message for extraction."""
    return message


SHADES = {
    "nearly-clear": _("nearly clear"),
    "light": _("light"),
    "medium": _("medium"),
    "dark": _("dark"),
    "very-dark": _("very dark"),
}
FROM_TO = _("%(low)s to %(high)s")
TIMES = {
    "one-minute": _("one minute"),
    "three-minutes": _("three minutes"),
    "five-minutes": _("five minutes"),
    "ten-minutes": _("ten minutes"),
    "quarter-hour": _("a quarter of an hour"),
    "twenty-minutes": _("twenty minutes"),
    "half-hour": _("half an hour"),
    "three-quarters-hour": _("three quarters of an hour"),
    "one-hour": _("an hour"),
    "hour-and-half": _("an hour and a half"),
    "two-hours": _("two hours"),
    "three-hours": _("three hours"),
    "several-hours": _("several hours"),
}
# what a pair may be promised for; snow, water, sport and rough work are never promised
USES = {
    "driving": _("driving"),
    "night-driving": _("driving at night"),
    "motorcycle": _("riding a motorcycle"),
    "cycling": _("cycling"),
    "screen": _("working at a screen"),
    "reading": _("reading"),
    "close-work": _("close work"),
    "outdoors": _("being outdoors"),
}
USUAL = {
    "usual.tilt": _("floors seem to tilt"),
    "usual.swim": _("the sides seem to swim"),
    "usual.jump": _("the picture jumps at the line"),
    "usual.larger": _("things look larger and nearer"),
    "usual.smaller": _("things look smaller and farther off"),
    "usual.sizes_differ": _("sizes look different to each eye"),
    "usual.strain": _("your eyes feel strained"),
    "usual.far_blurred": _("far things are blurred"),
}
UNUSUAL = {
    "unusual.one_worse": _("one eye is clearly worse"),
    "unusual.eye_worse": _("your seeing eye is worse"),
    "unusual.double": _("you see double with them on"),
    "unusual.head": _("you must lift or turn your head to see sharply"),
    "unusual.line": _("the line cuts your view ahead"),
}
CHANGED = {
    "sphere": _("sphere from %(then)s to %(now)s"),
    "cylinder": _("cylinder from %(then)s to %(now)s"),
    "axis": _("axis from %(then)s to %(now)s"),
    "add": _("addition from %(then)s to %(now)s"),
}
NAMES_OF_PARTS = {"sphere": _("sphere"), "cylinder": _("cylinder"), "axis": _("axis"), "add": _("addition")}
CHANGED_NAMES = _("%(parts)s changed")
NEW = {"axis": _("axis %(now)s is new"), "add": _("addition %(now)s is new")}
GONE = {"axis": _("no axis any more"), "add": _("no addition any more")}

_TIME_WORDS = {f"{end}={word}": text for end in ("from", "to") for word, text in TIMES.items()}
SITUATION_WORDS = {
    **_TIME_WORDS,
    "thickest.place=middle": _("in the middle"),
    "thickest.place=nose": _("towards the nose"),
    "thickest.place=temple": _("towards the ear"),
    "thickest.place=edge": _("at the edge"),
    "thinner.share=half": _("About half"),
    "thinner.share=two-fifths": _("About two fifths"),
    "thinner.share=third": _("About a third"),
    "thinner.share=quarter": _("About a quarter"),
    "thinner.share=fifth": _("About a fifth"),
    "thinner.share=sixth": _("About a sixth"),
    "thinner.share=tenth": _("About a tenth"),
}
