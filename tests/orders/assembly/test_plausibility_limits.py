"""Every limit of plausibility from both sides: at the limit nothing is said, one step beyond it something is.

The range of powers is that of worn spectacles in NHANES 2007-2008 (codebook of the vision examination: sphere -15 to
+9.25 D, cylinder up to 6.25 D), rounded outward; the other limits are common practice.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from explainer.errors import Fault
from explainer.orders import Order
from explainer.orders.assembly.understood import understood

Data = dict[str, Any]
Read = Callable[..., Order]
Faults = Callable[..., list[Fault]]

LIMITS = [
    # what is changed, at the limit, one step beyond, words of the warning
    ("prescription.right", "-15.00 DS", "-15.25 DS", "a power beyond"),
    ("prescription.right", "+10.00 DS", "+10.25 DS", "a power beyond"),
    ("prescription.right", "-12.00 -3.00 x 90", "-12.00 -3.25 x 90", "a power beyond"),
    ("prescription.right", "+7.00 +3.00 x 90", "+7.00 +3.25 x 90", "a power beyond"),
    ("prescription.right", "+2.00 -6.25 x 90", "+2.00 -6.50 x 90", "a cylinder beyond"),
    ("prescription.right", "-2.00 +6.25 x 90", "-2.00 +6.50 x 90", "a cylinder beyond"),
    ("prescription.right", "+6.25 DS", "+6.50 DS", "differ by more than 4"),
    ("prescription.right", "-1.75 DS", "-2.00 DS", "differ by more than 4"),
    ("prescription.right", "+2.25 DS 10Δ BI", "+2.25 DS 10.25Δ BI", "a prism beyond"),
    ("measurements.pd_mm", 40.0, 39.5, "outside 40 to 80"),
    ("measurements.pd_mm", 80.0, 80.5, "outside 40 to 80"),
    ("wearer.birth_year", 1988, 1989, "for a wearer under 38"),
    ("prescription.written", "2024-10-05", "2024-10-04", "older than 2 years"),
    ("prescription.written", "2026-10-05", "2026-10-06", "after the date"),
]


def changed(plain: Data, path: str, value: object) -> Data:
    table, name = path.split(".")
    del plain["bench"], plain["previous"]
    plain["measurements"] = {}
    if name == "birth_year":
        plain["prescription"]["add"] = "+1.00"
    plain[table][name] = value
    return plain


@pytest.mark.parametrize("limit", LIMITS, ids=str)
def test_a_limit_is_silent_at_itself_and_speaks_beyond(
    limit: tuple[str, object, object, str], plain: Data, read: Read
) -> None:
    path, inside, beyond, words = limit
    quiet = read(changed(plain, path, inside)).warnings
    plain |= {"bench": {}, "previous": {}}
    loud = read(changed(plain, path, beyond)).warnings

    assert not any(words in line for line in quiet), quiet
    assert any(words in line for line in loud), loud


@pytest.mark.parametrize(
    ("born", "add", "odd"),
    [
        (1982, "+2.00", False),
        (1982, "+2.25", True),
        (1981, "+2.25", False),
        (1966, "+1.25", False),
        (1966, "+1.00", True),
    ],
)
def test_an_addition_that_does_not_fit_the_age_is_pointed_out(
    born: int, add: str, odd: bool, plain: Data, read: Read
) -> None:
    """The order's year is 2026: 44, 45 and 60 years old."""
    plain["wearer"]["birth_year"] = born
    plain["prescription"]["add"] = add

    assert any("unusual at this age" in line for line in read(plain).warnings) == odd


@pytest.mark.parametrize("power", ["-25.00 DS", "+25.00 DS", "-20.00 -5.00 x 90"])
def test_powers_up_to_25_are_read(power: str, plain: Data, read: Read) -> None:
    assert read(changed(plain, "prescription.right", power)).number


@pytest.mark.parametrize(
    "power", ["-25.25 DS", "+25.25 DS", "+1.00 -25.25 x 90", {"sphere": -25.25}, {"sphere": 25.25}]
)
def test_powers_beyond_25_are_refused(power: object, plain: Data, faults: Faults) -> None:
    assert faults(changed(plain, "prescription.right", power))[0].field.startswith("prescription.right")


@pytest.mark.parametrize("power", ["-1.25 DS", "-1.125 DS", "-1.12 DS", "-1.37 -0.62 x 90", {"sphere": -1.375}])
def test_quarters_and_eighths_need_no_confirmation(power: object, plain: Data, read: Read) -> None:
    assert read(changed(plain, "prescription.right", power)).number


@pytest.mark.parametrize("power", ["-1.20 DS", "-1.13 DS", "-1.00 -0.55 x 90", "-1.00 DS Add +1.10", {"sphere": -1.2}])
def test_other_steps_need_a_confirmation(power: object, plain: Data, read: Read, faults: Faults) -> None:
    changed(plain, "prescription.right", power)
    assert "confirmed_steps" in faults(plain)[0].accepted

    plain["prescription"]["confirmed_steps"] = True
    assert read(plain).number


def test_the_notation_command_points_out_the_same_powers() -> None:
    assert understood("-15.00 DS")["warnings"] == []
    assert "beyond" in understood("-15.25 DS")["warnings"][0]
    assert understood("-25.25 DS")["understood"] is False
    assert "differ" in understood("R -1.00 DS L -5.25 DS")["warnings"][0]
    assert understood("R -1.00 DS L -5.00 DS")["warnings"] == []
