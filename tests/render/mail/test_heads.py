"""The head of a draft has our fields and no others, whatever stands in a name, a subject or an address (RFC 5322)."""

from __future__ import annotations

import base64
import datetime as dt
from dataclasses import replace
from email import message_from_bytes, policy
from email.headerregistry import Address
from pathlib import Path

import pytest

from explainer.errors import InputError, RenderError
from explainer.orders import Order, read_order
from explainer.orders.shop.workshop import read_workshop
from explainer.render.mail.forms import reply_draft
from explainer.render.mail.heads import OURS, head_address, looked_through
from explainer.render.mail.reply import make_reply
from explainer.topics.letters.incoming import Letter, read_letter

ORDERS = Path(__file__).parents[3] / "output_examples" / "orders"
MOMENT = dt.datetime(2026, 11, 28, 12, 0, tzinfo=dt.UTC)
INJECTED = "\r\nBcc: thief@example.org\r\nX: y"
WORD = f"=?utf-8?b?{base64.b64encode(('Shop' + INJECTED).encode()).decode()}?="
QUOTED = "=?utf-8?q?Shop=0D=0ABcc:_thief@example.org?="
HOSTILE = [
    WORD,
    QUOTED,
    f"A {WORD} B",
    f"{WORD} {QUOTED}",
    "Shop" + INJECTED,
    "=?utf-8?q??= " + WORD,
    WORD.replace("=?", "=?=?"),
]


def order() -> Order:
    return read_order(ORDERS / "FL-3107.toml")


def head_of(draft: bytes) -> list[str]:
    message = message_from_bytes(draft, policy=policy.default)
    assert not set(map(str.lower, message.keys())) - OURS
    return [str(value) for value in message.values()]


@pytest.mark.parametrize("name", HOSTILE)
def test_no_name_of_a_workshop_brings_in_a_field(name: str):
    """Straight into the draft, past the reader that refuses it."""
    one = order()
    assert one.workshop
    hostile = replace(one, workshop=replace(one.workshop, name=name))

    head_of(reply_draft(make_reply(hostile, ["care"]), moment=MOMENT))


@pytest.mark.parametrize("name", HOSTILE)
def test_the_workshop_file_refuses_it(tmp_path: Path, name: str):
    import json

    (tmp_path / "workshop.toml").write_text(f"name = {json.dumps(name)}\n", "utf-8")

    with pytest.raises(InputError, match="name: found"):
        read_workshop(tmp_path / "workshop.toml")


@pytest.mark.parametrize("text", HOSTILE)
def test_nothing_in_a_customers_mail_brings_in_a_field(text: str):
    flat = text.replace("\r\n", " ")
    mail = f"From: {flat} <a@example.org>\r\nSubject: {flat}\r\n\r\nHow do I clean them?"
    letters = [
        read_letter(mail.encode()),
        Letter("How?", text, Address(display_name=text.replace("\r", "").replace("\n", ""), addr_spec="a@example.org")),
    ]
    for letter in letters:
        draft = reply_draft(make_reply(order(), ["care"]), moment=MOMENT, letter=letter)
        assert head_of(draft)


def test_an_answer_goes_to_whom_it_answers_in_the_same_thread():
    mail = b"From: Odalys <o@example.org>\r\nSubject: My glasses\r\nMessage-ID: <1@example.org>\r\n\r\nHow?"
    draft = reply_draft(make_reply(order(), ["care"]), moment=MOMENT, letter=read_letter(mail))
    message = message_from_bytes(draft, policy=policy.default)

    assert message["To"] == "Odalys <o@example.org>"
    assert message["Subject"] == "Re: My glasses"
    assert message["In-Reply-To"] == "<1@example.org>"


@pytest.mark.parametrize(
    "address",
    ["a@b", "a@example.org\r\nBcc: x@example.org", '"a b"@example.org', "a..b@example.org", "a,b@example.org"],
)
def test_an_address_that_a_workshop_may_not_have_is_not_answered_either(address: str):
    assert head_address("A", address) is None


@pytest.mark.parametrize(
    "head",
    [
        b"Subject: a\r\nBcc: b@example.org",
        b"Subject: a\r\nSubject: b",
        b"Subject: a\nBcc: b",
        b" folded before any field",
        b"Subject: a\r\nno field at all",
        b"Subject: a\r\n\tX\0",
    ],
)
def test_the_finished_head_is_looked_through_once_more(head: bytes):
    with pytest.raises(RenderError, match="head of the draft"):
        looked_through(head + b"\r\n\r\nBody")
