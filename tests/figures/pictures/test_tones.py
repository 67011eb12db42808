"""The shade of a lens on paper, against colour-science: its luminance is the light that the lens lets through."""

from __future__ import annotations

import re

import pytest
from figures.pictures.orders import explained, picture
from figures.pictures.shapes import luminance_percent, style

from explainer.errors import OutOfRange
from explainer.figures.tones import _HUES, tone
from explainer.optics.claim import Interval


@pytest.mark.parametrize("hue", sorted(_HUES))
@pytest.mark.parametrize("percent", [3.5, 8.0, 13.0, 18.0, 30.5, 43.0, 61.5, 75.0, 85.0, 92.0, 100.0])
def test_a_tone_has_the_lenss_luminance(percent: float, hue: str) -> None:
    assert luminance_percent(tone(percent, hue)) == pytest.approx(percent, abs=0.5)


def test_a_light_that_no_lens_lets_through_is_refused() -> None:
    with pytest.raises(OutOfRange):
        tone(101)


def painted(name: str, key: str, part: str) -> float:
    found = re.search(r"fill: (#[0-9a-f]{6})", style(picture(name, key), part))
    assert found is not None
    return luminance_percent(found[1])


def test_left_of_the_slant_the_palest_right_the_darkest() -> None:
    band = explained("photochromic-driver").claims.value("shade.sun.light")
    assert isinstance(band, Interval)
    for side in ("right", "left"):
        assert painted("photochromic-driver", "state_sun", f"shade-{side}-palest") == pytest.approx(band.high, abs=0.5)
        assert painted("photochromic-driver", "state_sun", f"shade-{side}-darkest") == pytest.approx(band.low, abs=0.5)


def test_a_fixed_tint_has_one_shade_and_no_slant() -> None:
    """The order says that 14 per cent pass."""
    for side in ("right", "left"):
        assert painted("dark-tint-three", "pair", f"lens-{side}") == pytest.approx(14, abs=0.5)
        assert painted("dark-tint-three", "state_fixed", f"shade-{side}-palest") == pytest.approx(14, abs=0.5)
    assert b"darkest" not in picture("dark-tint-three", "state_fixed").svg


def test_a_light_reactive_pair_is_drawn_untinted() -> None:
    assert painted("photochromic-driver", "pair", "lens-right") > 88
