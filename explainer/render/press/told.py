"""The engine's own words about a page, as they may be told: no letter of what stands on it."""

from __future__ import annotations

import re
import unicodedata

_LACKING = re.compile(r"notdef|unsupported by fonts", re.IGNORECASE)
_CODE = re.compile(r"\(U\+([0-9A-Fa-f]{4,6})\)")
_QUOTED = re.compile(r"([\"'“‘«]).*[\"'”’»]", re.DOTALL)


def told(line: str) -> str:
    """One line of the engine's, in words for the optician: a script that the faces lack, or its own without texts."""
    if not _LACKING.search(line):
        return _QUOTED.sub("…", line)
    scripts = sorted({_script(chr(int(code, 16))) for code in _CODE.findall(line)})
    return f"letters that the leaflet's faces lack, of this kind: {', '.join(scripts) or 'unknown'}"


def _script(letter: str) -> str:
    """The first word of a letter's name, which is its script."""
    return unicodedata.name(letter, "unknown").partition(" ")[0].lower()
