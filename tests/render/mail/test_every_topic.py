"""Every topic for every order: a sound message, the same facts in both parts, and no number without a claim."""

from __future__ import annotations

from datetime import UTC, datetime
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest
from mailreading import numbers, one_line, page, parsed, part, reading_order

from explainer.compose.explained import explained
from explainer.compose.plan import compose
from explainer.compose.topics import applicable
from explainer.errors import MissingText
from explainer.optics import facts
from explainer.optics.claim import Claim
from explainer.orders import Order, read_order
from explainer.render.language import Language
from explainer.render.mail.forms import reply_draft, reply_html, reply_markdown, reply_text
from explainer.render.mail.reply import Reply, make_reply
from explainer.render.numbers import claim_text, date_text

ORDERS = sorted((Path(__file__).parents[3] / "output_examples" / "orders").rglob("FL-*.toml"))
MOMENT = datetime(2026, 11, 25, 9, 30, tzinfo=UTC)
SIGNED = "+\u2212-"


@cache
def order_of(stem: str) -> Order:
    return read_order(next(path for path in ORDERS if path.stem == stem))


@cache
def reply_of(stem: str, topic: str) -> Reply:
    return make_reply(order_of(stem), [topic])


@cache
def draft_of(stem: str, topic: str) -> bytes:
    return reply_draft(reply_of(stem, topic), moment=MOMENT, pictures=False)


def cases() -> list[tuple[str, str]]:
    found = []
    for path in ORDERS:
        order = order_of(path.stem)
        explanation = explained(order)
        document = compose(order.spectacles, explanation)
        found += [(path.stem, name) for name in applicable(document, explanation.claims)]
    return found


CASES = cases()
every_case = pytest.mark.parametrize(("stem", "topic"), CASES, ids=str)


def known_numbers(reply: Reply) -> set[str]:
    """Every number that the mail may hold: claims of this order's evidence, the shop's words, the order's number."""
    order, spoken = reply.order, reply.language
    evidence = explained(order).claims
    said = [evidence[claim_id] for claim_id in reply.said if evidence[claim_id].unit != "yes-no"]
    printable = [claim for claim in said if not claim.id.startswith("drive.")]
    texts = [claim_text(claim, spoken) for claim in printable if claim.unit != "word" or _has_words(claim, spoken)]
    texts += [claim_text(claim, spoken, bare=True) for claim in printable if claim.unit != "word"]
    texts += [str(getattr(order.workshop, name) or "") for name in ("address", "phone", "email", "opening_hours")]
    texts += [str(getattr(order.workshop, name) or "") for name in ("urgent_help", "emergency", "returns")]
    texts += [order.number, *(source.short for source in facts.sources().values())]
    texts += [date_text(order.release.date, spoken)] if order.release else []
    return {number.lstrip(SIGNED) for text in texts for number in numbers(text)}


def _has_words(claim: Claim, spoken: Language) -> bool:
    """Whether the claim prints by itself: some words of closed sets only choose between sentences."""
    try:
        return bool(claim_text(claim, spoken))
    except MissingText:
        return False


def without_list_marks(text: str) -> str:
    """The text part without the numbers of its lists; those of the HTML are drawn by the mail program."""
    lines = (line.split(". ", 1)[1] if line[:1] in "12345" and line[1:3] == ". " else line for line in text.split("\n"))
    return "\n".join(lines)


@pytest.mark.slow
@every_case
def test_the_draft_is_a_sound_message_that_comes_back_as_it_went(stem: str, topic: str):
    """RFC 5322: lines of at most 998 characters, ended by CRLF; and of 76 as MIME asks for encoded ones."""
    draft = draft_of(stem, topic)
    message = parsed(draft)

    assert message.as_bytes() == draft
    assert all(len(line) <= 78 for line in draft.split(b"\r\n"))
    assert b"\n" not in draft.replace(b"\r\n", b"")
    assert draft.isascii()
    assert [each.get_content_type() for each in message.iter_parts()] == ["text/plain", "text/html"]


@every_case
def test_every_number_of_the_mail_is_in_the_evidence_of_the_order(stem: str, topic: str):
    text = without_list_marks(part(parsed(draft_of(stem, topic)), "plain"))

    assert {number.lstrip(SIGNED) for number in numbers(text)} <= known_numbers(reply_of(stem, topic))


def test_a_number_typed_into_a_topic_would_be_seen():
    """The check above is not blind."""
    assert not {"99.97"} <= known_numbers(reply_of("FL-3107", "car"))


@every_case
def test_text_and_html_say_the_same_in_the_same_order(stem: str, topic: str):
    """Every block of the HTML (sentence, caution, description, cell) stands in the text, one after the other."""
    message = parsed(draft_of(stem, topic))
    text = one_line(part(message, "plain"))
    place = 0
    for words in reading_order(part(message, "html")):
        found = text.find(words, place)
        assert found >= 0, f"{words!r} is missing in the text, or stands earlier"
        place = found + len(words)
    for head in page(part(message, "html")).all("th"):
        assert one_line(head.words) in text


@every_case
def test_both_parts_hold_the_same_numbers(stem: str, topic: str):
    """Heads of columns are repeated in the text, so the numbers are compared as sets, and cell by cell above."""
    message = parsed(draft_of(stem, topic))
    html = page(part(message, "html"))
    seen = " ".join(one_line(each.words) for each in html.all("body")) + " ".join(e.words for e in html.all("img"))

    assert set(numbers(seen)) == set(numbers(without_list_marks(part(message, "plain"))))


@every_case
def test_the_html_part_is_built_to_survive(stem: str, topic: str):
    html = part(parsed(draft_of(stem, topic)), "html")
    read = page(html)
    levels = [int(each.tag[1]) for each in read.all("h1", "h2", "h3")]
    inner = next(each for each in read.all("div") if "mail" in each.attributes.get("class", ""))

    assert len(html.encode()) < 100_000
    assert levels.count(1) == 1
    assert all(later - earlier <= 1 for earlier, later in pairwise(levels))
    assert (inner.attributes["lang"], inner.attributes["dir"]) == ("en-US" if stem == "FL-3131" else "en-GB", "ltr")
    assert "font-size: 16px" in inner.attributes["style"].replace(":16px", ": 16px")
    assert all(each.attributes.get("scope") in ("col", "row") for each in read.all("th"))
    assert all(each.words.strip() for each in read.all("th", "li", "p", "h1", "h2", "h3"))
    assert not read.all("script", "link", "iframe", "form", "input", "svg", "object", "font", "center")
    assert not any(word in html for word in ("http:", "https:", "url(", "@import", "data-claim", "position:"))


@every_case
def test_pieces_to_paste_hold_the_same_numbers(stem: str, topic: str):
    reply = reply_of(stem, topic)
    expected = set(numbers(without_list_marks(reply_text(reply))))

    assert set(numbers(without_list_marks(reply_markdown(reply).replace("\\", "")))) == expected
    assert {number for each in page(reply_html(reply)).all("div")[:1] for number in numbers(each.words)} == expected


def test_all_topics_are_reached():
    from explainer.topics.catalogue import topics

    assert {topic for _, topic in CASES} == set(topics())
