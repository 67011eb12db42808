"""The gallery against the sheet: every gate full, and no leaflet below nine tenths of its points.

The whole gallery in the standard edition on A4 in English; the longest order also in large print, on Letter and in
the draft languages; a usual one in the large print of these. (There the longest is not held: its names and numbers
are so long that the notice of the draft and the help box do not both stand on the first page.) `python -m scoring`
does all editions, papers and languages, and says where points are lost.
"""

from __future__ import annotations

import pytest
from scoring.__main__ import PASS, scored
from scoring.leaflet import Case, gallery
from scoring.sheet import Result

LONGEST = next(path for path in gallery() if path.stem == "everything-on")
DRIVER = next(path for path in gallery() if path.stem == "photochromic-driver")
DRAFTS = ("de", "ar")
CASES = [
    *(Case(path) for path in gallery()),
    Case(LONGEST, edition="large-print"),
    Case(LONGEST, paper="Letter"),
    *(Case(LONGEST, language=draft) for draft in DRAFTS),
    *(Case(DRIVER, edition="large-print", language=draft) for draft in DRAFTS),
]
pytestmark = pytest.mark.slow
each_case = pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)


@pytest.fixture(scope="module")
def results(tmp_path_factory: pytest.TempPathFactory) -> dict[Case, Result]:
    """Every leaflet made and marked once, by two processes."""
    found = scored(CASES, tmp_path_factory.mktemp("gallery"))
    return dict(zip(CASES, found, strict=True))


@each_case
def test_every_gate_is_full(case: Case, results: dict[Case, Result]):
    marks = results[case].marks
    assert not results[case].fault
    assert {gate: marks[gate].reason for gate in results[case].gates} == {}


@each_case
def test_nine_tenths_of_the_points(case: Case, results: dict[Case, Result]):
    lost = {name: mark for name, mark in results[case].marks.items() if mark.points in (0, 1)}
    assert results[case].share >= PASS, lost
