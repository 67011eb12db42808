"""A prescription as a small table → the same said in a line for each eye, which the grammar then reads.

Either a heading names the columns and each row an eye, or a heading names the eyes and each row a quantity. Cells are
parted by tabs or bars, else by blanks; then every row must have as many cells as its heading has names.
"""

from __future__ import annotations

import re

from explainer.errors import Fault, InputError
from explainer.orders.notation.tokens import Token, folded, tokens_of

_QUANTITIES = {
    "sph": "sph",
    "cyl": "cyl",
    "axis": "axis",
    "os": "axis",
    "add": "add",
    "prism": "prism",
    "base": "base",
    "pd": "pd",
    "vertex": "vertex",
    "acuity": "va",
}
_CORNER = {"", "eye", "eyes", "rx", "auge", "oeil", "œil", "ojo", "occhio", "olho", "oko"}
_NOTHING = {"", "-", "--", "---", "----", "—", "/", "none", "ds", "sph"}
_RULED = re.compile(r"[\s|:+=-]*[|:+=-]{3}[\s|:+=-]*")
_EYES = ("right", "left", "both")


def said_in_lines(text: str, *, language: str | None, field: str) -> str | None:
    """The table's content in lines such as "left sph -2.00 cyl -0.50 axis 180"; None if the text is no table."""
    lines = [line for line in re.split(r"\r\n|[\r\n]", text) if line.strip() and not _RULED.fullmatch(line)]
    if len(lines) < 3:
        return None
    heading = [_meaning(cell, language) for cell in _cells(lines[0])]
    if heading and heading[0] == "corner":
        heading = heading[1:]
    if len(heading) >= 2 and "sph" in heading and all(name in _QUANTITIES.values() for name in heading):
        return "\n".join(_row_of_eye(line, heading, language, field) for line in lines[1:])
    if heading in (["right", "left"], ["left", "right"]):
        return _rows_of_quantities(lines[1:], heading, language, field)
    return None


def _row_of_eye(line: str, heading: list[str], language: str | None, field: str) -> str:
    name, *cells = _cells(line)
    eye = _meaning(name, language)
    if eye not in _EYES:
        if "|" in line or "\t" in line or eye not in ("add", "pd", "vertex"):
            raise _refusal(field, "a row that names no eye", "each row with its eye first")
        return line  # an addition or a distance on its own line, for both
    if len(cells) != len(heading):
        raise _uneven(field, len(cells), len(heading))
    return " ".join([eye, *_said(heading, cells)])


def _rows_of_quantities(lines: list[str], eyes: list[str], language: str | None, field: str) -> str:
    said: dict[str, list[str]] = {"right": [], "left": []}
    for line in lines:
        name, *cells = _cells(line)
        quantity = _meaning(name, language)
        if quantity not in _QUANTITIES.values():
            raise _refusal(field, "a row that names no quantity", "each row with its quantity first: sph, cyl, axis")
        if len(cells) != 2:
            raise _uneven(field, len(cells), 2)
        for eye, cell in zip(eyes, cells, strict=True):
            said[eye] += _said([quantity], [cell])
    return "\n".join(" ".join([eye, *said[eye]]) for eye in ("right", "left"))


def _said(names: list[str], cells: list[str]) -> list[str]:
    return [
        f"{name} {cell}"
        for name, cell in zip(names, cells, strict=True)
        if folded(cell) not in _NOTHING and not (name == "prism" and re.fullmatch(r"0+(?:[.,]0+)?", cell))
    ]


def _cells(line: str) -> list[str]:
    if "|" in line:
        return [cell.strip() for cell in line.strip().removeprefix("|").removesuffix("|").split("|")]
    if "\t" in line:
        return [cell.strip() for cell in line.rstrip("\n").split("\t")]
    return line.split()


def _meaning(cell: str, language: str | None) -> str:
    plain = folded(cell)
    if plain.strip(" .:") in _CORNER:
        return "corner"
    tokens = [token for token in tokens_of(plain, language=language) if token.kind not in ("colon", "open", "close")]
    kinds = {_named(token) for token in tokens}
    return kinds.pop() if len(kinds) == 1 else "unknown"


def _named(token: Token) -> str:
    kind = "left" if token.kind == "l" else token.kind
    return kind if kind in _EYES else _QUANTITIES.get(kind, "unknown")


def _uneven(field: str, found: int, wanted: int) -> InputError:
    accepted = f"{wanted} cells as in the heading, with a dash for what is empty"
    return _refusal(field, f"a row of {found} cells", accepted)


def _refusal(field: str, found: str, accepted: str) -> InputError:
    return InputError(field, [Fault(field, found, accepted)])
