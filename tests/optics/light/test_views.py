"""All bands together, curves in time, and the table of what moves them."""

from __future__ import annotations

import numpy as np
import pytest

from explainer.errors import FactError, OutOfRange
from explainer.optics.light.bands import darken_half_time, fade_time, transmittance
from explainer.optics.light.views import fading, reactive_bands, sensitivity
from explainer.optics.spectacles import LensChoice, LensData

UV = LensChoice(tint="photochromic")
CELSIUS = (5.0, 23.0, 35.0)
SUPPLIED = LensChoice(
    tint="photochromic-visible",
    supplied=LensData(clear_percent=84.0, dark_percent_by_celsius=((23.0, 12.0),), darken_half_s=22.0),
)
FIXED = LensChoice(tint="fixed", tint_category=3)


def test_every_promised_name_has_a_band():
    names = {name for celsius in CELSIUS for name in reactive_bands("photochromic", LensData(), celsius)}

    assert {f"tint.snow.{c}.transmittance" for c in (5, 23, 35)} <= names
    assert {"tint.fade.5.to_75", "tint.fade.35.to_80", "tint.darken.23.half"} <= names
    assert len(names) == 10 * 3 + 3 * 3


def test_other_temperatures_have_their_own_names():
    assert "tint.bench.12.5.transmittance" in reactive_bands("photochromic", LensData(), 12.5)


@pytest.mark.parametrize("lens", [UV, SUPPLIED], ids=["generic", "supplied"])
@pytest.mark.parametrize("celsius", [5, 23, 35])
def test_curves_start_and_end_where_the_bands_say(lens: LensChoice, celsius: float):
    band = transmittance(lens, place="summer_noon", celsius=celsius)
    lighter = fading(lens, seconds=[0, 1e7], celsius=celsius, place="summer_noon")

    ends = (band.interval.low, band.central, band.interval.high)
    assert (lighter.low[0], lighter.central[0], lighter.high[0]) == pytest.approx(ends)


def test_curves_go_one_way_and_keep_their_order():
    times = np.linspace(0, 1200, 60)
    lighter = fading(UV, seconds=times, celsius=23)

    assert np.all(np.diff(lighter.central) >= 0)
    assert np.all(lighter.low <= lighter.central)
    assert np.all(lighter.central <= lighter.high)


def test_the_curve_passes_through_the_stated_time():
    to_75 = fade_time(UV, celsius=23, to_percent=75).central
    assert fading(UV, seconds=[to_75], celsius=23).central[0] == pytest.approx(75)


def test_a_supplied_half_time_is_taken_as_it_is():
    assert darken_half_time(SUPPLIED, celsius=23).central == 22.0


def test_a_fixed_tint_has_no_curves():
    with pytest.raises(FactError):
        fading(FIXED, seconds=[0, 1], celsius=23)


def test_time_does_not_run_backwards():
    with pytest.raises(OutOfRange):
        fading(UV, seconds=[-1.0], celsius=23)


def strongest(band: str) -> str:
    return next(row.move.assumption for row in sensitivity(UV) if row.band == band)


def test_the_table_names_the_assumption_that_matters_most():
    """Behind glass it is the glass, outdoors it is the lens, in the cold the tail of the fading."""
    assert strongest("tint.windscreen_low_sun.23.transmittance") == "light.windscreen.edge"
    assert strongest("tint.side_window_green.23.transmittance") == "light.side_window_green.edge"
    assert strongest("tint.summer_noon.23.transmittance") == "light.photochromic.dark"
    assert strongest("tint.fade.5.to_75") == "light.dye.slow_share"


def test_the_table_explains_both_ends_of_every_band():
    rows = sensitivity(UV)
    kept = [reactive_bands("photochromic", LensData(), celsius) for celsius in CELSIUS]
    for name, band in (row for bands in kept for row in bands.items()):
        reached = [
            value
            for row in rows
            if row.band == name and row.move.assumption != "light.bench.spectrum"
            for value in (row.move.at_low, row.move.at_high)
        ]
        assert min(reached) == pytest.approx(band.interval.low)
        assert max(reached) == pytest.approx(band.interval.high)


def test_the_other_bench_lamp_makes_every_place_lighter():
    """If lenses were tested under the global and not the direct beam, outdoors they would be 4 to 11 points lighter."""
    rows = [row for row in sensitivity(UV, celsius=(23,)) if row.move.assumption == "light.bench.spectrum"]

    assert len(rows) == 9
    assert all(row.move.at_high > row.central for row in rows)
    noon = next(row for row in rows if "summer_noon" in row.band)
    assert 4 <= noon.swing <= 11


def test_fixed_tints_rest_on_no_assumption():
    with pytest.raises(FactError):
        sensitivity(FIXED)
