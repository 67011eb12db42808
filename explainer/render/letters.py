"""Which letters each glyph of a font stands for, by the font's own tables; so that joined letters can be copied.

The engine notes a glyph's letters where it first meets it. In Arabic that goes wrong where a vowel sign stands on two
letters drawn as one: the drawing is noted as nothing, and every "no" and "not" of the page is lost in a copy.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any


@cache
def letters_by_glyph(font: Path) -> dict[int, str]:
    """The letters of each glyph by its number in the font: those of its form, or of the letters that it joins."""
    from fontTools.ttLib import TTFont

    with TTFont(font, lazy=True) as opened:
        letters = {name: chr(code) for code, name in opened.getBestCmap().items()}
        subtables = list(_subtables(opened))
        while _grown(letters, subtables):
            pass
        return {opened.getGlyphID(name): text for name, text in letters.items()}


def _subtables(font: Any) -> Iterator[Any]:
    """The tables of forms and of joined letters."""
    for lookup in font["GSUB"].table.LookupList.Lookup if "GSUB" in font else ():
        for table in lookup.SubTable:
            yield table.ExtSubTable if table.LookupType == 7 else table


def _grown(letters: dict[str, str], subtables: list[Any]) -> bool:
    """Notes what follows from the letters known so far; whether that was anything new."""
    before = len(letters)
    for table in subtables:
        if table.LookupType == 1:
            for name, form in table.mapping.items():
                if name in letters:
                    letters.setdefault(form, letters[name])
        elif table.LookupType == 4:
            for first, joined in table.ligatures.items():
                for each in joined:
                    parts = [first, *each.Component]
                    if all(part in letters for part in parts):
                        letters.setdefault(each.LigGlyph, "".join(letters[part] for part in parts))
    return len(letters) > before
