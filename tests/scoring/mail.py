"""Replies by e-mail about an order, as a mail program and a stranger get them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise
from typing import Any

from mailreading import numbers, one_line, page, parsed, part, reading_order
from scoring.leaflet import Made
from scoring.source import name_of, words_of

from explainer.compose.topics import applicable
from explainer.render.mail.forms import reply_draft, reply_name
from explainer.render.mail.reply import make_reply

LARGEST = 100_000
ORDINARY = ("numbers", "cautions", "settling-in")
_FAR = re.compile(r"https?://|src=[\"']//|url\(|@import", re.IGNORECASE)
_FORBIDDEN = ("script", "link", "iframe", "form", "object", "video")
QUESTIONS = {
    "en": "Since tonight I see flashes of light. May I drive?",
    "de": "Seit heute Nacht sehe ich Lichtblitze. Darf ich fahren?",
}


def faults(made: Made) -> Iterator[str]:
    """What is wrong with one reply on every topic there is for this order."""
    names = list(applicable(made.document, made.explanation.claims))
    try:
        whole = make_reply(made.order, names)
        message = parsed(reply_draft(whole, pictures=False))
        ordinary = reply_draft(make_reply(made.order, [name for name in ORDINARY if name in names]), pictures=False)
    except Exception as error:  # a reply that cannot be written is a fault like any other
        yield f"no reply: {type(error).__name__}: {error}"
        return
    kinds = [each.get_content_type() for each in message.iter_parts()]
    if kinds != ["text/plain", "text/html"]:
        yield f"parts {kinds}, wanted text first and then HTML"
        return
    text, html = part(message, "plain"), part(message, "html")
    if len(part(parsed(ordinary), "html").encode()) > LARGEST:
        yield "an ordinary reply is larger than 100 kB"
    yield from same_facts(text, html)
    yield from built_badly(html, made.case.language)
    yield from _private(made, str(message["Subject"] or ""), reply_name(whole))


def same_facts(text: str, html: str) -> Iterator[str]:
    """Both parts hold every block and every number; a list's own numbers stand in the text alone."""
    flat, place = one_line(text), 0
    for block in reading_order(html):
        found = flat.find(block, place)
        if found < 0:
            yield f"not in the text part, or earlier: {block[:40]!r}"
            break
        place = found + len(block)
    read = page(html)
    seen = " ".join(one_line(each.words) for each in [*read.all("body"), *read.all("img")])
    differ = set(numbers(seen)) ^ set(numbers(text))
    lost = sorted(each for each in differ if not re.fullmatch(r"\d", each))
    if lost:
        yield f"numbers in one part only: {', '.join(lost[:5])}"


def built_badly(html: str, language: str) -> Iterator[str]:
    """What mail programs, screen readers and prying eyes stumble over."""
    read = page(html)
    wrappers = [each for each in read.all("div", "td", "body") if each.attributes.get("lang") == language]
    if not any(each.attributes.get("dir") for each in wrappers):
        yield "no language and direction on the outer wrapper"
    for table in read.all("table"):
        if table.attributes.get("role") != "presentation" and not read.all("th"):
            yield "a table of data without heads"
    if any(each.attributes.get("scope") not in ("col", "row") for each in read.all("th")):
        yield "a head without scope"
    if any(not each.attributes.get("alt", "").strip() for each in read.all("img")):
        yield "a picture without words"
    levels = [int(each.tag[1]) for each in read.all("h1", "h2", "h3")]
    if levels[:1] != [1] or levels.count(1) != 1 or any(after - before > 1 for before, after in pairwise(levels)):
        yield f"headings {levels[:6]}"
    yield from (f"something from elsewhere: {found!r}" for found in _FAR.findall(html)[:2])
    yield from (f"<{each.tag}>" for each in read.all(*_FORBIDDEN))


def _private(made: Made, subject: str, file_name: str) -> Iterator[str]:
    names = [name for name in re.split(r"[\s-]+", made.order.wearer_name or "") if len(name) > 2]
    for where, text in (("subject", subject), ("file name", file_name)):
        if any(name.lower() in text.lower() for name in names) or re.search(r"[+\u2212]\d", text):
            yield f"a name or a prescription in the {where}"


def urgent_is_first(made: Made, box: Any) -> Iterator[str]:
    """In the reply to a question that names a sign, the first list is that of the signs."""
    if made.speech not in QUESTIONS:
        return
    sign = next((" ".join(words_of(each).split()) for each in box.iter() if name_of(each) == "li"), "")
    try:
        reply = make_reply(made.order, question=QUESTIONS[made.speech])
        text = part(parsed(reply_draft(reply, pictures=False)), "plain")
    except Exception as error:
        yield f"no reply to a question with a sign: {type(error).__name__}: {error}"
        return
    listed = re.search(r"^- (.+(?:\n {2}.+)*)", text, re.MULTILINE)
    if listed is None or one_line(listed[1]) != sign:
        yield "the reply to a question with a sign does not begin with the signs"
