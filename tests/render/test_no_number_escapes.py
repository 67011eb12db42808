"""No number and no technical sentence reaches the page without a claim behind it."""

from __future__ import annotations

from pathlib import Path

import pytest
from jinja2 import pass_context
from jinja2.runtime import Context
from known_numbers import known_texts, tokens
from readback import pdf_text

from explainer.compose.plan import compose
from explainer.compose.topics import applicable
from explainer.optics.claims import explain
from explainer.orders import Order, read_order
from explainer.render.language import language
from explainer.render.leaflet import make_leaflet
from explainer.render.sections import Speaker
from explainer.render.tables import page_context
from explainer.render.templates import environment
from explainer.render.voice import Voice
from explainer.topics.catalogue import topics

ORDERS = sorted((Path(__file__).parents[2] / "output_examples" / "orders").rglob("FL-*.toml"))
TECHNICAL = ("numbers", "bench", "direction", "lens", "tint", "car")


def known_numbers(order: Order) -> set[str]:
    """Every number that this document may hold."""
    leaflet = make_leaflet(order)
    return set().union(
        *map(
            tokens,
            known_texts(order, said=list(leaflet.said), explanation=leaflet.explanation, pages=leaflet.pages),
        )
    )


@pytest.mark.slow
@pytest.mark.parametrize("path", ORDERS, ids=lambda path: path.stem)
def test_every_number_of_the_finished_page_is_a_claim_or_on_the_short_list(path: Path, tmp_path: Path):
    order = read_order(path)
    pdf = tmp_path / "leaflet.pdf"
    pdf.write_bytes(make_leaflet(order).pdf)
    text = pdf_text(pdf)

    assert tokens(text) - known_numbers(order) == set()


def test_a_number_typed_into_a_template_would_be_seen():
    """The check above is not blind: a number that no claim holds is left over."""
    assert tokens("Your lens stops 99.97 of the light.") - known_numbers(read_order(ORDERS[0])) == {"99.97"}


@pytest.mark.parametrize("path", ORDERS, ids=lambda path: path.stem)
def test_every_technical_sentence_uses_a_claim_or_is_marked_as_plain(path: Path, monkeypatch: pytest.MonkeyPatch):
    order = read_order(path)
    explanation = explain(order.spectacles)
    spoken = language("en-GB")
    voice = Voice(spoken, explanation.claims)
    document = compose(order.spectacles, explanation)
    speaker = Speaker(voice, document, page_context(order, voice), lambda *_: "<figure></figure>")
    groundless: list[str] = []
    heard = environment(spoken).globals["gettext"]

    @pass_context
    def listening(context: Context, message: str, **variables: object) -> str:
        resting = bool(speaker.ground) or any("\ue000" in str(value) for value in variables.values())
        if not resting and message.endswith("."):
            groundless.append(message)
        return heard(context, message, **variables)

    monkeypatch.setitem(environment(spoken).globals, "gettext", listening)
    for name in TECHNICAL:
        if name in document.sections:
            speaker.section(name)
    for name in applicable(document, explanation.claims):
        if topics()[name].template.startswith("topics/"):
            speaker.template(topics()[name].template)

    captions = {
        "As someone facing you sees you. Both eyes count alike.",
        "%(side)s, cut level, to scale. Other edges may be thicker.",
        "Both lenses from in front, to scale. The pupils look through the dots.",
        "%(side)s, weight.",
    }
    assert set(groundless) <= captions
