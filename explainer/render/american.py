"""American English: the source's messages with American words where they differ.

Only words differ here. What differs in substance (whom to call, which rules hold) is decided by the country's claims,
and units by the one function for numbers.
"""

from __future__ import annotations

import gettext
import re
from functools import lru_cache

WORDS = {
    "centimetre": "centimeter",
    "centimetres": "centimeters",
    "centre": "center",
    "centres": "centers",
    "centring": "centering",
    "colour": "color",
    "coloured": "colored",
    "colours": "colors",
    "dioptre": "diopter",
    "dioptres": "diopters",
    "grey": "gray",
    "kerb": "curb",
    "kerbs": "curbs",
    "metre": "meter",
    "metres": "meters",
    "millimetre": "millimeter",
    "millimetres": "millimeters",
    "motorway": "highway",
    "nought": "zero",
    "parcel": "package",
    "petrol": "gasoline",
    "posting": "shipping",
    "long-sighted": "farsighted",
    "short-sighted": "nearsighted",
    "eye test": "eye exam",
    "polarising": "polarizing",
    "practise": "practice",
    "spectacle": "eyeglass",
    "spectacles": "eyeglasses",
    "towards": "toward",
    "tyre": "tire",
    "washing-up liquid": "dish soap",
    "white spirit": "paint thinner",
    "windscreen": "windshield",
    "windscreens": "windshields",
    "by post": "by mail",
    "post it": "mail it",
    "rings round": "rings around",
    "round the frame": "around the frame",
}
"""The British word, or words that stand together, and the American."""
_KNOWN = re.compile(
    r"%\(\w+\)s|\b(" + "|".join(sorted(map(re.escape, WORDS), key=len, reverse=True)) + r")\b", re.IGNORECASE
)


class American(gettext.NullTranslations):
    """The source language with American words."""

    def gettext(self, message: str) -> str:
        """The message as Americans write it."""
        return american(message)

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        """The same for one or many."""
        return american(msgid1 if n == 1 else msgid2)


@lru_cache(maxsize=2048)
def american(message: str) -> str:
    """A message with American words; what is put in by name stays untouched."""
    return _KNOWN.sub(_word, message)


def _word(found: re.Match[str]) -> str:
    if found[1] is None:
        return found[0]
    word = WORDS[found[1].lower()]
    return word[0].upper() + word[1:] if found[1][0].isupper() else word
