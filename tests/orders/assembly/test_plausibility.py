"""Warnings for what looks odd though it is sound in form.

The range of powers is that of worn spectacles in NHANES 2007-2008 (codebook of the vision examination: sphere -15 to
+9.25 D, cylinder up to 6.25 D), rounded outward; the other bounds are common practice.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from explainer.orders import Order

Data = dict[str, Any]
Read = Callable[..., Order]


def test_an_ordinary_order_has_no_warning(plain: Data, read: Read) -> None:
    assert read(plain).warnings == ()


@pytest.mark.parametrize(
    ("changes", "word"),
    [
        ({"prescription": {"right": "-15.25 DS", "left": "-14.00 DS"}}, "right eye: a power beyond"),
        ({"prescription": {"right": "+9.50 DS", "left": "+10.25 DS"}}, "left eye: a power beyond"),
        ({"prescription": {"right": "+1.75 -6.50 x 63", "left": "plano"}}, "right eye: a cylinder beyond"),
        ({"prescription": {"right": "-2.00 DS", "left": "+2.25 DS"}}, "differ by more than 4"),
        ({"prescription": {"right": "-1.00 DS", "left": "+1.25 DS"}}, "one eye is plus"),
        ({"prescription": {"right": "+1.75 -0.50 x 63", "left": "+1.75 +0.50 x 9"}}, "one cylinder is plus"),
        (
            {"prescription": {"right": "+1.75 DS Add +2.00", "left": "+1.75 DS Add +1.75"}},
            "additions of the eyes differ",
        ),
        ({"prescription": {"right": "+1.75 DS 1Δ BU", "left": "+1.75 DS 1Δ BU"}}, "vertical prism"),
        ({"prescription": {"right": "+1.75 DS 1Δ BI", "left": "+1.75 DS 1Δ BO"}}, "horizontal prism"),
        ({"prescription": {"right": "+1.75 DS 12Δ BI", "left": "+1.75 DS"}}, "a prism beyond"),
        ({"prescription": {"add": "+1.00"}, "wearer": {"birth_year": 2000}}, "a reading addition for a wearer under"),
        ({"lens": {"design": "progressive"}}, "without a reading addition"),
        ({"measurements": {"pd_right_mm": 42.0, "pd_left_mm": 41.0}}, "outside 40 to 80"),
        ({"measurements": {"pd_right_mm": 34.0, "pd_left_mm": 29.0}}, "differ by more than 4 mm"),
        ({"measurements": {"near_pd_mm": 64.0}}, "near pupillary distance"),
        ({"prescription": {"written": "2024-10-04"}}, "older than 2 years"),
        ({"prescription": {"written": "2026-10-06"}}, "after the date"),
        ({"previous": {"right": "+5.25 DS"}}, "right eye: changed by more than 3"),
        (
            {
                "prescription": {"right": "+2.00 DS", "left": "-1.00 DS"},
                "previous": {"right": "-1.00 DS", "left": "+2.00 DS"},
            },
            "eyes exchanged",
        ),
    ],
)
def test_what_looks_odd_is_pointed_out(changes: dict[str, Data], word: str, plain: Data, read: Read) -> None:
    for table, fields in changes.items():
        plain[table] |= fields

    assert any(word in warning for warning in read(plain).warnings)


@pytest.mark.parametrize(
    "changes",
    [
        {
            "prescription": {"right": "-15.00 DS", "left": "-14.00 DS"},
            "previous": {"right": "-15.00 DS", "left": "-14.00 DS"},
        },
        {"prescription": {"written": "2024-10-05"}},
        {"measurements": {"pd_right_mm": 40.0, "pd_left_mm": 40.0}},
    ],
)
def test_the_bounds_themselves_are_not_pointed_out(changes: dict[str, Data], plain: Data, read: Read) -> None:
    del plain["bench"]
    for table, fields in changes.items():
        plain[table] |= fields

    assert read(plain).warnings == ()
