"""Every row of tests/data/rx_notations.tsv: forms seen in public sources, with their meaning or "must be refused".

A row with a meaning is read as exactly that meaning or refused, in every language; never as another meaning.
"""

from __future__ import annotations

import math
import re
from pathlib import Path
from typing import NamedTuple

import pytest

from explainer.errors import InputError
from explainer.optics.spectacles import Side
from explainer.orders.assembly.written import parse_eye, parse_pair
from explainer.orders.notation.reading import Reading

DATA = Path(__file__).parents[2] / "data" / "rx_notations.tsv"
LANGUAGES = (None, "en", "de", "fr", "es", "it", "pt", "pl")
POLISH_ONLY = "OP -2,25 / -0,75 os 175"
BASE_180 = "2Δ base 180"
BASE_217 = "pl 2.5 @ 217"
NEEDS_ITS_OWN_TEST = {POLISH_ONLY, BASE_180, BASE_217}
NO_MEANING = {"_LLVAL=?;?"}  # a private label with two unknown values: nothing is said


class Row(NamedTuple):
    text: str
    meaning: str


def rows() -> list[Row]:
    lines = DATA.read_text(encoding="utf-8").split("\n")[1:]
    return [Row(*line.split("\t")[:2]) for line in lines if line]


REFUSED = [row for row in rows() if row.meaning.startswith("must be refused")]
UNDERSTOOD = [row for row in rows() if row not in REFUSED and row.text not in NEEDS_ITS_OWN_TEST | NO_MEANING]


def value(meaning: str, pattern: str) -> float | None:
    found = re.search(pattern + r"([+-]?\d+(?:\.\d+)?)", meaning)
    return float(found.group(1)) if found else None


def expected(meaning: str, side: Side | None) -> Reading:
    """The meaning column in figures. A cylinder that is not mentioned, or zero, is the same lens."""
    slanting = re.search(r"prism=2\.5 base up and in along 37", meaning)
    horizontal = value(meaning, r"(?:prism=|\+ )(?=[\d.]+ base in)")
    if slanting:
        horizontal = 2.5 * math.cos(math.radians(37))
    upward = 2.5 * math.sin(math.radians(37)) if slanting else value(meaning, r"(?:prism=|\+ )(?=[\d.]+ base up)")
    acuity = value(meaning, "acuity ")
    return Reading(
        side=side,
        sphere_d=value(meaning, r"\bS="),
        cylinder_d=value(meaning, r"\bC=") or None,
        axis_deg=value(meaning, r"\bA="),
        add_d=value(meaning, "add="),
        prism_in_pd=horizontal or 0.0,
        prism_up_pd=upward or 0.0,
        vertex_mm=value(meaning, "vertex distance "),
        pd_mm=value(meaning, "PD="),
        acuity=None if acuity is None else str(acuity),
    )


def same(found: Reading, wanted: Reading) -> bool:
    """Equal lens for lens. Where the row names no eye, an eye of the wanted side is not asked for."""
    names = [name for name in Reading.__slots__ if name not in ("received", "side", "prism_in_pd", "prism_up_pd")]
    plain = all(
        (getattr(found, name) or None) == (getattr(wanted, name) or None) for name in names if name != "sphere_d"
    )
    prism = math.isclose(found.prism_in_pd, wanted.prism_in_pd, abs_tol=1e-9)
    prism = prism and math.isclose(found.prism_up_pd, wanted.prism_up_pd, abs_tol=1e-9)
    return plain and prism and found.side == wanted.side and found.sphere_d == wanted.sphere_d


def both_sides(meaning: str) -> dict[Side, Reading] | None:
    """The meanings of a row that speaks of both eyes."""
    if re.match(r"R .*; L ", meaning) or " and L S=" in meaning:
        right, left = re.split(r"; L | and L ", meaning.removeprefix("R "), maxsplit=1)
        return {"right": expected(right, "right"), "left": expected(left.split(";")[0], "left")}
    if "both eyes" in meaning and meaning.startswith("add=+1.75"):
        return {"right": expected(meaning, "right"), "left": expected(meaning, "left")}
    return None


def understood(row: Row, language: str | None) -> bool:
    """True if read as its meaning, False if refused; anything else fails the test that asked."""
    pair = both_sides(row.meaning)
    try:
        if pair:
            found = parse_pair(row.text, language=language)
            assert same(found.right, pair["right"]), (row, found.right)
            assert same(found.left, pair["left"]), (row, found.left)
        else:
            # the source of this row says in words that the lens is plano, in figures only its prism
            meaning = f"S=0 {row.meaning}" if row.text.startswith("pl ") and "S=" not in row.meaning else row.meaning
            named: dict[str, Side] = {"R ": "right", "L ": "left"}
            eye = parse_eye(row.text, language=language)
            assert same(eye, expected(meaning, named.get(row.meaning[:2]))), (row, eye)
    except InputError:
        return False
    return True


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("row", UNDERSTOOD, ids=lambda row: row.text)
def test_a_row_is_read_as_its_meaning_or_refused(row: Row, language: str | None) -> None:
    understood(row, language)


def test_nearly_all_meanings_are_understood() -> None:
    missed = [row.text for row in UNDERSTOOD if not understood(row, None)]

    assert len(UNDERSTOOD) > 50
    assert len(missed) <= 0.05 * len(UNDERSTOOD), missed


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("row", REFUSED, ids=lambda row: row.text)
def test_a_row_that_must_be_refused_is_refused_in_every_language(row: Row, language: str | None) -> None:
    as_pair_only = "as a pair order" in row.meaning
    with pytest.raises(InputError):
        parse_pair(row.text, language=language)
    if not as_pair_only:
        with pytest.raises(InputError):
            parse_eye(row.text, language=language)


def test_what_says_nothing_is_refused() -> None:
    for text in NO_MEANING:
        with pytest.raises(InputError):
            parse_pair(text)


def test_op_and_os_are_polish_right_eye_and_axis_and_refused_elsewhere() -> None:
    found = parse_eye(POLISH_ONLY, language="pl-PL")

    assert found == Reading(side="right", sphere_d=-2.25, cylinder_d=-0.75, axis_deg=175)
    for language in LANGUAGES[:-1]:
        with pytest.raises(InputError):
            parse_eye(POLISH_ONLY, language=language)


def test_base_180_is_out_for_the_right_eye_in_for_the_left_and_refused_without_an_eye() -> None:
    assert parse_eye(BASE_180, side="right").prism_in_pd == -2
    assert parse_eye(BASE_180, side="left").prism_in_pd == 2
    with pytest.raises(InputError, match="the eye"):
        parse_eye(BASE_180)


def test_base_217_is_down_and_in_for_the_left_eye() -> None:
    """Durham Technical Community College, opticianry, prism base module: 1.5 down and 2 in."""
    found = parse_eye(BASE_217, side="left")

    assert found.sphere_d == 0
    assert math.isclose(found.prism_in_pd, 2.0, abs_tol=0.005)
    assert math.isclose(found.prism_up_pd, -1.5, abs_tol=0.005)
    with pytest.raises(InputError, match="the eye"):
        parse_eye(BASE_217)
