"""Every row of tests/data/more_notations.tsv: further forms of seven languages, each read as what it means or refused.

The forms were put together for these tests from the habits of the trade (common practice); the meaning beside each was
written by hand, in this program's own notation, and not taken from a run of it.
"""

from __future__ import annotations

import math
import re
from pathlib import Path
from typing import NamedTuple

import pytest

from explainer.errors import InputError
from explainer.orders.assembly.written import parse_eye, parse_written
from explainer.orders.notation.reading import Reading

DATA = Path(__file__).parents[2] / "data" / "more_notations.tsv"
LANGUAGES = (None, "en", "de", "fr", "es", "it", "pt", "pl")


class Row(NamedTuple):
    text: str
    language: str | None
    expected: str


def rows() -> list[Row]:
    lines = DATA.read_text(encoding="utf-8").splitlines()[1:]
    cells = [line.split("\t") for line in lines]
    return [
        Row(text.replace("\\t", "\t").replace("\\n", "\n"), None if language == "-" else language, expected)
        for text, language, expected in cells
    ]


ROWS = rows()
READ = [row for row in ROWS if row.expected != "refuse"]
REFUSED = [row for row in ROWS if row.expected == "refuse"]


def lens(reading: Reading) -> tuple[object, ...]:
    """What makes the lens; a zero cylinder and none are the same one."""
    prism = (round(reading.prism_in_pd, 6), round(reading.prism_up_pd, 6))
    power = (reading.sphere_d, reading.cylinder_d or None, reading.axis_deg)
    return (*power, reading.add_d, *prism, reading.vertex_mm, reading.pd_mm, reading.acuity)


def meaning(expected: str) -> dict[str, tuple[object, ...]]:
    readings = [parse_eye(part) for part in expected.split(" & ")]
    return {reading.side or "eye": lens(reading) for reading in readings}


def read(text: str, language: str | None) -> dict[str, tuple[object, ...]]:
    return {whom: lens(reading) for whom, reading in parse_written(text, language=language).items()}


def test_there_are_many_forms_of_every_language() -> None:
    assert len(ROWS) >= 350
    for language in LANGUAGES[1:]:
        assert sum(row.language == language for row in ROWS) >= 15


@pytest.mark.parametrize("row", READ, ids=lambda row: row.text)
def test_a_form_is_read_as_its_meaning(row: Row) -> None:
    assert read(row.text, row.language) == meaning(row.expected)


@pytest.mark.parametrize("row", REFUSED, ids=lambda row: row.text)
def test_a_form_that_a_careful_person_would_ask_about_is_refused(row: Row) -> None:
    with pytest.raises(InputError):
        parse_written(row.text, language=row.language)


@pytest.mark.parametrize("row", READ, ids=lambda row: row.text)
def test_under_another_language_a_form_is_refused_or_means_the_same(row: Row) -> None:
    for language in LANGUAGES:
        try:
            found = read(row.text, language)
        except InputError:
            continue
        assert found == meaning(row.expected), language


SIGNED = [row for row in READ if not re.search(r"[{]|=.*;", row.text)]
"""Not the two formats of machines, in which a number carries its own sign."""


@pytest.mark.parametrize("row", SIGNED, ids=lambda row: row.text)
def test_a_form_that_has_lost_a_sign_is_never_read_as_another_lens(row: Row) -> None:
    """Refused, or the sign said nothing: that of an addition, or of zero."""
    for place in [match.start() for match in re.finditer(r"[-+−–](?=[ ]?[.,\d])", row.text)]:
        try:
            found = read(row.text[:place] + " " + row.text[place + 1 :], row.language)
        except InputError:
            continue
        assert found == meaning(row.expected), row.text[place:]


OTHER_WORDS = re.compile(r"\b(base|Basis|@) *\d|OS|OI|OE|RE|OL|\bre\b|/ ?32|[RL][+&/][RL]|V\.L")
"""Base angles and words that the exchange below does not know; a right-before-left list stays as it is."""
EXCHANGED = {"OD": "OG", "OG": "OD", "R": "L", "L": "R"}
BY_LETTER = [row for row in READ if row.language != "it" and not OTHER_WORDS.search(row.text)]


@pytest.mark.parametrize("row", BY_LETTER, ids=lambda row: row.text)
def test_a_form_whose_eyes_are_exchanged_gives_the_other_eye_its_numbers(row: Row) -> None:
    swapped = re.sub(r"\b(OD|OG|R|L)\b", lambda word: EXCHANGED[word[0]], row.text)
    sides = {"right": "left", "left": "right"} if swapped != row.text else {}
    wanted = {sides.get(whom, whom): lens for whom, lens in meaning(row.expected).items()}
    assert read(swapped, row.language) == wanted


def test_a_crossed_cylinder_is_the_lens_that_its_meridians_make() -> None:
    """Power in a meridian: sphere plus cylinder times the squared sine of the angle from the axis (common practice)."""
    found = parse_written("-1.00 DC x 90 / -2.00 DC x 180")["eye"]
    assert found.sphere_d is not None
    assert found.cylinder_d is not None
    assert found.axis_deg is not None
    for meridian, power in ((180, -1.0), (90, -2.0)):
        sine = math.sin(math.radians(meridian - found.axis_deg))
        assert math.isclose(found.sphere_d + found.cylinder_d * sine**2, power, abs_tol=1e-9)
