"""Bytes of unknown encoding → text."""

from __future__ import annotations

import codecs
import re

_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF32_LE, "utf-32"),
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
_ARABIC_RUN = re.compile(rb"[\xc0-\xff]{3}")  # three high letters in a row: rare in Western words, usual in Arabic


def decoded(data: bytes, declared: str | None = None) -> str:
    """The text, by its mark, by what is declared, or by what fits; what fits nowhere becomes a replacement sign."""
    for mark, name in _MARKS:
        if data.startswith(mark):
            return data.decode(name, "replace")
    for candidate in (declared, "utf-8", _by_zeros(data)):
        text = _strictly(data, candidate)
        if text is not None:
            return text
    high = len(re.findall(rb"[\x80-\xff]", data))
    arabic = 3 * len(_ARABIC_RUN.findall(data)) > high / 2
    return data.decode("cp1256" if arabic else "cp1252", "replace")


def _by_zeros(data: bytes) -> str | None:
    """UTF-16 without a mark: every other byte of Latin text is zero."""
    sample = data[:400]
    if sample.count(0) * 3 < len(sample):
        return None
    return "utf-16-le" if sample[1::2].count(0) > sample[::2].count(0) else "utf-16-be"


def _strictly(data: bytes, name: str | None) -> str | None:
    if not name or (name == "utf-8" and b"\0" in data):
        return None
    try:
        text = data.decode(name)
    except (LookupError, ValueError):
        return None
    return text if isinstance(text, str) else None
