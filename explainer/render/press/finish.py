"""What the engine's tagged PDF still lacks, put right in the finished objects just before they are written.

Each function here answers one known gap (weasyprint 70.0) and works on the objects that the engine's public
`finisher` hook hands over. Nothing of the engine itself is changed.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from explainer.render.letters import letters_by_glyph
from explainer.render.press.engine import font_folder
from explainer.render.press.impose import impose
from explainer.render.press.serial import write_down
from explainer.render.press.sheet import Placement

Finisher = Callable[[Any, Any], None]
_POINTS_PER_PX = 0.75
_DOUBTFUL = re.compile(rb"<([0-9a-f]{4})> <((?:[0-9a-f]{8,})?)>")  # no letter, or more than one


def finisher(
    *,
    direction: str,
    link_words: Mapping[str, str],
    placements: Sequence[Placement] = (),
) -> Finisher:
    """The hook for one document: its writing direction, the words of each link by target, the place of each part."""

    def finish(document: Any, pdf: Any) -> None:
        elements = [item for item in pdf.objects if _kind(item) == "/StructElem"]
        margins_as_artifacts(pdf, elements)
        labels_into_figures(pdf, elements)
        header_scopes(pdf, elements)
        figure_boxes(pdf, elements)
        speaking_links(pdf, link_words)
        whole_character_maps(pdf)
        if placements:
            impose(pdf, placements)
        if direction == "rtl":
            pdf.catalog["ViewerPreferences"]["Direction"] = "/R2L"
        write_down(pdf)

    return finish


def margins_as_artifacts(pdf: Any, elements: list[Any]) -> None:
    """Make the page foot an artifact. The engine tags it, outside the tree of tags; readers stumble there."""
    tree = _at(pdf, pdf.catalog["StructTreeRoot"])
    in_tree = {element.number for element in _below(pdf, _at(pdf, tree["K"][0]))}
    parents = dict(_pairs(_at(pdf, tree["ParentTree"])["Nums"]))
    for element in elements:
        if element.number in in_tree:
            continue
        page = _at(pdf, element["Pg"])
        for mark in (kid for kid in element["K"] if isinstance(kid, int)):
            parents[page["StructParents"]][mark] = "null"
            _unmark(_at(pdf, page["Contents"]).stream, mark)
        element.clear()


def labels_into_figures(pdf: Any, elements: list[Any]) -> None:
    """Put the words laid over a picture inside its Figure, so that a reader hears the alternative text once."""
    for block in elements:
        if block.get("S") != "/Div" or len(block["K"]) < 2:
            continue
        kids = [_at(pdf, kid) for kid in block["K"] if not isinstance(kid, int)]
        if kids and kids[0].get("S") == "/Figure":
            figure, labels = kids[0], kids[1:]
            figure["K"].extend(label.reference for label in labels)
            for label in labels:
                label["P"] = figure.reference
            del block["K"][1:]


def header_scopes(pdf: Any, elements: list[Any]) -> None:
    """Give each header cell its scope: a column's in the table's head, a row's elsewhere."""
    for element in elements:
        if element.get("S") == "/TH" and "Scope" not in element["A"]:
            in_head = any(above.get("S") == "/THead" for above in _above(pdf, element))
            element["A"]["Scope"] = "/Column" if in_head else "/Row"


def figure_boxes(pdf: Any, elements: list[Any]) -> None:
    """Turn each figure's box from pixels below the page's top into points above its bottom."""
    for element in elements:
        if element.get("S") == "/Figure":
            left, top, right, bottom = element["A"]["BBox"]
            height = _at(pdf, element["Pg"])["MediaBox"][3]
            box = (left, height / _POINTS_PER_PX - bottom, right, height / _POINTS_PER_PX - top)
            element["A"]["BBox"][:] = [round(side * _POINTS_PER_PX, 3) for side in box]


def speaking_links(pdf: Any, words: Mapping[str, str]) -> None:
    """Describe each link by its words on the page, not its target; let annotations print; put their corners right."""
    for item in pdf.objects:
        if _kind(item) == "/Annot":
            item["F"] = 4
            left, top, right, low = item["Rect"]
            item["Rect"][:] = [min(left, right), min(top, low), max(left, right), max(top, low)]
            if "Contents" in item:
                target = item["Contents"].string
                item["Contents"].string = words.get(target, target)


def whole_character_maps(pdf: Any) -> None:
    """Put the fonts' character maps right where the engine notes no letter for a glyph, or more than one.

    PDF/UA wants a character behind every glyph, and a copy wants the right ones. U+200D (joiner) is invisible
    wherever it is pasted; it stands for what the font's tables do not tell.
    """
    for font in pdf.objects:
        if _kind(font) == "/Font" and "ToUnicode" in font:
            lines = _at(pdf, font["ToUnicode"]).stream
            if any(isinstance(line, bytes) and _DOUBTFUL.fullmatch(line) for line in lines):
                known = letters_by_glyph(_font_file(font["BaseFont"].decode()))
                lines[:] = [_with_letters(line, known) if isinstance(line, bytes) else line for line in lines]


def _with_letters(line: bytes, known: Mapping[int, str]) -> bytes:
    doubtful = _DOUBTFUL.fullmatch(line)
    if doubtful is None:
        return line
    noted = bytes.fromhex(doubtful[2].decode()).decode("utf-16-be")
    letters = known.get(int(doubtful[1], 16), noted or "\N{ZERO WIDTH JOINER}")
    return b"<%s> <%s>" % (doubtful[1], letters.encode("utf-16-be").hex().encode())


def _font_file(name: str) -> Path:
    """Our font's file, from its name in the PDF: `/ABCDEF+Leaflet-Sans-Bold`."""
    family, _, weight = name.partition("+")[2].replace("-", "", 1).partition("-")
    return font_folder() / f"{family}-{weight or 'Regular'}.ttf"


def _unmark(stream: list[Any], mark: int) -> None:
    """Turn the marked content of that number into an artifact of the page's layout."""
    for place, item in enumerate(stream):
        if isinstance(item, dict) and item.get("MCID") == mark:
            stream[place - 1] = "/Artifact"
            del item["MCID"]
            item.update({"Type": "/Pagination", "Subtype": "/Footer"})
            return


def _kind(item: Any) -> str | None:
    return item.get("Type") if isinstance(item, dict) else None


def _at(pdf: Any, reference: bytes) -> Any:
    """The object that a reference such as `12 0 R` points to."""
    return pdf.objects[int(reference.split()[0])]


def _pairs(flat: list[Any]) -> Iterator[tuple[Any, Any]]:
    return zip(flat[::2], flat[1::2], strict=True)


def _below(pdf: Any, element: Any) -> Iterator[Any]:
    """The element and all structure elements under it."""
    yield element
    for kid in element.get("K", ()):
        if not isinstance(kid, int):
            below = _at(pdf, kid)
            if _kind(below) == "/StructElem":
                yield from _below(pdf, below)


def _above(pdf: Any, element: Any) -> Iterator[Any]:
    """The structure elements over this one, nearest first."""
    while "P" in element:
        element = _at(pdf, element["P"])
        if _kind(element) != "/StructElem":
            return
        yield element
