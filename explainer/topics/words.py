"""The words of a message, as all languages are looked at: small letters, no accents, each with its place.

Places count words; the end of a sentence counts as a few, so that words of two sentences are far from each other.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass

_WORD = re.compile(r"[^\W\d_]+|\d+|[.!?;\n\u061f\u061b]+|[,:()\u060c]")
_PAUSE = frozenset(",:()\u060c")
_APOSTROPHE = re.compile(r"(?<=\w)['\u2019\u2018\u02bc\u00b4`](?=\w)")
_ARABIC = str.maketrans({"ة": "ه", "ى": "ي", "ـ": "", "ء": "", "ک": "ك", "ی": "ي", "ٱ": "ا"})
GAP = 3


@dataclass(frozen=True, slots=True)
class Message:
    """A message read: its words, the place of each, and the number of the sentence that each stands in."""

    words: tuple[str, ...]
    places: tuple[int, ...]
    sentences: tuple[int, ...]

    def only(self, sentences: frozenset[int]) -> Message:
        """The same with the words of all other sentences left blank."""
        return self.without(frozenset(at for at, each in enumerate(self.sentences) if each not in sentences))

    def without(self, taken: frozenset[int]) -> Message:
        """The same with the words at those positions left blank."""
        return Message(
            tuple("" if at in taken else word for at, word in enumerate(self.words)), self.places, self.sentences
        )


def read_words(text: str) -> Message:
    """The message's words: `Gläser` becomes `glaser`, `can't` becomes `cant`, digits stay."""
    words: list[str] = []
    places: list[int] = []
    sentences: list[int] = []
    place = sentence = 0
    for piece in _WORD.findall(_APOSTROPHE.sub("", text)):
        if piece in _PAUSE:
            place += 1
            continue
        if not piece[0].isalnum():
            place, sentence = place + GAP, sentence + 1
            continue
        words.append(plain(piece))
        places.append(place)
        sentences.append(sentence)
        place += 1
    return Message(tuple(words), tuple(places), tuple(sentences))


def plain(text: str) -> str:
    """Small letters, no accents, one form of each Arabic letter, ordinary digits."""
    spread = unicodedata.normalize("NFKD", text.casefold())
    bare = "".join(sign for sign in spread if not unicodedata.combining(sign))
    if bare.isdigit():
        return "".join(str(unicodedata.digit(sign, 0)) for sign in bare)
    return bare.translate(_ARABIC)
