"""A number with its unit, kept together in lines that run either way.

From left to right the group is one isolate. From right to left a group with words of the language runs with it, so that
"3 to 12" is read in its order, while each numeral in it keeps its sign on the left.
"""

from __future__ import annotations

import re
from html import escape
from typing import NamedTuple

from explainer.render.language import Language

ISOLATE_LTR, ISOLATE_RTL, END_ISOLATE = "\u2066", "\u2067", "\u2069"
_NUMERAL = re.compile(r"[+\u2212-]?\d[\d.,:]*°?")
_RIGHT_TO_LEFT = re.compile("[\u0590-\u08ff]")


class NumberGroup(NamedTuple):
    """The group as HTML for inside an isolating element of that direction, and as plain text with isolates."""

    html: str
    plain: str
    direction: str


def number_group(text: str, language: Language) -> NumberGroup:
    """The group of a number's text in a language."""
    if language.direction == "ltr":
        return NumberGroup(escape(text), text, "ltr")
    if not _RIGHT_TO_LEFT.search(text):
        return NumberGroup(escape(text), f"{ISOLATE_LTR}{text}{END_ISOLATE}", "ltr")
    html = _NUMERAL.sub(lambda numeral: f'<bdi dir="ltr">{numeral[0]}</bdi>', escape(text))
    plain = _NUMERAL.sub(lambda numeral: f"{ISOLATE_LTR}{numeral[0]}{END_ISOLATE}", text)
    return NumberGroup(html, f"{ISOLATE_RTL}{plain}{END_ISOLATE}", "rtl")
