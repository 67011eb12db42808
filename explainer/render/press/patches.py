"""The one place that changes the engine's private parts, and why.

Three faults of the engine have no public way round. `lang` on an element inside the page is not written to the PDF, so
a caution printed in two languages would be read aloud in one. Arabic stands in the PDF as it is drawn, from the left,
and nothing tells a reading program the words. And a line is broken after its first word when the words before a number
would just fit, but not the space after them; with a number in every other sentence that is seen often. The functions
are wrapped once, when the engine is loaded, and only in the version this was tried with.
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
    _words_from_the_right()
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


def _words_from_the_right() -> None:
    """Have each run of text in a page from right to left carry its words in the order of reading.

    The runs in other scripts too: they share bracket glyphs with the others, where each stands for its counterpart.
    """
    import pydyf
    import weasyprint.pdf as writer

    add = writer.add_tags

    def add_with_words(pdf: Any, document: Any, version: Any, page_streams: Any) -> None:
        drawn: list[dict[Any, Any]] = []
        for stream in page_streams:
            drawn.append({entry["mcid"]: box for box, entry in stream._tags.items()})
        add(pdf, document, version, page_streams)
        if not any(box.style["direction"] == "rtl" for boxes in drawn for box in boxes.values()):
            return
        pages = dict(zip(pdf.page_references, drawn, strict=False))
        for item in pdf.objects:
            if isinstance(item, dict) and item.get("Type") == "/StructElem" and len(item["K"]) == 1:
                box = pages.get(item.get("Pg"), {}).get(item["K"][0])
                if isinstance(text := getattr(box, "text", None), str):
                    item["ActualText"] = pydyf.String(text)

    writer.add_tags = add_with_words


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
