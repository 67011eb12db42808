"""English that a tired reader with the old glasses on can read."""

from __future__ import annotations

from pathlib import Path

import pytest
from reading import grade, prose, sentences, syllables

from explainer.compose.plan import compose
from explainer.optics.claims import explain
from explainer.orders import read_order
from explainer.render.language import language
from explainer.render.sections import Speaker
from explainer.render.tables import page_context
from explainer.render.voice import Voice

ORDERS = sorted((Path(__file__).parents[2] / "output_examples" / "orders").rglob("FL-*.toml"))


def leaflet_prose(path: Path) -> str:
    """All running text of an order's leaflet, the list of sources apart."""
    order = read_order(path)
    explanation = explain(order.spectacles)
    document = compose(order.spectacles, explanation)
    voice = Voice(language("en-GB"), explanation.claims)
    speaker = Speaker(voice, document, page_context(order, voice), lambda *_: "<figure></figure>")
    names = ["lead", "urgent", *(name for name in document.sections if name != "sources")]
    return "\n".join(prose(speaker.section(name)) for name in names)


TEXTS = {path.stem: leaflet_prose(path) for path in ORDERS}


@pytest.mark.parametrize(("word", "count"), [("lens", 1), ("cylinder", 3), ("sphere", 1), ("optician", 3), ("eye", 1)])
def test_syllables_are_counted_as_people_say_them(word: str, count: int):
    assert syllables(word) == count


def test_the_grade_formula_agrees_with_a_text_worked_by_hand():
    """Two sentences of five and three words, nine syllables."""
    assert grade("The black cat sat down. It was happy.") == pytest.approx(0.39 * 4 + 11.8 * 9 / 8 - 15.59)


@pytest.mark.parametrize("name", TEXTS)
def test_the_leaflet_reads_at_sixth_grade_or_below(name: str):
    assert grade(TEXTS[name]) <= 6


@pytest.mark.parametrize("name", TEXTS)
def test_sentences_are_short(name: str):
    lengths = [len(sentence) for sentence in sentences(TEXTS[name])]

    assert max(lengths) <= 25
    assert sum(lengths) / len(lengths) <= 15
