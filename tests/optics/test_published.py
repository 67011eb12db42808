"""Every worked case of tests/published/*.toml against the formula it names, and every refuted number against it.

A case:     id, formula (below explainer.optics.formulas), through (a way of tests/handwork.py to put a published
            number to that formula), inputs, expected, tolerance with its reason, source,
            locator, status (found: printed in the source; derived: worked from the stated rule; memory), weak.
A must_not: id, formula and inputs (or a fact), printed, correct, tolerance with its reason, locator, why.
A weak source is no authority; its arithmetic was worked again, and only that counts here.
"""

from __future__ import annotations

import importlib
import tomllib
from collections import Counter
from pathlib import Path
from typing import Any

import handwork
import pytest

from explainer.optics import facts
from explainer.optics.facts import tolerance_tables
from explainer.optics.formulas.optical_centre import Place
from explainer.optics.formulas.prescription import SpheroCylinder
from explainer.optics.formulas.prism import Prism

FOLDER = Path(__file__).parents[1] / "published"
STATUSES = {"found", "derived", "memory"}
KINDS = {
    frozenset({"sphere_d", "cylinder_d", "axis_deg"}): lambda t: SpheroCylinder(**t),
    frozenset({"base_in_pd", "base_up_pd"}): lambda t: Prism(**t),
    frozenset({"standard", "quantity"}): lambda t: tolerance_tables.bands(**t),
    frozenset({"in_mm", "up_mm"}): lambda t: Place(**t),
}


def entries(kind: str) -> list[dict[str, Any]]:
    found = []
    for path in sorted(FOLDER.glob("*.toml")):
        with path.open("rb") as file:
            found += [{**entry, "file": path.name} for entry in tomllib.load(file).get(kind, [])]
    return found


CASES, REFUTED = entries("case"), entries("must_not")


def result(entry: dict[str, Any]) -> Any:
    if "fact" in entry:
        return facts.get(entry["fact"]).value
    module, _, name = entry["formula"].rpartition(".")
    formula = getattr(importlib.import_module(f"explainer.optics.formulas.{module}"), name)
    if "through" in entry:
        formula = getattr(handwork, entry["through"])
    return formula(**{key: made(value) for key, value in entry["inputs"].items()})


def made(value: Any) -> Any:
    """An input as the formula wants it: a table becomes the lens, prism, bands or rule that its keys describe."""
    if isinstance(value, list):
        return [made(each) for each in value]
    if isinstance(value, dict):
        return KINDS[frozenset(value)](value)
    return value


def agrees(actual: Any, wanted: Any, tolerance: Any, field: str = "") -> bool:
    """Whether every number wanted is met within the tolerance, and every word exactly."""
    if isinstance(wanted, dict):
        return all(agrees(getattr(actual, name), each, tolerance, name) for name, each in wanted.items())
    if isinstance(wanted, list):
        same_length = len(actual) == len(wanted)
        return same_length and all(agrees(a, w, tolerance, field) for a, w in zip(actual, wanted, strict=True))
    if isinstance(wanted, str):
        return ("none" if actual is None else actual) == wanted
    allowed = tolerance[field] if isinstance(tolerance, dict) else tolerance
    return actual is not None and abs(actual - wanted) <= allowed


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["id"])
def test_a_worked_case_is_met(case: dict[str, Any]) -> None:
    actual = result(case)
    assert agrees(actual, case["expected"], case.get("tolerance", 0)), f"{case['id']}: {actual}"


@pytest.mark.parametrize("case", REFUTED, ids=lambda case: case["id"])
def test_a_refuted_number_is_not_given_and_the_correct_one_is(case: dict[str, Any]) -> None:
    actual = result(case)
    assert not agrees(actual, case["printed"], case["tolerance"]), f"{case['id']}: {actual}"
    assert agrees(actual, case["correct"], case["tolerance"]), f"{case['id']}: {actual}"


@pytest.mark.parametrize("case", CASES + REFUTED, ids=lambda case: case["id"])
def test_a_case_says_where_it_comes_from_and_how_near_it_must_be_met(case: dict[str, Any]) -> None:
    assert case["locator"].strip()
    assert case["tolerance_reason"].strip()
    known = facts.sources().get(case["source"]) if "source" in case else None
    assert ("source" in case) == (known is not None), f"unknown source {case.get('source')}"
    assert case["weak"] == (known is not None and known.weak)
    if case in CASES:
        assert case["status"] in STATUSES
        assert known is not None or case["status"] != "found"


def test_no_id_stands_twice() -> None:
    twice = [name for name, count in Counter(case["id"] for case in CASES + REFUTED).items() if count > 1]
    assert not twice


def test_the_words_of_a_verdict_do_not_pass_for_a_number() -> None:
    assert not agrees("outside", "inside", 0)
    assert not agrees(None, 3, 1)
    assert agrees(None, "none", 0)
    assert not agrees((1.0,), [1.0, 2.0], 0)


def test_most_cases_rest_on_what_was_read_in_a_source() -> None:
    found = [case for case in CASES if case["status"] == "found"]
    assert len(found) >= 100
    assert len(CASES) >= 200
