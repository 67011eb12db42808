"""A workshop's own topics: rendered with claims, refused with the line when a number could come in unseen."""

from __future__ import annotations

from pathlib import Path

import pytest

from explainer.errors import InputError
from explainer.orders import Order, read_order
from explainer.render.mail.forms import reply_text
from explainer.render.mail.reply import make_reply

FOLDER = Path(__file__).parents[3] / "output_examples" / "orders"


def order_with(tmp_path: Path, name: str, text: str) -> Order:
    topics = tmp_path / "wording" / "topics"
    topics.mkdir(parents=True)
    (topics / name).write_text(text, encoding="utf-8")
    shop = 'house_wording = "wording"\n' + (FOLDER / "workshop.toml").read_text(encoding="utf-8")
    (tmp_path / "workshop.toml").write_text(shop, encoding="utf-8")
    (tmp_path / "order.toml").write_text((FOLDER / "FL-3107.toml").read_text(encoding="utf-8"), encoding="utf-8")
    return read_order(tmp_path / "order.toml")


def test_an_own_topic_speaks_with_claims_and_is_found_by_its_terms(tmp_path: Path):
    words = "{# terms: gift card #}\n## Gift cards\n\n1. Bring it.\n2. The axis is {{ say('right.axis') }}.\n"
    order = order_with(tmp_path, "gift-card.md", words)

    text = reply_text(make_reply(order, question="Do you take a gift card?"))

    assert "Gift cards\n----------\n\n1. Bring it.\n2. The axis is 165°.\n" in text


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("## Offer\n\nOnly 5 left.\n", 3),
        ("Half: ½\n", 1),
        ("\n{{ 5 }}\n", 2),
        ('{{ "5" }}\n', 1),
        ("{{ eyes|length }}\n", 1),
        ("{% for side in eyes %}\n{{ loop.index }}\n{% endfor %}\n", 2),
        ("{% set x = 7 %}\n", 1),
        ("a\n\n{% raw %}{{ 7 }}{% endraw %}\n", 3),
        ("&frac12; more\n", 1),
        ("<b>loud</b>\n", 1),
        ("{{ say.__globals__ }}\n", 1),
        ("{{ lipsum.__globals__ }}\n", 1),
        ("{% if %}\n", 1),
    ],
)
def test_what_could_bring_in_a_number_or_more_is_refused_with_its_line(tmp_path: Path, text: str, line: int):
    order = order_with(tmp_path, "offer.md", text)

    with pytest.raises(InputError) as refused:
        make_reply(order, ["offer"])

    assert any(fault.field == f"offer.md, line {line}" for fault in refused.value.faults), refused.value


def test_an_own_topic_cannot_take_the_name_of_ours(tmp_path: Path):
    with pytest.raises(InputError, match="a name of its own"):
        make_reply(order_with(tmp_path, "car.md", "## Car\n"), ["car"])


def test_a_claim_that_the_order_has_not_is_refused(tmp_path: Path):
    order = order_with(tmp_path, "odd.md", "{{ say('right.prism.horizontal') }}\n")

    with pytest.raises(Exception, match=r"right\.prism\.horizontal"):
        make_reply(order, ["odd"])
