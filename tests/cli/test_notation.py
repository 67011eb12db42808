"""`explainer check --notation`: one JSON object, understood or refused, whatever the text."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

from explainer.cli import main
from explainer.orders.assembly.understood import understood
from explainer.orders.assembly.written import parse_eye

JOB = Path(__file__).parents[1] / "data" / "dcs_job.txt"


def say(*words: object) -> tuple[int, dict[str, Any]]:
    result = CliRunner().invoke(main, ["check", *(str(word) for word in words)])
    return result.exit_code, json.loads(result.stdout)


def test_both_eyes_are_said_with_every_number_and_its_sign() -> None:
    """Worked by hand: 2 base in is +2, 1.5 base down is -1.5; axis 0 is the line 180; one vertex distance for both."""
    code, found = say("--notation", "OD -9.25 -0.75 x 0 2Δ BI 1.5Δ BD Add +2.00\nOS +1.50 DS Add +2.00 BVD 12 PD 63")

    assert code == 0
    assert found["understood"] is True
    right, left = found["right"], found["left"]
    assert (right["sphere_d"], right["cylinder_d"], right["axis_deg"], right["add_d"]) == (-9.25, -0.75, 180, 2)
    assert (right["prism_in_pd"], right["prism_up_pd"]) == (2, -1.5)
    assert (left["sphere_d"], left["cylinder_d"], left["axis_deg"]) == (1.5, None, None)
    assert [eye[name] for name in ("vertex_mm", "pd_mm") for eye in (right, left)] == [12, 12, 63, 63]
    assert left["received"] == "+1.50 DS Add +2.00 BVD 12 PD 63"
    assert any("differ" in line for line in found["warnings"])


def test_the_written_form_is_read_back_to_the_same_eye() -> None:
    _, found = say("--notation", "Sph: - 2,0 und Cyl. -0,5 Achse 15°", "--language", "de")
    again = parse_eye(found["eye"]["written"])

    assert (again.sphere_d, again.cylinder_d, again.axis_deg) == (-2.0, -0.5, 15)


def test_one_named_eye_is_said_under_its_name_and_the_other_not_at_all() -> None:
    code, found = say("--notation", "L -2.25 -0.75 x 175")

    assert code == 0
    assert set(found) == {"understood", "left", "warnings"}


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("2.25 -0.75 x 175", "notation"),
        ("", "notation"),
        ("\ud800", "notation"),
        ("x" * 5000, "notation"),
        ("PD 62", "notation.sphere"),
        ("Add +2.00", "notation.sphere"),
        ("AX=140;15", "notation.right.sphere"),
        ("R -2.00 DS L Add +2.00", "notation"),
        ("R -2.00 DS L -2.00 DS PD 31", "notation"),
    ],
)
def test_what_is_no_lens_is_refused_with_field_found_and_accepted(text: str, field: str) -> None:
    code, found = say("--notation", text)

    assert code == 1
    assert found["understood"] is False
    assert found["faults"][0]["field"] == field
    assert all(set(fault) == {"field", "found", "accepted"} for fault in found["faults"])


def test_what_was_readable_is_said_beside_the_refusal() -> None:
    _, found = say("--notation", "2Δ base in")

    assert found["partial"]["eye"]["prism_in_pd"] == 2


def test_a_language_that_is_none_is_refused() -> None:
    code, found = say("--notation", "plano", "--language", "in English")

    assert (code, found["faults"][0]["field"]) == (1, "language")


@pytest.mark.parametrize("words", [[], ["--notation", "plano", JOB]])
def test_neither_orders_nor_a_text_or_both_is_wrong_use(words: list[object]) -> None:
    assert CliRunner().invoke(main, ["check", *(str(word) for word in words)]).exit_code == 2


@given(st.text(max_size=60), st.sampled_from([None, "en", "de", "fr", "es", "it", "pt", "pl"]))
def test_any_text_is_understood_or_refused_and_makes_plain_json(text: str, language: str | None) -> None:
    found = json.loads(json.dumps(understood(text, language=language)))

    assert found["understood"] is not bool(found.get("faults"))
