"""A reply is short: 60 to 250 words between the title and the signature, whatever was asked and of whatever order.

The lines on urgent signs, which go with every symptom, are not counted: they may not be short of anything.
"""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from explainer.compose.plan import compose
from explainer.compose.topics import applicable
from explainer.optics.claims import explain
from explainer.orders import Order, read_order
from explainer.render.mail.forms import reply_text
from explainer.render.mail.reply import make_reply

FOLDER = Path(__file__).parents[3] / "output_examples" / "orders"
ORDERS = ("FL-3107", "FL-3112", "FL-3125")
WITH_TABLES = {"numbers", "written-form", "bench", "cautions"}
TRIOS = (
    ("numbers", "pd", "payment"),
    ("headaches", "floor", "one-eye"),
    ("car", "parcel", "cleaning"),
    ("car", "tint", "night-glare"),
    ("screw", "remake", "scratches"),
    ("lens", "bench", "polarising"),
)


@cache
def order(stem: str) -> Order:
    return read_order(FOLDER / f"{stem}.toml")


@cache
def held(stem: str) -> tuple[str, ...]:
    spectacles = order(stem).spectacles
    explanation = explain(spectacles, country=order(stem).country)
    return applicable(compose(spectacles, explanation), explanation.claims)


def words(stem: str, topics: tuple[str, ...]) -> int:
    text = reply_text(make_reply(order(stem), topics))
    body = text.split("===\n", 1)[1].split("\nKind regards,", 1)[0].split("\nCall 999 at once, whatever", 1)[0]
    return len(re.findall(r"[^\W_]+(?:[.,:’'-][^\W_]+)*", body))


@pytest.mark.parametrize("stem", ORDERS)
def test_one_topic_takes_sixty_to_two_hundred_and_fifty_words(stem: str):
    counted = {name: words(stem, (name,)) for name in held(stem) if name not in WITH_TABLES}

    assert {name: count for name, count in counted.items() if not 60 <= count <= 250} == {}


@pytest.mark.parametrize("stem", ORDERS)
@pytest.mark.parametrize("topics", TRIOS, ids="-".join)
def test_three_topics_take_no_more(stem: str, topics: tuple[str, ...]):
    if not set(topics) <= set(held(stem)):
        pytest.skip("the order has nothing of one of them")

    assert 60 <= words(stem, topics) <= 250


@pytest.mark.parametrize("stem", ORDERS)
def test_a_short_answer_is_the_beginning_of_the_whole_one(stem: str):
    """Each topic's first sentence, which is its answer, stands in both."""
    for name in held(stem):
        if name in ("urgent", "sources", "cautions"):
            continue
        whole, short = (reply_text(make_reply(order(stem), chosen)) for chosen in ((name,), (name, "other")))
        opening = whole.split("own glasses.\n", 1)[1].strip().splitlines()

        assert opening[0] in short
        assert re.split(r"(?<=[.?:]) ", opening[3])[0] in short
