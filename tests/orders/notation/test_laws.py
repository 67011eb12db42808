"""Laws of the notation parser, tried on random eyes and random texts."""

from __future__ import annotations

import math
import re
from dataclasses import replace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from explainer.errors import InputError
from explainer.orders.assembly.written import parse_eye, parse_pair
from explainer.orders.notation.reading import Reading, written

eighths = st.integers(-200, 200).map(lambda n: n / 8)
prisms = st.integers(-2000, 2000).map(lambda n: n / 100)


@st.composite
def readings(draw: st.DrawFn) -> Reading:
    """Any eye that can be written down."""
    cylinder = draw(st.none() | eighths)
    return Reading(
        side=draw(st.sampled_from(["right", "left", None])),
        sphere_d=draw(eighths),
        cylinder_d=cylinder,
        axis_deg=draw(st.integers(2, 360).map(lambda n: n / 2)) if cylinder else None,
        add_d=draw(st.none() | st.integers(1, 32).map(lambda n: n / 8)),
        prism_in_pd=draw(prisms),
        prism_up_pd=draw(prisms),
        vertex_mm=draw(st.none() | st.integers(10, 60).map(lambda n: n / 2)),
        pd_mm=draw(st.none() | st.integers(40, 200).map(lambda n: n / 2)),
        acuity=draw(st.sampled_from([None, "6/6", "1.0"])),
    )


PIECES = [
    *(
        "-2.25",
        "+0.75",
        "0.00",
        "2",
        "-75",
        ".5",
        "1.25",
        "175",
        "20",
        "180",
        "x",
        "X",
        "×",
        "@",
        "axis",
        "A",
        "°",
        "1",
    ),
    *("/", ",", ";", ":", "=", "(", ")", "-", "--", "+", "&", ".", "\n", "DS", "sph", "cyl", "DC", "D", "add", "Add"),
    *("prism", "Δ", "pd", "PD", "base", "in", "out", "up", "BI", "BU", "BU&I", "OD", "OS", "OG", "OI", "OU", "R", "L"),
    *("OP", "os", "plano", "pl", "∞", "near", "and", "und", "e", "i", "BVD", "mm", "VA", "6/6", "TABO", "INT", "for"),
    "both eyes",
]
texts = st.one_of(
    st.text(max_size=30),
    st.text(alphabet="+-−.,0123456789 xDSRLOcyladBIU/@Δ°()\n", max_size=40),
    st.lists(st.sampled_from(PIECES), max_size=14).map(" ".join),
    st.lists(st.sampled_from(PIECES), max_size=10).map("".join),
)
languages = st.sampled_from([None, "en", "de", "fr", "es", "it", "pt", "pl"])


def close(one: Reading, other: Reading) -> bool:
    """Equal, but for the thousandths to which a slanting prism is written."""
    near = math.isclose(one.prism_in_pd, other.prism_in_pd, abs_tol=6e-4)
    near = near and math.isclose(one.prism_up_pd, other.prism_up_pd, abs_tol=6e-4)
    return near and replace(one, prism_in_pd=0.0, prism_up_pd=0.0) == replace(other, prism_in_pd=0.0, prism_up_pd=0.0)


@given(readings())
def test_what_is_written_is_read_back_the_same(reading: Reading) -> None:
    assert parse_eye(written(reading)) == reading


@given(readings(), readings())
def test_a_written_pair_is_read_back_eye_for_eye(one: Reading, other: Reading) -> None:
    right, left = replace(one, side="right"), replace(other, side="left", add_d=one.add_d)
    left = replace(left, vertex_mm=one.vertex_mm, pd_mm=one.pd_mm)  # measures of the pair
    found = parse_pair(f"{written(right)} / {written(left)}")

    assert (found.right, found.left) == (right, left)


@given(readings())
def test_a_lost_sign_is_always_refused(reading: Reading) -> None:
    text = written(replace(reading, add_d=None))
    signs = [match.start() for match in re.finditer(r"[+-](?=\d)", text)]
    for place in signs:
        with pytest.raises(InputError):
            parse_eye(text[:place] + text[place + 1 :])


@given(readings())
def test_a_lost_decimal_mark_of_a_power_is_refused_or_changes_nothing(reading: Reading) -> None:
    whole_axis = reading.axis_deg and float(math.ceil(reading.axis_deg))
    bare = Reading(sphere_d=reading.sphere_d, cylinder_d=reading.cylinder_d, axis_deg=whole_axis)
    text = written(bare)
    for place in [match.start() for match in re.finditer(r"(?<=\d)\.(?=\d)", text)]:
        try:
            found = parse_eye(text[:place] + text[place + 1 :])
        except InputError:
            continue
        assert found == bare  # 000 is still plano


@given(readings())
def test_a_lost_axis_is_always_refused(reading: Reading) -> None:
    assume(reading.cylinder_d)
    with pytest.raises(InputError):
        parse_eye(re.sub(r" x [\d.]+", "", written(reading)))


@given(texts, languages)
def test_any_text_is_refused_or_means_what_it_is_written_back_as(text: str, language: str | None) -> None:
    refused = None
    try:
        found = parse_eye(text, language=language)
    except InputError as error:
        refused = error
    if refused:
        assert refused.faults
        assert all(len(fault.found) <= 80 for fault in refused.faults)
        return
    assert close(parse_eye(written(found)), found)
    assert found.sphere_d is None or abs(found.sphere_d) <= 25
    assert found.axis_deg is None or 0 < found.axis_deg <= 180
    assert not found.cylinder_d or found.axis_deg is not None


@given(texts, languages)
def test_any_text_read_as_a_pair_is_refused_or_has_both_eyes(text: str, language: str | None) -> None:
    try:
        found = parse_pair(text, language=language)
    except InputError:
        return
    assert (found.right.side, found.left.side) == ("right", "left")


@given(texts, languages)
def test_every_sign_of_a_power_comes_from_the_text(text: str, language: str | None) -> None:
    """No power is minus in a text without a minus sign, nor plus in a text without a plus sign."""
    try:
        found = parse_eye(text, language=language)
    except InputError:
        return
    signs = {"+" if value > 0 else "-" for value in (found.sphere_d, found.cylinder_d) if value}
    crossed = "@" in text or "dc" in text.lower() or "cyl" in text.lower()  # a cylinder may be a difference there
    for sign in signs if not crossed else set():
        assert sign in text.replace("−", "-").replace("–", "-")
