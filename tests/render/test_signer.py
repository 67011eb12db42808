"""A shop that says who signs has its leaflets, with "measured" only where something was read."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from explainer.compose.plan import compose
from explainer.optics.claims import explain
from explainer.orders import read_order
from explainer.render.language import language
from explainer.render.sections import Speaker
from explainer.render.tables import page_context
from explainer.render.voice import Voice

ORDERS = Path(__file__).parents[2] / "output_examples" / "orders"


@pytest.mark.parametrize(
    ("number", "begins"), [("FL-3107", "Made and measured: B. Lark"), ("FL-3118", "Made by: B. Lark")]
)
def test_who_signs_is_named_and_measured_is_said_only_of_what_was_read(number: str, begins: str):
    order = read_order(ORDERS / f"{number}.toml")
    assert order.workshop
    order = replace(order, workshop=replace(order.workshop, signer="B. Lark"))
    explanation = explain(order.spectacles)
    voice = Voice(language("en-GB"), explanation.claims)
    speaker = Speaker(voice, compose(order.spectacles, explanation), page_context(order, voice), lambda *_: "")

    assert speaker.phrase_text("imprint.signed").startswith(begins)
