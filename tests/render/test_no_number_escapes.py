"""No number and no technical sentence reaches the page without a claim behind it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from jinja2 import pass_context
from jinja2.runtime import Context
from readback import pdf_text

from explainer import __version__
from explainer.compose.plan import compose
from explainer.figures import draw
from explainer.optics import facts
from explainer.optics.claims import explain
from explainer.orders import Order, read_order
from explainer.render.figures import label_text
from explainer.render.language import language
from explainer.render.leaflet import make_leaflet
from explainer.render.numbers import claim_text, date_text
from explainer.render.sections import Speaker, environment
from explainer.render.tables import page_context
from explainer.render.voice import Voice

ORDERS = sorted((Path(__file__).parents[2] / "output_examples" / "orders").glob("FL-*.toml"))
TECHNICAL = ("numbers", "bench", "direction", "lens", "tint", "car")
NUMBER = re.compile(r"[+\u2212-]?\d+(?:[.,]\d+)*")


def tokens(text: str) -> set[str]:
    return {match.lstrip("+-\u2212") for match in NUMBER.findall(text)}


def known_numbers(order: Order) -> set[str]:
    """Every number that this document may hold, and where it is from."""
    spoken = language(order.language)
    leaflet = make_leaflet(order)
    printable = [
        claim for claim in leaflet.said.values() if claim.unit != "yes-no" and not claim.id.startswith("drive.")
    ]
    said = [claim_text(claim, spoken) for claim in printable]
    bare = [claim_text(claim, spoken, bare=True) for claim in printable if claim.unit != "word"]
    figures = compose(order.spectacles, leaflet.explanation).figures.values()
    labels = [label_text(label, spoken) for each in figures for label in draw(each.name, each.values).labels]
    workshop = order.workshop
    contact = [
        str(getattr(workshop, name) or "")
        for name in ("name", "address", "phone", "email", "opening_hours", "urgent_help", "emergency", "returns")
    ]
    dates = [date_text(order.date, spoken), *([date_text(order.release.date, spoken)] if order.release else [])]
    pages = [str(number) for number in range(1, leaflet.pages + 1)]
    lists = ["1", "2", "3", "01234"]  # the steps of the table test; the category scale, read as one run
    titles = [source.short for source in facts.sources().values()]
    found = [*said, *bare, *labels, *contact, *dates, *pages, *lists, *titles, order.number, __version__]
    return set().union(*map(tokens, found))


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

    captions = {
        "As someone facing you sees you. Both eyes count alike.",
        "%(side)s, cut level, to scale. Other edges may be thicker.",
        "Both lenses from in front, to scale. The pupils look through the dots.",
        "%(side)s, weight.",
    }
    assert set(groundless) <= captions
