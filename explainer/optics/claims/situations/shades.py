"""The light in words: how dark the lenses are in six scenes, in the car and in the sun, and coarse times to clear.

A scene is the extent of the places behind it. Where the order does not say which kind of dye it is, what lies behind
glass is the extent of both kinds: nothing is asserted that is not known.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from explainer.optics.claim import Interval
from explainer.optics.claims import tint
from explainer.optics.claims.ledger import FACT, Asked, Ledger
from explainer.optics.claims.situations.asking import fact
from explainer.optics.claims.working import high, low
from explainer.optics.formulas.extent import of_ends
from explainer.optics.formulas.reactive import is_reactive
from explainer.optics.light.daylight import Place
from explainer.optics.light.places import PANES
from explainer.optics.light.views import reactive_bands
from explainer.optics.spectacles import LensChoice, Spectacles

_EVERY = ("5", "23", "35")
_SIDES: tuple[Place, ...] = ("side_window_clear", "side_window_green")
_SHIELDED: tuple[Place, ...] = ("windscreen_low_sun", "windscreen_shaded")
SCENES: dict[str, tuple[tuple[Place, ...], tuple[str, ...]]] = {
    "cloudy": (("overcast",), ("23",)),
    "summer": (("summer_noon",), ("23",)),
    "cold": (("summer_noon", "snow"), ("5",)),
    "windscreen": (("windscreen_low_sun",), ("23",)),
    "side": (_SIDES, ("23",)),
    "car": ((*_SHIELDED, *_SIDES), _EVERY),
    "sun": (("summer_noon", "snow"), _EVERY),
}
SHADES = ("nearly-clear", "light", "medium", "dark", "very-dark")
"""The words for the five filter categories, lightest first."""
TIMES = {
    "one-minute": 1,
    "three-minutes": 3,
    "five-minutes": 5,
    "ten-minutes": 10,
    "quarter-hour": 15,
    "twenty-minutes": 20,
    "half-hour": 30,
    "three-quarters-hour": 45,
    "one-hour": 60,
    "hour-and-half": 90,
    "two-hours": 120,
    "three-hours": 180,
    "several-hours": 1440,
}
"""Coarse times [minutes]: the evidence gives no finer ones."""
_NAMES = {"5": "cold", "23": "mild", "35": "hot"}
_FADING = {"warm": "35", "mild": "23", "cold": "5"}


def issue(ledger: Ledger, spectacles: Spectacles) -> None:
    """The light of each scene; nothing but for light-reactive lenses."""
    lens = spectacles.lens
    if not is_reactive(lens.tint):
        return
    _indoors(ledger, lens)
    for scene, (places, temperatures) in SCENES.items():
        parts = [f"tint.{place}.{celsius}.transmittance" for place in places for celsius in temperatures]
        parts += _of_other_kind(ledger, lens, places, temperatures)
        ends = tuple(end(part) for part in parts for end in (low, high))
        ledger.part(f"shade.{scene}.light", ledger.work(of_ends, ends=ends).span("least", "greatest"))


def _indoors(ledger: Ledger, lens: LensChoice) -> None:
    """The lens at rest: the range for its kind, or the workshop's figure."""
    own = "lens.data.clear_percent"
    light = own if own in ledger else f"{FACT}light.{lens.tint}.clear.range"
    ledger.part("shade.indoors.light", ledger.work(of_ends, ends=(low(light), high(light))).span("least", "greatest"))


def _of_other_kind(
    ledger: Ledger, lens: LensChoice, places: tuple[Place, ...], temperatures: tuple[str, ...]
) -> list[str]:
    """Bands behind glass for the other kind of dye, where the order leaves the kind open."""
    if lens.dye is not None or lens.tint != "photochromic":
        return []
    found = []
    for place in places:
        for celsius in temperatures if place in PANES else ():
            claim_id = f"tint.other_dye.{place}.{celsius}"
            if claim_id not in ledger:
                at = f"tint.temperature.{_NAMES[celsius]}"
                bands = reactive_bands("photochromic-visible", lens.supplied.of_light(), ledger.number(at))
                band = bands[f"tint.{place}.{celsius}.transmittance"]
                tint.issue_band(ledger, claim_id, band, at, tint.supplied_refs(lens.supplied))
            found.append(claim_id)
    return found


def shade(scene: str, end: str) -> Callable[[Asked], Any]:
    """The word for the lightest or the darkest end of a scene."""

    def rule(ask: Asked) -> str | None:
        light = ask.value(f"shade.{scene}.light")
        if light is None:
            return None
        percent = light if not isinstance(light, Interval) else light.high if end == "lightest" else light.low
        if end == "lightest":
            percent -= fact(ask, "shade.reach")
        bounds = [ask.value(f"{FACT}light.category.{number}") for number in range(5)]
        return next((word for word, bound in zip(SHADES, bounds, strict=True) if percent > bound.low), SHADES[-1])

    return rule


def coarse(name: str, end: str) -> Callable[[Asked], Any]:
    """A time to clear, in a coarse step that holds it: the low end rounded down, the high end up."""

    def rule(ask: Asked) -> str | None:
        time = ask.value(f"tint.fade.{_FADING[name]}.to_75")
        if time is None:
            return None
        ends = time if isinstance(time, Interval) else Interval(time, time)
        if end == "to":
            return next(word for word, minutes in TIMES.items() if ends.high <= minutes * 60 or minutes > 180)
        below = [word for word, minutes in TIMES.items() if minutes * 60 <= ends.low]
        return below[-1] if below else None

    return rule


RULES = {
    **{f"shade.{scene}.{end}": shade(scene, end) for scene in ("indoors", *SCENES) for end in ("lightest", "darkest")},
    **{f"clearing.{name}.{end}": coarse(name, end) for name in _FADING for end in ("from", "to")},
}
