"""How a word sounds, roughly: words that are written by ear get the same key (`dubble`, `double`)."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache

_Rules = tuple[tuple[str, str], ...]

_ENGLISH: _Rules = (
    (r"^(kn|gn|pn)", "n"),
    (r"^wr", "r"),
    (r"^ps", "s"),
    (r"ph", "f"),
    (r"[tc]ious|[tc]eous", "shus"),
    (r"[tsc]ion", "shun"),
    (r"igh", "i"),
    (r"gh", ""),
    (r"tch|ch", "C"),
    (r"sh", "S"),
    (r"dge?", "d"),
    (r"ck|q", "k"),
    (r"c(?=[eiy])", "s"),
    (r"c", "k"),
    (r"x", "ks"),
    (r"z", "s"),
    (r"wh", "w"),
    (r"mb$", "m"),
    (r"ea|ee|ie|ei|y", "i"),
    (r"ai|ay", "a"),
    (r"ou|ow|oo|oa|ew|ue|au|aw", "u"),
    (r"o", "u"),
    (r"(?<=[a-z])(el|le|il|al)(s?)$", r"l\2"),
    (r"(?<=[a-zCS])e(s?)$", r"\1"),
    (r"(?<=.)er?r(s?)$", r"r\1"),
)
_GERMAN: _Rules = (
    (r"ph|v", "f"),
    (r"th|dt|tt", "t"),
    (r"sch", "S"),
    (r"ch", "C"),
    (r"ck|q|c", "k"),
    (r"tz|ts|z|s", "s"),
    (r"x", "ks"),
    (r"ai|ei|ey|ay", "ai"),
    (r"oi|eu|au(?=[mfs])", "oi"),
    (r"ie|y", "i"),
    (r"(?<=[aeiou])h", ""),
    (r"d$", "t"),
    (r"b$", "p"),
    (r"g$", "k"),
    (r"ae", "a"),
    (r"oe", "o"),
    (r"ue", "u"),
)
_ARABIC: _Rules = (
    (r"[صث]", "س"),
    (r"ظ", "ض"),
    (r"ذ", "ز"),
    (r"ط", "ت"),
    (r"[ئؤ]", ""),
)
_RULES: Mapping[str, _Rules] = {"en": _ENGLISH, "de": _GERMAN, "ar": _ARABIC}
_DOUBLED = re.compile(r"(.)\1+")
SHORTEST = 4


@cache
def _compiled(language: str) -> tuple[tuple[re.Pattern[str], str], ...]:
    return tuple((re.compile(pattern), instead) for pattern, instead in _RULES.get(language, ()))


def sound(word: str, language: str) -> str:
    """The key of a word, empty where it would be too short to say anything."""
    key = word
    for pattern, instead in _compiled(language):
        key = pattern.sub(instead, key)
    key = _DOUBLED.sub(r"\1", key)
    return key if len(key) >= SHORTEST else ""
