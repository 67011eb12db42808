"""What the bands of a lens mean on the road: category, driving at night, the pair of lens and pane."""

from __future__ import annotations

from typing import Literal

from explainer.optics import facts
from explainer.optics.claim import Interval
from explainer.optics.formulas import tint
from explainer.optics.light.bands import Band, reactive_class, unchanging
from explainer.optics.light.daylight import Place
from explainer.optics.light.lens import lens_family
from explainer.optics.light.places import PANES
from explainer.optics.spectacles import LensChoice

ByNight = Literal["yes", "no", "when-clear"]


def category(percent: float) -> int | None:
    """The filter category of a luminous transmittance [percent]; None when darker than the last."""
    bounds = [facts.get(f"light.category.{number}").interval for number in range(5)]
    return tint.category(
        transmittance=percent / 100,
        upper_bounds=tuple(bound.high / 100 for bound in bounds),
        darkest=bounds[-1].low / 100,
    )


def categories(light: Interval) -> tuple[int | None, int | None]:
    """The lightest and the darkest category that a band of transmittance [percent] touches."""
    return category(light.high), category(light.low)


def with_pane(band: Band, *, place: Place) -> Band | None:
    """What reaches the eye through lens and car glass [percent]; None where there is no glass."""
    if place not in PANES or band.interval is None or band.outer is None:
        return None
    fact = facts.get(f"light.{'windscreen' if PANES[place] == 'windscreen' else 'side_window'}.light.range")
    return Band(
        interval=_product(band.interval, fact.interval),
        outer=_product(band.outer, fact.interval),
        unit="percent",
        formula=tint.through_both,
        facts=tuple(dict.fromkeys([*band.facts, fact.id])),
        supplied=band.supplied,
    )


def driving_by_night(lens: LensChoice) -> ByNight:
    """Whether the tint is light enough at dusk and at night: yes, no, or only once it has cleared.

    The limit is for the lens alone. A lens that may be darker than the limit, even when clear, is a no.
    """
    limit = facts.number("light.night_driving_limit") / 100
    reactive = reactive_class(lens.tint)
    if reactive is not None:
        lightest = lens_family(reactive, lens.supplied).clear.low
        return "when-clear" if tint.drives_by_night(transmittance=lightest, lightest=limit) else "no"
    light = unchanging(lens).interval
    fine = light is not None and tint.drives_by_night(transmittance=light.low / 100, lightest=limit)
    return "yes" if fine else "no"


def _product(first: Interval, second: Interval) -> Interval:
    low, high = (
        100 * tint.through_both(lens=lens / 100, glass=glass / 100)
        for lens, glass in ((first.low, second.low), (first.high, second.high))
    )
    return Interval(low, high)
