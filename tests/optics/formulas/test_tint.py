"""Tints: what the tables of worked cases cannot say, mostly with spectra (see also tests/published/light.toml)."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from studies import study

from explainer.optics import facts
from explainer.optics.formulas import tint
from explainer.optics.formulas.spectrum import Spectrum

NM = np.arange(380.0, 781.0, 5.0)
BOUNDS = (1.0, 0.80, 0.43, 0.18, 0.08)
RED_LAMP = Spectrum(NM, 1 / (1 + np.exp(-(NM - 610) / 6)))
BLUE_LAMP = Spectrum(NM, np.exp(-(((NM - 470) / 20) ** 2)))


@given(first=st.floats(0, 1), second=st.floats(0, 1))
def test_a_lighter_tint_never_has_a_darker_category(first: float, second: float):
    light, dark = max(first, second), min(first, second)
    here, there = (tint.category(transmittance=t, upper_bounds=BOUNDS, darkest=0.03) for t in (light, dark))

    assert (5 if here is None else here) <= (5 if there is None else there)


def test_the_bounds_of_the_categories_meet():
    bands = [facts.get(f"light.category.{number}").interval for number in range(5)]

    assert [band.high / 100 for band in bands] == list(BOUNDS)
    assert all(lighter.low == darker.high for lighter, darker in pairwise(bands))
    assert facts.number("light.day_driving_limit") == bands[4].high


def test_the_older_limit_of_uvb_for_yellow_night_glasses():
    """Press report of 2002: a tenth of the luminous transmittance, 6.1 % for glasses with 61.1 %."""
    share = study("light.uvb_share_allowed_2002").number / 100

    assert share * study("light.failed_night_glasses").number == pytest.approx(6.1, abs=0.05)
