"""What a free text may hold: people's names and a shop's own sentences, but nothing that hides or reorders letters."""

from __future__ import annotations

import difflib
import re
import unicodedata
from collections.abc import Iterable
from itertools import groupby

FOUND_LIMIT = 60
"""No message ever echoes more than this many characters of what was found."""

_JOINERS = {"\u200c", "\u200d"}  # needed inside Persian and Indic names and inside emoji
_HIDDEN = {"Cc", "Cf", "Co", "Cs", "Zl", "Zp"}
_WHAT = {
    "Cc": "a control character",
    "Cf": "an invisible formatting character",
    "Co": "a private-use character",
    "Cs": "half a character (lone surrogate)",
    "Zl": "a line separator",
    "Zp": "a paragraph separator",
}
_MOST_MARKS = 8
_FIELD = re.compile(r"[a-z][a-z0-9]{0,15}(?:_[a-z0-9]{1,15}){0,3}")
_WORDS = re.compile(r"[^\W\d_]{3,}")


def hidden_character(text: str, *, lines: bool = False) -> str | None:
    """The first character that a reader cannot see or that turns the text around, described; None if all is plain."""
    for character in text:
        if (lines and character == "\n") or character in _JOINERS:
            continue
        category = unicodedata.category(character)
        if category in _HIDDEN:
            return f"{_WHAT[category]} (U+{ord(character):04X})"
        if (ord(character) & 0xFFFE) == 0xFFFE or 0xFDD0 <= ord(character) <= 0xFDEF:
            return f"a code that is no character (U+{ord(character):04X})"
    return None


def trouble(text: str, *, limit: int, lines: bool = False) -> str | None:
    """What is wrong with a free text, in words that never repeat it; None if nothing is."""
    if not text.strip():
        return "an empty text"
    if len(text) > limit:
        return f"a text of {len(text)} characters"
    hidden = hidden_character(text, lines=lines)
    if hidden:
        return hidden
    if any(marks and len(list(run)) > _MOST_MARKS for marks, run in groupby(text, _is_mark)):
        return f"more than {_MOST_MARKS} combining marks on one letter"
    return None


def clip(text: str, limit: int = FOUND_LIMIT) -> str:
    """The text as it may stand in a message: one line, visible, cut to length."""
    shown = "".join(c if c.isprintable() else f"<U+{ord(c):04X}>" for c in text[: limit + 1])
    return shown if len(shown) <= limit else shown[: limit - 1] + "…"


def quoted(text: str) -> str:
    """The text clipped and in quotation marks, or the word for an empty one."""
    return f'"{clip(text, FOUND_LIMIT - 2)}"' if text.strip() else "an empty text"


def of_a_kind(text: str, known: Iterable[str]) -> str:
    """The text in quotation marks if its words are, or nearly are, among the known ones; else what kind of text it is.

    For places where a person's name might stand: in a table without its headings, or whose columns have moved, or
    under a name that is no field of ours.
    """
    words = [word.casefold() for word in _WORDS.findall(text)]
    near = {part for name in known for part in _WORDS.findall(name.casefold())} if words else set()
    if all(difflib.get_close_matches(word, near, n=1, cutoff=0.75) for word in words):
        return quoted(text)
    return f"a text of {len(text.strip())} characters"


def is_field_name(text: str) -> bool:
    """Whether a text is written as fields are, so that it may be told; a person's name is not."""
    return _FIELD.fullmatch(text) is not None


def _is_mark(character: str) -> bool:
    return unicodedata.combining(character) > 0
