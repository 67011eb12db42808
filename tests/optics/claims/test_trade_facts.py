"""What practitioners say about light-reactive lenses, against the model: where they agree, and where they do not.

The sayings are common practice, no source: darkening is largely done within 30 to 45 s in strong light; indoors a
clear lightening is seen within 45 to 75 s; they work well at about 29 C and below and poorly at 35 to 38 C; hardly
in a closed car; fully in an open car or on a motorcycle. A finding that does not hold any more fails here, and the
words of the leaflet must then follow.
"""

from __future__ import annotations

import numpy as np
import pytest
from handwork import share_after
from studies import study

from explainer.optics import facts
from explainer.optics.formulas import tint
from explainer.optics.light.bands import fade_time, transmittance
from explainer.optics.light.lens import lens_family
from explainer.optics.light.places import PANES, exposure
from explainer.optics.light.views import fading
from explainer.optics.spectacles import LensChoice

UV = LensChoice(tint="photochromic")


def said(name: str):
    return study(f"light.trade.{name}").interval


def category(percent: float) -> int | None:
    bands = [facts.get(f"light.category.{number}").interval for number in range(5)]
    bounds = tuple(band.high / 100 for band in bands)
    return tint.category(transmittance=percent / 100, upper_bounds=bounds, darkest=bands[-1].low / 100)


def part_of_the_change(seconds: float, celsius: float, place) -> float:
    """How much of the light that is going to be taken away has been taken away, central lens."""
    lens = lens_family("photochromic", UV.supplied).usual
    exposed = exposure(place, "photochromic").usual
    rates = {"colouring_rate": lens.colouring_rate(exposed, celsius), "fade_rate": lens.fade_rate(celsius)}
    shares = share_after(seconds=np.array([0, seconds, 1e6]), start=0.0, **rates)
    start, now, end = lens.transmittance(shares)
    return (start - now) / (start - end)


def test_agrees_in_summer_sun_darkening_is_largely_done_in_30_to_45_seconds():
    soon, late = said("darkening_done").low, said("darkening_done").high

    assert part_of_the_change(soon, 23, "summer_noon") > 0.8
    assert part_of_the_change(late, 23, "summer_noon") > 0.9


def test_agrees_less_in_weaker_light():
    """On the bench, with half the ultraviolet of summer noon, 45 s still do most; under cloud they do less."""
    late = said("darkening_done").high

    assert part_of_the_change(late, 23, "bench") > 0.8
    assert part_of_the_change(late, 23, "overcast") < part_of_the_change(late, 23, "bench")


def test_agrees_at_room_temperature_a_lightening_is_seen_in_45_to_75_seconds():
    """Seen: half as much light again as at first. At 23 C from the dark of summer noon."""
    start, soon, late = fading(
        UV, seconds=[0, said("lightening_seen").low, said("lightening_seen").high], celsius=23, place="summer_noon"
    ).central

    assert soon / start > 1.5
    assert late / start > 2


def test_does_not_agree_in_the_cold():
    """A lens that stays at 5 C has hardly changed after 75 s: about a quarter more light."""
    start, late = fading(UV, seconds=[0, said("lightening_seen").high], celsius=5, place="summer_noon").central

    assert late / start < 1.4


def test_does_not_agree_that_lightening_means_clear():
    """Seen in a minute, but clear enough for night driving only after minutes, even for the quickest of the band."""
    assert fade_time(UV, celsius=23, to_percent=75).interval.low > 2 * said("lightening_seen").high


def test_agrees_category_three_in_the_sun_up_to_29_degrees():
    warm = study("light.trade.works_well_up_to").number

    assert category(transmittance(UV, place="summer_noon", celsius=warm).central) == 3


def test_agrees_in_direction_but_not_in_the_word_poorly_at_35_to_38_degrees():
    """A category lighter than at 23 C, in the sun still 20 to 30 %: weaker, not useless; no cliff, a slope."""
    heat = said("works_poorly")
    tints = [transmittance(UV, place="summer_noon", celsius=c).central for c in (23, 29, heat.low, heat.high)]

    assert tints == sorted(tints)
    assert category(tints[0]) == 3
    assert [category(percent) for percent in tints[2:]] == [2, 2]
    assert 20 < tints[2] < tints[3] < 30


def test_agrees_hardly_in_a_closed_car_when_the_roof_shades_the_lens():
    band = transmittance(UV, place="windscreen_shaded", celsius=23)

    assert band.interval.low > 80


def test_does_not_agree_hardly_with_a_low_sun_through_the_windscreen_or_sun_at_the_side():
    """Between a slight and a clear tint through the windscreen; through clear side glass nearly as dark as outdoors."""
    ahead = transmittance(UV, place="windscreen_low_sun", celsius=23)
    side = transmittance(UV, place="side_window_clear", celsius=23)

    assert ahead.interval.low < 60 < ahead.central < 75
    assert category(side.central) == 3


@pytest.mark.parametrize("celsius", [5, 23, 35])
def test_agrees_fully_in_an_open_car_to_a_few_points(celsius: float):
    """62 % of the ultraviolet of outdoors (arm dose, Photodermatol 2003) costs few points, as the dye saturates."""
    opened, outdoors = (transmittance(UV, place=p, celsius=celsius).central for p in ("convertible", "summer_noon"))

    assert 0 < opened - outdoors < 10


def test_agrees_the_motorcycle_without_a_visor_is_outdoors():
    """No glass before the lens: it gets at least what an open car gets. With a visor it depends on the visor."""
    riding, opened = (exposure(place, "photochromic") for place in ("summer_noon", "convertible"))

    assert "summer_noon" not in PANES
    assert riding.usual > opened.usual
