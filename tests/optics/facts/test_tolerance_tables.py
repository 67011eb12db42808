"""The tables of the standards as the fact file holds them."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from explainer.errors import FactError
from explainer.optics import facts
from explainer.optics.claim import Basis
from explainer.optics.facts import tolerance_tables as tables
from explainer.optics.formulas.tolerance import allowed

STANDARDS = ("ansi-z80-1-2015", "iso-21987-2017", "new-jersey")
QUANTITIES = ("sphere", "cylinder", "axis", "addition", "progressive-sphere", "progressive-cylinder")
TABLES = [(name, each) for name in STANDARDS for each in QUANTITIES if tables.has(name, each)]


@pytest.mark.parametrize(("standard", "quantity"), TABLES)
def test_the_rows_of_a_table_join_without_gap_or_overlap_and_the_last_is_open(standard: str, quantity: str) -> None:
    rows = tables.bands(standard, quantity)
    assert [row.up_to for row in rows[:-1]] == [row.above for row in rows[1:]]
    assert rows[-1].up_to == math.inf


@pytest.mark.parametrize("standard", STANDARDS)
def test_a_larger_cylinder_never_allows_a_larger_axis_error(standard: str) -> None:
    degrees = [row.allowed for row in tables.bands(standard, "axis")]
    assert degrees == sorted(degrees, reverse=True)


@pytest.mark.parametrize(("standard", "quantity"), [each for each in TABLES if each[1] != "axis"])
def test_a_larger_power_never_allows_a_clearly_smaller_deviation(standard: str, quantity: str) -> None:
    sizes = [step * 0.25 for step in range(81)]
    limits = [allowed(tables.bands(standard, quantity), size=size) or 0.0 for size in sizes]
    # At a change from dioptres to percent the limit may fall by up to the rounding of the standard (0.02 D).
    assert all(later >= before - 0.02 for before, later in pairwise(limits))


def test_new_jersey_is_stricter_about_the_axis_than_the_national_standard() -> None:
    # njac-13-35-5-2 against ansi-z80-1-2015-guide, for the axis.
    for cylinder in (0.25, 0.5, 0.75, 1.0, 1.25, 2.0, 4.0):
        state, nation = (
            allowed(tables.bands(name, "axis"), size=cylinder) for name in ("new-jersey", "ansi-z80-1-2015")
        )
        assert state is not None
        assert nation is not None
        assert state < nation


def test_what_is_known_by_heart_only_is_marked_so() -> None:
    for fact in facts.topic_facts("tolerance").values():
        by_heart = fact.id.startswith("tolerance.iso-21987-2017")
        assert (fact.basis is Basis.MEMORY) == by_heart, fact.id


@pytest.mark.parametrize(("standard", "quantity"), TABLES)
@pytest.mark.parametrize("size", [0.125, 0.25, 1.0, 2.5, 7.0, 13.0])
def test_the_facts_named_for_a_verdict_are_the_ones_that_decide_it(standard: str, quantity: str, size: float) -> None:
    named = tables.fact_ids(standard, quantity, size=size)
    limit = allowed(tables.bands(standard, quantity), size=size)
    assert bool(named) == (limit is not None)
    if named and limit is not None:
        decisive = facts.get(named[0])
        share = size / 100 if decisive.unit == "percent" else 1
        assert limit == pytest.approx(decisive.number * share)


def test_a_table_that_does_not_stand_is_refused() -> None:
    with pytest.raises(FactError, match="cylinder"):
        tables.bands("iso-21987-2017", "cylinder")
