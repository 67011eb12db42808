"""The one place that reaches into the engine's private parts, and why.

Two faults of the engine have no public way round. `lang` on an element inside the page is not written to the PDF, so a
caution printed in two languages would be read aloud in one. And a line is broken after its first word when the words
before a number would just fit, but not the space after them; with a number in every other sentence that is seen often.
Both functions are wrapped once, when the engine is loaded, and only in the version this was tried with.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

TRIED_WITH = "70.0"


def repair(version: str) -> bool:
    """Mend what has no public way round; says whether this is the version that it was tried with."""
    if version != TRIED_WITH:
        return False
    _inner_languages()
    _hanging_spaces()
    return True


def _inner_languages() -> None:
    """Have the language of each element that names one written into its tag."""
    import pydyf
    from weasyprint.pdf import tags

    build = tags._build_box_tree

    def build_with_language(box: Any, *arguments: Any) -> Iterator[Any]:
        element = getattr(getattr(box, "_box", box), "element", None)
        language = None if element is None or element.tag == "html" else element.get("lang")
        for tag in build(box, *arguments):
            if language:
                tag["Lang"] = pydyf.String(language)
            yield tag

    tags._build_box_tree = build_with_language


def _hanging_spaces() -> None:
    """Let the space at the end of a run of text hang over the line's end instead of breaking after the first word."""
    from weasyprint.layout import inline

    split = inline.split_first_line

    def split_with_hanging_space(
        text: str, style: Any, context: Any, max_width: float | None, spacing: float, **options: Any
    ) -> Any:
        found = split(text, style, context, max_width, spacing, **options)
        words = text.rstrip(" ")
        if max_width is None or words == text or found[2] is None:
            return found
        first_word = words[: len(words) - len(words.lstrip(" "))] + words.split(maxsplit=1)[0] if words else ""
        if found[1] > len(first_word.encode()):
            return found
        fits_without = split(words, style, context, max_width, spacing, **options)[2] is None
        return split(text, style, context, None, spacing, **options) if fits_without else found

    inline.split_first_line = split_with_hanging_space
