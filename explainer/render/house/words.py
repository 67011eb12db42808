"""The words of a house template: Markdown of the plainest kind, with no number and no unit that no claim holds."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator

from explainer.errors import Fault
from explainer.orders.values.texts import clip, hidden_character
from explainer.render.house.number_words import VALUE, mixed_scripts, number_in_words

_LIST_NUMBER = re.compile(r"(\d{1,2})\. ")
_ENTITY = re.compile(r"&#?\w+;")
_UNIT = re.compile(r"(?<!\w)(?:mm|cm|nm|dpt)\b|[°%‰℃℉µ]|(?<!\()(?<!\w)(?:D\b|Δ)(?!\))")
_TAG, _VALUE = re.compile(r"\{%.*?%\}|\{#.*?#\}"), re.compile(r"\{\{.*?\}\}")
_MARKS = re.compile(r"\{\{.*?\}\}|\{%.*?%\}|\{#.*?#\}", re.DOTALL)
_EMPHASIS = re.compile(r"[*_\\]")
_RULED = re.compile(r"\s*(?:[=-]+|(?:[-*_]\s*){3,})\s*")  # makes a heading of the line above it, or draws a line


def words_faults(name: str, first_line: int, text: str, source: list[str]) -> Iterator[Fault]:
    """A fault for each thing in these words that may not be there. `source` is the whole file, line by line."""
    for place, line in enumerate(text.split("\n"), start=first_line):
        bare = _TAG.sub("", _VALUE.sub("value", source[place - 1])) if place <= len(source) else line
        if bare.startswith("    ") or _RULED.fullmatch(bare):
            yield Fault(f"{name}, line {place}", "a mark of code or of a line", "sentences, lists and **bold** words")
        for found, accepted in _in_line(_without_list_number(line, place, source)):
            yield Fault(f"{name}, line {place}", found, accepted)


def whole_faults(name: str, source: str) -> Iterator[Fault]:
    """What shows only in the words as a reader has them: numbers in words beside a unit, letters that deceive."""
    text = unicodedata.normalize("NFKC", _EMPHASIS.sub("", _MARKS.sub(_as_read, source)))
    for place, words in number_in_words(text):
        line = text.count("\n", 0, place) + 1
        yield Fault(f"{name}, line {line}", f'a number in words, "{clip(words)}"', "values of claims, by say('...')")
    deceiving = mixed_scripts(text)
    if deceiving:
        line = text[: text.index(deceiving)].count("\n") + 1
        yield Fault(f"{name}, line {line}", "letters of two alphabets in one word", "letters of one alphabet")


def _as_read(mark: re.Match[str]) -> str:
    """A mark of the template as it reads on the page: a value, or nothing; line ends stay, so that lines count."""
    return (VALUE if mark[0].startswith("{{") else "") + "\n" * mark[0].count("\n")


def heading_faults(name: str, texts: list[tuple[int, str]], *, titled: bool | None) -> Iterator[Fault]:
    """Headings: the title of a whole section and smaller ones below it; in a block only smaller ones.

    `titled` tells whether these words are a whole section; None where headings are free.
    """
    if titled is None:
        return
    lines = [(place, line) for first, text in texts for place, line in enumerate(text.split("\n"), start=first)]
    begun = [(place, line) for place, line in lines if line.strip()]
    if titled and not (begun and begun[0][1].startswith("## ")):
        yield Fault(f"{name}, line {begun[0][0] if begun else 1}", "no title", "a first line such as ## Your lenses")
    for place, line in begun[1:] if titled else begun:
        if line.lstrip().startswith("#") and not line.startswith("### "):
            yield Fault(f"{name}, line {place}", "a heading of this size", "smaller headings: ### and a blank")


def line_faults(name: str, texts: list[tuple[int, str]]) -> Iterator[Fault]:
    """A phrase is one paragraph of words: no heading, no list."""
    for first, text in texts:
        for place, line in enumerate(text.split("\n"), start=first):
            if re.match(r"\s*(?:#|[-+*>] |\d+[.)] )", line):
                yield Fault(f"{name}, line {place}", "a heading or a list", "one paragraph, with **bold** words")


def _in_line(line: str) -> Iterator[tuple[str, str]]:
    digit = next((sign for sign in line if unicodedata.numeric(sign, None) is not None), None)
    unit = _UNIT.search(line) or _UNIT.search(unicodedata.normalize("NFKC", line))
    hidden = hidden_character(line)
    if hidden:
        yield hidden, "plain characters"
    if digit:
        yield f"the digit {digit}", "numbers of claims, by say('...')"
    if unit:
        yield f"the unit sign {unit[0]}", "values of claims with their unit, by say('...')"
    if "<" in line or _ENTITY.search(line):
        yield "a mark of HTML", "Markdown"
    if any(mark in line for mark in "[]`"):
        yield "a mark of a link, a picture or code", "plain sentences, lists and **bold** words"


def _without_list_number(line: str, place: int, source: list[str]) -> str:
    """The line without the number that makes it an item of a list: the first, or the one after the item before it."""
    number = _LIST_NUMBER.match(line)
    if (
        number is None
        or not source[place - 1].startswith(line)
        or not _is_next_item(int(number[1]), source[: place - 1])
    ):
        return line
    return line[number.end() :]


def _is_next_item(number: int, before: list[str]) -> bool:
    """Whether a list may go on, or begin, with this number: a number inside a sentence is no item."""
    above = next((line for line in reversed(before) if not line.strip().startswith("{%")), "")
    items = [int(found[1]) for line in before if (found := _LIST_NUMBER.match(line))]
    follows = bool(items) and number == items[-1] + 1
    return (number == 1 and not above.strip()) or (follows and (not above.strip() or above[0] in " 0123456789"))
