"""Conditions of sentences, for wearers whose answer is known from outside."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from explainer.compose.plan import compose
from explainer.optics.claims import explain
from explainer.orders import read_order

CHILD = Path(__file__).parents[1] / "gallery" / "child.toml"


@pytest.mark.parametrize(("age", "helps"), [(8, True), (30, True), (75, False)])
def test_an_eye_that_needs_plus_is_told_of_focusing_only_while_it_surely_can(age: int, helps: bool):
    """Hofstetter's least amplitude, 15 D − 0.25 D a year of age, is used up at sixty (Hofstetter 1950; from memory)."""
    spectacles = read_order(CHILD).spectacles
    wearer = replace(spectacles.wearer, age_years=age)
    aged = replace(spectacles, wearer=wearer)

    assert ("focus_help" in compose(aged, explain(aged)).flags) is helps
