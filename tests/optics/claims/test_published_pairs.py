"""Whole pairs against what standards and handbooks print: tests/published/pairs.toml, order and readings, verdicts.

An eye is [sphere, cylinder, axis], a prism [base in, base up], read_prism the same. A case names its source and place.
"""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from explainer.optics import facts
from explainer.optics.claims import explain
from explainer.optics.spectacles import (
    SIDES,
    Eye,
    LensChoice,
    LensReading,
    Measurements,
    Prescription,
    Readings,
    Spectacles,
)

FILE = Path(__file__).parents[2] / "published" / "pairs.toml"
CASES: list[dict[str, Any]] = tomllib.loads(FILE.read_text(encoding="utf-8"))["pair"]
LENGTHS = ("reference_points_mm", "optical_centres_mm")
OF_ONE_LENS = ("reference_point", "height")


def pair_of(case: dict[str, Any]) -> Spectacles:
    ordered = {side: eye_of(case, side) for side in SIDES}
    read = {side: reading_of(case, side) for side in SIDES}
    lengths = {name: case["read"][name] for name in LENGTHS if name in case["read"]}
    for name in OF_ONE_LENS:
        if name in case["read"]:
            lengths |= {f"{name}_{side}_mm": value for side, value in zip(SIDES, case["read"][name], strict=True)}
    return Spectacles(
        prescription=Prescription(**ordered),
        measurements=Measurements(**case.get("measurements", {})),
        lens=LensChoice(design=case.get("design", "single-vision")),
        readings=Readings(**read, **lengths),
    )


def eye_of(case: dict[str, Any], side: str) -> Eye:
    sphere, cylinder, axis = case[side]
    prism = case.get(f"prism_{side}", [0.0, 0.0])
    return Eye(
        sphere_d=sphere,
        cylinder_d=cylinder,
        axis_deg=axis if cylinder else None,
        add_d=case.get("add"),
        prism_in_pd=prism[0],
        prism_up_pd=prism[1],
    )


def reading_of(case: dict[str, Any], side: str) -> LensReading | None:
    read = case["read"]
    power, prism = read.get(side), read.get(f"prism_{side}")
    if power is None and prism is None:
        return None
    sphere, cylinder, axis = power or (None, None, None)
    inward, up = prism or (None, None)
    return LensReading(
        sphere_d=sphere, cylinder_d=cylinder, axis_deg=axis, add_d=read.get("add"), prism_in_pd=inward, prism_up_pd=up
    )


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["id"])
def test_the_pair_is_judged_as_its_source_says(case: dict[str, Any]) -> None:
    claims = explain(pair_of(case)).claims

    for name, wanted in case["expected"].items():
        found = claims.value(name)
        if isinstance(wanted, str):
            assert (found or "none") == wanted, name
        else:
            assert found == pytest.approx(wanted, abs=case.get("tolerance", 1e-6)), name


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["id"])
def test_the_case_names_its_source(case: dict[str, Any]) -> None:
    assert case["source"] in facts.sources()
    assert case["locator"].strip()
    assert case["status"] in ("found", "derived")
    assert case["expected"]


def test_there_are_cases_enough_and_no_id_twice() -> None:
    assert len({case["id"] for case in CASES}) == len(CASES) >= 25
