"""The guard of the formulas."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explainer.errors import OutOfRange
from explainer.optics.formulas import ranges


@given(value=st.floats(allow_nan=False))
def test_a_value_passes_unchanged_or_not_at_all(value: float) -> None:
    if -2 <= value <= 3:
        assert ranges.within("value", value, -2, 3) == value
    else:
        with pytest.raises(OutOfRange):
            ranges.within("value", value, -2, 3)


def test_the_refusal_names_the_thing_the_value_and_the_range() -> None:
    with pytest.raises(OutOfRange, match=r"vertex distance = 55 is outside 0 to 40 mm"):
        ranges.within("vertex distance", 55, 0, 40, "mm")


@pytest.mark.parametrize("nonsense", [math.nan, math.inf, -math.inf])
def test_what_is_no_number_never_passes(nonsense: float) -> None:
    for guard in (lambda: ranges.power("power", nonsense), lambda: ranges.index(nonsense)):
        with pytest.raises(OutOfRange):
            guard()
