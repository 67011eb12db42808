"""Finished PDFs joined into one that stays tagged: a print set is read aloud as its parts are.

Joining pages is the library's work. The structure tree is ours: each part's tree becomes one section of the whole, and
the numbers by which pages point into the tree are counted on from part to part (ISO 32000-1, 14.7.4).
"""

from __future__ import annotations

import io
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from pikepdf import Pdf


@dataclass(frozen=True, slots=True)
class Part:
    """One document of a set: its bytes, how a reading program calls it, and whether it begins on a sheet's front."""

    pdf: bytes
    title: str
    language: str
    own_sheet: bool = True


def joined(parts: Iterable[Part], *, title: str, language: str, created: date) -> bytes:
    """The parts one after the other. A part with a sheet of its own is filled up to whole sheets with empty pages."""
    import pikepdf

    whole = pikepdf.new()
    tree = _Tree(whole)
    for part in parts:
        with pikepdf.open(io.BytesIO(part.pdf)) as one:
            first = len(whole.pages)
            whole.pages.extend(one.pages)
            tree.take(one, whole.pages[first:], part)
            if part.own_sheet and (len(whole.pages) - first) % 2:
                box = [float(edge) for edge in whole.pages[-1].mediabox]
                whole.add_blank_page(page_size=(box[2] - box[0], box[3] - box[1]))
                tree.empty(whole.pages[-1])
    tree.close()
    whole.Root.Lang = pikepdf.String(language)
    whole.Root.MarkInfo = pikepdf.Dictionary(Marked=True)
    whole.Root.ViewerPreferences = pikepdf.Dictionary(DisplayDocTitle=True)
    with whole.open_metadata(set_pikepdf_as_editor=False) as about:
        about["dc:title"] = title
        about["pdfuaid:part"] = "1"
        about["xmp:CreateDate"] = created.isoformat()
    written = io.BytesIO()
    whole.save(written, deterministic_id=True, object_stream_mode=pikepdf.ObjectStreamMode.generate)
    return written.getvalue()


class _Tree:
    """The structure tree of the whole while parts are added."""

    def __init__(self, whole: Pdf) -> None:
        import pikepdf

        self._pdf, self._lib = whole, pikepdf
        self._root = whole.make_indirect(pikepdf.Dictionary(Type=pikepdf.Name.StructTreeRoot))
        self._document = whole.make_indirect(
            pikepdf.Dictionary(Type=pikepdf.Name.StructElem, S=pikepdf.Name.Document, P=self._root)
        )
        self._sections: list[Any] = []
        self._numbers: list[Any] = []
        self._next = 0
        self._roles: dict[str, Any] = {}

    def take(self, one: Pdf, pages: Iterable[Any], part: Part) -> None:
        """The tree of one part, as a section, with its pages' numbers moved behind those of the parts before."""
        lib = self._lib
        theirs = one.Root.get("/StructTreeRoot")
        if theirs is None:
            for page in pages:
                self.empty(page)
            return
        root = self._pdf.copy_foreign(one.make_indirect(theirs) if not theirs.is_indirect else theirs)
        section = lib.Dictionary(Type=lib.Name.StructElem, S=lib.Name.Sect, P=self._document, T=part.title)
        section.Lang = lib.String(part.language)
        section = self._pdf.make_indirect(section)
        children = [root.K] if not isinstance(root.K, lib.Array) else list(root.K)
        for child in children:
            child.P = section
        section.K = lib.Array(children)
        self._sections.append(section)
        self._roles |= dict(root.get("/RoleMap", {}).items())
        self._move(root, pages)

    def _move(self, root: Any, pages: Iterable[Any]) -> None:
        moved = self._next
        for key, value in _pairs(root.ParentTree):
            self._numbers += [key + moved, value]
            self._next = max(self._next, key + moved + 1)
        for page in pages:
            page.obj.Tabs = self._lib.Name.S
            if "/StructParents" in page.obj:
                page.obj.StructParents = int(page.obj.StructParents) + moved
            for note in page.obj.get("/Annots", []):
                if "/StructParent" in note:
                    note.StructParent = int(note.StructParent) + moved

    def empty(self, page: Any) -> None:
        """A page with nothing on it has nothing in the tree."""
        page.obj.Tabs = self._lib.Name.S

    def close(self) -> None:
        """Put the finished tree into the document."""
        lib = self._lib
        self._document.K = lib.Array(self._sections)
        self._root.K = lib.Array([self._document])
        self._root.ParentTree = self._pdf.make_indirect(lib.Dictionary(Nums=lib.Array(self._numbers)))
        self._root.ParentTreeNextKey = self._next
        if self._roles:
            self._root.RoleMap = lib.Dictionary(self._roles)
        self._pdf.Root.StructTreeRoot = self._root


def _pairs(tree: Any) -> Iterable[tuple[int, Any]]:
    """The numbers of a number tree with what they stand for, through its branches."""
    if "/Nums" in tree:
        listed = list(tree.Nums)
        yield from ((int(key), value) for key, value in zip(listed[::2], listed[1::2], strict=True))
    for kid in tree.get("/Kids", []):
        yield from _pairs(kid)
