"""The writing habits of seven languages, put together at random from each language's own words: all mean one eye.

The words are those of the trade in each language (common practice; seen in the sources of tests/data/rx_notations.tsv).
"""

from __future__ import annotations

from typing import NamedTuple

from hypothesis import given
from hypothesis import strategies as st

from explainer.optics.spectacles import SIDES, Side
from explainer.orders.assembly.written import parse_eye, parse_pair
from explainer.orders.notation.reading import Reading


class Habit(NamedTuple):
    """How one language names things; bases in the order in, out, up, down."""

    right: tuple[str, ...]
    left: tuple[str, ...]
    sphere: tuple[str, ...]
    cylinder: tuple[str, ...]
    axis: tuple[str, ...]
    add: tuple[str, ...]
    prism: str
    bases: tuple[str, str, str, str]


HABITS = {
    "en": Habit(
        ("R", "OD", "O.D.", "Right"),
        ("L", "OS", "Left eye"),
        ("sph", "Sphere"),
        ("cyl", "Cyl."),
        ("x", "axis", "Ax"),
        ("Add", "ADD:"),
        "prism",
        ("base in", "base out", "base up", "base down"),
    ),
    "de": Habit(
        ("R", "rechts", "RA"),
        ("L", "links", "LA"),
        ("sph", "Sphäre"),
        ("zyl", "Zyl.", "cyl"),
        ("A", "Achse", "x"),
        ("Add", "Nahzusatz"),
        "Prisma",
        ("Basis innen", "Basis außen", "Basis oben", "Basis unten"),
    ),
    "fr": Habit(
        ("OD", "Œil droit"),
        ("OG", "œil gauche"),
        ("sph", "Sphère"),
        ("cyl", "cylindre"),
        ("axe", "à", "x"),
        ("Add", "Addition"),
        "prisme",
        ("base nasale", "base temporale", "base supérieure", "base inférieure"),
    ),
    "es": Habit(
        ("OD", "ojo derecho"),
        ("OI", "ojo izquierdo"),
        ("esf", "esfera"),
        ("cil", "cilindro"),
        ("eje", "x"),
        ("Ad", "adición"),
        "prisma",
        ("base nasal", "base temporal", "base superior", "base inferior"),
    ),
    "it": Habit(
        ("OD", "dx", "occhio destro"),
        ("OS", "sx", "occhio sinistro"),
        ("sf", "sfera"),
        ("cil", "cilindro"),
        ("asse", "ax"),
        ("Add", "addizione"),
        "prisma",
        ("base interna", "base esterna", "base superiore", "base inferiore"),
    ),
    "pt": Habit(
        ("OD", "olho direito"),
        ("OE", "olho esquerdo"),
        ("esf", "esférico"),
        ("cil", "cilíndrico"),
        ("eixo", "x"),
        ("Ad", "adição"),
        "prisma",
        ("base nasal", "base temporal", "base superior", "base inferior"),
    ),
    "pl": Habit(
        ("OP", "oko prawe"),
        ("OL", "oko lewe"),
        ("sph", "sfera"),
        ("cyl", "cylinder"),
        ("oś", "os", "x"),
        ("Add", "dodatek"),
        "pryzmat",
        ("baza do nosa", "baza do skroni", "baza do góry", "baza do dołu"),
    ),
}

quarters = st.integers(-80, 80).map(lambda n: n / 4)
prism_amounts = st.sampled_from([0.0, 0.0, 0.5, 2.0, 3.25])


@st.composite
def readings(draw: st.DrawFn, side: Side, added: bool) -> Reading:
    cylinder = draw(quarters) or None
    return Reading(
        side=side,
        sphere_d=draw(quarters),
        cylinder_d=cylinder,
        axis_deg=float(draw(st.integers(1, 180))) if cylinder else None,
        add_d=draw(st.integers(1, 16).map(lambda n: n / 4)) if added else None,
        prism_in_pd=draw(prism_amounts) * draw(st.sampled_from([1, -1])),
        prism_up_pd=draw(prism_amounts) * draw(st.sampled_from([1, -1])),
    )


@st.composite
def texts(draw: st.DrawFn, language: str, reading: Reading) -> str:
    habit = HABITS[language]
    minus = draw(st.sampled_from(["-", "−", "\u2011"]))
    mark = draw(st.sampled_from([".", ","]))
    between = draw(st.sampled_from([" ", " / ", "; ", "\n"]))

    def number(value: float, sign: bool = True) -> str:
        text = f"{value:+.2f}" if sign and value else f"{abs(value):.2f}"
        return text.replace("-", minus).replace(".", mark)

    assert reading.sphere_d is not None
    labelled = draw(st.booleans())
    sphere = number(reading.sphere_d) if reading.sphere_d else draw(st.sampled_from(["plan", number(0)]))
    if labelled:
        sphere = f"{draw(st.sampled_from(habit.sphere))} {sphere}"
    parts = [sphere]
    if reading.cylinder_d and reading.axis_deg:
        cylinder = number(reading.cylinder_d)
        axis = f"{draw(st.sampled_from(habit.axis))} {reading.axis_deg:.0f}{draw(st.sampled_from(['', '°']))}"
        axis += " TABO" if language == "it" and reading.side == "left" else ""
        if labelled:
            parts.append(f"{draw(st.sampled_from(habit.cylinder))} {cylinder} {axis}")
        else:
            parts.append(f"({cylinder}) {axis}" if draw(st.booleans()) else f"{cylinder} {axis}")
    elif draw(st.booleans()):
        parts[0] += " DS"
    extra = [
        f"{habit.prism} {number(abs(amount), sign=False)} {habit.bases[first + (amount < 0)]}"
        for amount, first in ((reading.prism_in_pd, 0), (reading.prism_up_pd, 2))
        if amount
    ]
    if reading.add_d:
        extra.append(f"{draw(st.sampled_from(habit.add))} {number(reading.add_d, sign=draw(st.booleans()))}")
    words = habit.right if reading.side == "right" else habit.left
    name = draw(st.sampled_from(words)) + draw(st.sampled_from([" ", ": "]))
    return name + between.join([*parts, *draw(st.permutations(extra))])


@given(st.data(), st.sampled_from(sorted(HABITS)), st.sampled_from(SIDES), st.booleans())
def test_one_eye_in_the_habit_of_a_language_is_read_as_it_was_meant(
    data: st.DataObject, language: str, side: Side, added: bool
) -> None:
    reading = data.draw(readings(side, added))

    assert parse_eye(data.draw(texts(language, reading)), language=language) == reading


@given(st.data(), st.sampled_from(sorted(HABITS)), st.permutations(SIDES), st.booleans())
def test_both_eyes_in_the_habit_of_a_language_are_never_exchanged(
    data: st.DataObject, language: str, order: list[Side], added: bool
) -> None:
    first, second = (data.draw(readings(side, added)) for side in order)
    text = data.draw(texts(language, first)) + data.draw(st.sampled_from(["\n", " / ", ", "]))
    found = parse_pair(text + data.draw(texts(language, second)), language=language)

    assert (found.eye(order[0]), found.eye(order[1])) == (first, second)
