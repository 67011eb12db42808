"""The check word: four letters on the leaflet and in the report, so that the right paper goes into the right box.

It follows from everything of the order and the workshop that is printed, so that a page of a leaflet from before a
correction carries another word than the order does now. It does not follow from the language, the edition or the
program's version: a leaflet stays this order's in another language, and after the program was renewed. Letters
alternate, so the word can be called across a bench. Left out are letters that look or sound like another one of the
set, and words that nobody wants to find beside a name (the list of those is from memory). It is no secret: 1,700 words
tell two papers apart, and say nothing about a prescription.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator

from explainer.orders.assembly.normal import printed_form
from explainer.orders.assembly.order import Order

FIRST = "DFGHKLMRTWZ"
SECOND = "AEOU"
_UNWELCOME = (
    *("DAGO", "FAG", "FAK", "FOD", "FOK", "FOT", "FUK", "FUT", "GAZA", "HATE", "HOMO", "HORA", "HORE", "HURE", "KULO"),
    *("KUT", "LAME", "LEZ", "LOKA", "LOKO", "MORO", "ROMA", "RUDE", "TODE", "WOG", "WORE", "ZULU"),
)


def check_word(order: Order) -> str:
    """The order's word, in capitals."""
    return next(word for word in _words(printed_form(order)) if is_welcome(word))


def is_welcome(word: str) -> bool:
    """Whether the word may stand on a leaflet: two different syllables, and no beginning from the list."""
    return word[0] != word[2] and not word.startswith(_UNWELCOME)


def _words(text: str) -> Iterator[str]:
    """Word after word from the text's hash, each by a number of its own."""
    turn = 0
    while True:
        number = int.from_bytes(hashlib.sha256(f"{turn}\0{text}".encode()).digest()[:8])
        letters = []
        for row in (FIRST, SECOND, FIRST, SECOND):
            number, place = divmod(number, len(row))
            letters.append(row[place])
        yield "".join(letters)
        turn += 1
