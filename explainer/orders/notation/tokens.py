"""Written text → tokens. Nothing is skipped but blanks: what is not understood becomes a token of its own."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass

from explainer.errors import Fault, InputError
from explainer.orders.notation.words import lexicon
from explainer.orders.values.texts import hidden_character

LONGEST = 300

_ALIKE = {
    **dict.fromkeys("\u2212\u2010\u2011\u2013\ufe63", "-"),  # the ways a minus comes out of word processors
    **dict.fromkeys("\u2014\u2015", "—"),
    **dict.fromkeys("\u2206\u25b3", "Δ"),
    **dict.fromkeys("\u00ba\u02da", "°"),
    "\u0394": "Δ",
}
_SEPARATORS = "/,;|"
_ACUITY = re.compile(r"(?<![0-9.,])(?:[+-] *)?(?:20|10|[3-6])/[0-9]{1,3}(?![0-9.,])")
_EMPTY = re.compile(r"(?:-{2,}|_{2,}|—+)(?![0-9.,])")
_NUMBER = re.compile(r"(?P<sign>[+-]?)(?P<gap> *)(?P<digits>[0-9]+(?:[.,][0-9]+)*|[.,][0-9]+(?:[.,][0-9]+)*)")
_COMMA_BEHIND = re.compile(r"[0-9]*\.[0-9]{2,3}(?=,[0-9])")
"""A number with a decimal point: a comma behind it parts it from the next one, as in -2.00,-0.50,180."""
_LETTERS = re.compile(r"[^\W\d_]+")
_SYMBOLS = {
    **dict.fromkeys(_SEPARATORS, "sep"),
    ":": "colon",
    "=": "colon",
    "(": "open",
    ")": "close",
    "[": "open",
    "]": "close",
    "-": "empty",
    ".": "stop",
}


@dataclass(frozen=True, slots=True)
class Token:
    """A piece of the text: its kind, what it says, and where it stands. Numbers keep their sign apart."""

    kind: str
    value: str
    start: int
    end: int
    sign: str = ""
    detached: bool = False  # a blank stands between sign and digits

    @property
    def number(self) -> float:
        """The value of a number token without its sign; the caller has looked at its digits."""
        return float(self.value.replace(",", "."))

    @property
    def decimals(self) -> int:
        """How many digits stand behind the decimal mark."""
        _, mark, fraction = self.value.replace(",", ".").partition(".")
        return len(fraction) if mark else 0

    @property
    def whole(self) -> str:
        """The digits before the decimal mark."""
        return self.value.replace(",", ".").partition(".")[0]

    @property
    def well_formed(self) -> bool:
        """At most three digits on either side of at most one decimal mark."""
        return re.fullmatch(r"[0-9]{1,3}(?:[.,][0-9]{1,3})?|[.,][0-9]{1,3}", self.value) is not None


def clean(text: str, *, field: str) -> tuple[str, str]:
    """The text composed, and the same, character for character, with look-alike signs made one; else a refusal."""
    if len(text) > LONGEST:
        raise _refusal(field, f"a text of {len(text)} characters", f"a prescription of at most {LONGEST} characters")
    composed = unicodedata.normalize("NFC", text)
    plain = folded(composed)
    if "\u00ad" in plain:
        raise _refusal(field, "a soft hyphen, which may show as a minus or as nothing", "a plain minus sign: -2.25")
    hidden = hidden_character(plain, lines=True)
    if hidden or "\u200c" in plain or "\u200d" in plain:
        raise _refusal(field, hidden or "an invisible joiner", "plain letters, digits and signs")
    if not plain.strip():
        raise _refusal(field, "an empty text", "a prescription such as -3.25 -1.25 x 172, or plano")
    return composed, plain


def tokens_of(text: str, *, language: str | None) -> list[Token]:
    """The cleaned text as tokens, in order."""
    found: list[Token] = []
    place = 0
    while place < len(text):
        if text[place] in " \n":
            place += 1
            continue
        token = _next(text, place, language)
        found.append(token)
        place = token.end
    return found


def _next(text: str, place: int, language: str | None) -> Token:
    for kind, pattern in (("fraction", _ACUITY), ("empty", _EMPTY)):
        match = pattern.match(text, place)
        if match:
            return Token(kind, match.group(), place, match.end())
    match = _NUMBER.match(text, place)
    if match and not (text[place] == "," and text[place - 1 : place].isdigit()):
        sign, gap, digits = match.group("sign", "gap", "digits")
        listed = _COMMA_BEHIND.match(digits)
        digits = listed.group() if listed else digits
        return Token("number", digits, place, match.start("digits") + len(digits), sign, bool(sign and gap))
    words = lexicon(language)
    word = words.match(text, place)
    if word:
        spelled = " ".join(word.group().split())
        meaning = words.table.get(spelled) or words.table[spelled.rstrip(".")]
        return Token(meaning.kind, meaning.value, place, word.end())
    lone_dash = text[place] == "-" and text[place + 1 : place + 2].strip(f" \n{_SEPARATORS})") != ""
    if text[place] in _SYMBOLS and not lone_dash:
        return Token(_SYMBOLS[text[place]], text[place], place, place + 1)
    letters = _LETTERS.match(text, place)
    return Token("unknown", "", place, letters.end() if letters else place + 1)


def folded(text: str) -> str:
    """The text in small letters, with look-alike signs made one, character for character."""
    return "".join(_fold(c) for c in text)


def _fold(character: str) -> str:
    if character in _ALIKE:
        return _ALIKE[character]
    if 0xFF01 <= ord(character) <= 0xFF5E:
        character = chr(ord(character) - 0xFEE0)
    if character in "\t\u3000" or unicodedata.category(character) == "Zs":
        return " "
    if character == "\r":
        return "\n"
    lower = character.lower()
    return lower if len(lower) == 1 and character != "Δ" else character


def _refusal(field: str, found: str, accepted: str) -> InputError:
    return InputError(field, [Fault(field, found, accepted)])
