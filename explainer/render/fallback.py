"""What is not translated stands in English, and says so: to reading programs by its language, to people by a notice.

A sentence without a translation travels between two marks through templates and Markdown. At the end the marks become
`lang` and `dir`: on the element that holds nothing else where one may bear it, and else on a span or on the number.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from html import escape
from typing import TypeVar

from explainer.render.language import Language, Untranslated

BEGIN, END = "\ue002", "\ue003"  # private use: no order may hold them
IN_ENGLISH = ' lang="en" dir="ltr"'
_BETWEEN_TWO = re.compile(rf"{END}(\s*){BEGIN}")
_LONE = re.compile(rf"(<(p|h[1-6]|caption|figcaption|title)\b[^<>]*)>\s*{BEGIN}([^{BEGIN}{END}]*){END}\s*(?=</\2>)")
_NUMBER = re.compile(rf'{BEGIN}<bdi (class="[^"]*") dir="ltr"([^<>]*>[^<>]*</bdi>){END}')
_ISOLATES = {BEGIN: "\u2066", END: "\u2069"}
T = TypeVar("T")


def in_words(language: Language, speak: Callable[[Language], T]) -> tuple[T, bool]:
    """What `speak` says in the language, and False; in English, and True, when a message that it needs is lacking."""
    try:
        return speak(language), False
    except Untranslated:
        return speak(language.english), True


def marked(language: Language, message: str) -> str:
    """The message in the language; in English between the marks while it is not translated."""
    said, english = in_words(language, lambda spoken: spoken.gettext(message))
    return f"{BEGIN}{said}{END}" if english else said


def joined(text: str) -> str:
    """The same with English that follows on English between one pair of marks."""
    return _BETWEEN_TWO.sub(r"\1", text)


def as_html(text: str) -> str:
    """The HTML with its marks turned into languages and directions."""
    if BEGIN not in text:
        return text
    text = _LONE.sub(rf"\1{IN_ENGLISH}>\3", joined(text))
    text = _NUMBER.sub(r'<bdi \1 lang="en" dir="ltr"\2', text)
    return text.replace(BEGIN, f"<span{IN_ENGLISH}>").replace(END, "</span>")


def is_english(text: str) -> bool:
    """Whether nothing but English stands in a text with marks."""
    return re.fullmatch(rf"\s*{BEGIN}[^{BEGIN}{END}]*{END}\s*", joined(text)) is not None


def plain(text: str, language: Language | None = None) -> str:
    """The text without marks; among words from right to left, English keeps its direction between isolates."""
    guarded = language is not None and language.direction == "rtl" and not is_english(text)
    return re.sub(f"[{BEGIN}{END}]", lambda found: _ISOLATES[found[0]] if guarded else "", joined(text))


def attribute(text: str, language: Language) -> str:
    """An alternative text for between quotation marks, and the attributes that tell its language if it is English."""
    return f'"{escape(plain(text, language))}"{IN_ENGLISH if is_english(text) else ""}'


def holds_english(html: str) -> bool:
    """Whether anything of a finished page stands in English only because it is not translated."""
    return ' lang="en"' in html
