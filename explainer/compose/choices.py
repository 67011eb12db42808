"""Which of many true things stand on a page that has room for few: two things to know, three driving lines, and so on.

Whether something is true for a wearer was decided by the core. Here is only what comes first: what can hurt before what
is awkward, what is rare before what every pair has.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from explainer.optics.claims.ledger import ClaimSet

KNOW = (
    "stairs near_only unequal one_eye glass rim clear_glasses nose balance loses_near near_blurred plano_pair plano "
    "find_distance unequal_near short_reading own_frame polarising rimless clearing open_air smaller settling falls "
    "recheck"
).split()
"""What to know, the most important first; claims named `know.…`."""

TRIANGLES = frozenset({"stairs", "near_only", "unequal"})
"""Things to know that are a danger. One triangle beside the driving box, not two."""

DRIVE = (
    "too_dark unknown_tint near_only fixed_dark double one_eye night_tint changed settling not_ordered plate"
).split()
"""What to heed before driving, the most important first; claims named `drive.…`."""

CHECK = "right_pair as_ordered fit child seeing_eye each_eye small_print one_line one_picture lines_level".split()
"""What to look at on the first day, in the order of doing it; those with a claim of their own stand only with it."""

DRIVING = "first_days double one_eye night rain strong_sun open glare tunnel".split()
"""The rows of the driving table, in order."""

FACTS = "uv reflections knocks edges".split()
_MOST_KNOW, _MOST_DRIVE, _MOST_CHECK, _MOST_FACTS = 2, 3, 6, 3

_ICONS = {
    "stairs": "stairs", "near_only": "book", "unequal": "unequal", "one_eye": "eye", "clear_glasses": "exchange",
    "nose": "nose", "clearing": "clock", "settling": "clock", "recheck": "calendar", "find_distance": "distance",
    "near_blurred": "distance", "loses_near": "book", "short_reading": "book", "unequal_near": "unequal",
    "smaller": "stairs", "falls": "stairs", "first_days": "calendar", "night": "moon", "rain": "rain",
    "strong_sun": "snow", "open": "sun", "open_air": "sun", "glare": "low_sun", "tunnel": "car",
}  # fmt: skip

_ALWAYS = frozenset({"check.right_pair", "check.as_ordered", "check.fit"})
_RESTS_ON = {
    "know.plano": ("right.plano", "left.plano"),  # the pair without power comes before it in the list
    "know.plano_pair": ("say.plano_pair",),
    "can_i_drive.first_days": ("drive.changed", "drive.settling"),
    "can_i_drive.double": ("drive.double",),
    "can_i_drive.one_eye": ("drive.one_eye",),
    "can_i_drive.night": ("drive.fixed_dark", "drive.night_tint"),
    "can_i_drive.rain": ("know.clear_glasses",),
    "can_i_drive.strong_sun": ("drive.strong_sun",),
    "can_i_drive.open": ("drive.open",),
    "can_i_drive.glare": ("drive.glare",),
    "can_i_drive.tunnel": ("tint.tail", "know.clear_glasses"),
    "facts.uv": ("lens.uv_edge",),
    "facts.reflections": ("lens.coating.anti-reflection",),
    "facts.knocks": ("lens.impact.best", "lens.impact.glass"),
    "facts.edges": ("lens.fringe_seen",),
}


@dataclass(frozen=True, slots=True)
class Choices:
    """What was chosen, by the last part of each phrase's name."""

    know: tuple[str, ...]
    drive: tuple[str, ...]
    check: tuple[str, ...]
    driving: tuple[str, ...]
    facts: tuple[str, ...]

    def icon(self, name: str) -> str:
        """The picture beside it; a triangle for the first thing to know that is a danger."""
        dangers = [each for each in self.know if each in TRIANGLES]
        return "triangle" if dangers and name == dangers[0] else _ICONS.get(name, "eye")


def choose(claims: ClaimSet) -> Choices:
    """The first few of each list that hold."""
    rows = _first(claims, "can_i_drive", DRIVING, len(DRIVING))
    tinted = claims.value("tint.class") not in (None, "clear")
    lines = [name for name in DRIVE if name != "plate" or not (tinted and rows)]  # the table of rows ends with it
    if claims.value("drive.not_ordered") is True:  # who is to ask first is given no test to pass
        lines = [name for name in lines if name not in ("changed", "settling", "plate")]
    drive = _first(claims, "drive", lines, _MOST_DRIVE)
    said_before = {"changed", "settling"} & set(drive)
    return Choices(
        know=_first(claims, "know", KNOW, _MOST_KNOW),
        drive=drive,
        check=_first(claims, "check", CHECK, _MOST_CHECK),
        driving=tuple(name for name in rows if not (said_before and name == "first_days")),
        facts=_first(claims, "facts", FACTS, _MOST_FACTS),
    )


def _first(claims: ClaimSet, prefix: str, names: Sequence[str], most: int) -> tuple[str, ...]:
    return tuple(name for name in names if _holds(claims, f"{prefix}.{name}"))[:most]


def _holds(claims: ClaimSet, name: str) -> bool:
    """Whether one of the claims that it rests on was issued, and did not answer no."""
    return name in _ALWAYS or any(claims.value(each) not in (None, False) for each in _RESTS_ON.get(name, (name,)))
