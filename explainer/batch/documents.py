"""What a parcel can hold, by name: the leaflet and what goes with it, each made from the same order."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, get_args

from explainer.orders import Order
from explainer.orders.assembly.file_names import file_name
from explainer.orders.assembly.page_name import page_name

if TYPE_CHECKING:
    from explainer.render.leaflet import Leaflet

Edition = Literal["standard", "large-print"]
Kind = Literal["leaflet", "first-sheet", "sheet", "card", "label", "tag", "page"]
KINDS: tuple[Kind, ...] = get_args(Kind)


def ending_of(kind: Kind) -> str:
    """The ending of files of that kind."""
    return "html" if kind == "page" else "pdf"


@dataclass(frozen=True, slots=True)
class Settings:
    """How the documents of a run are made. `documents` empty: what the workshop file says, else the leaflet alone."""

    edition: Edition = "standard"
    paper: str | None = None
    documents: tuple[Kind, ...] = ()

    def kinds(self, order: Order) -> tuple[Kind, ...]:
        """What is made for this order, the leaflet first."""
        wanted: Sequence[str] = self.documents or getattr(order.workshop, "parcel", ()) or ("leaflet",)
        return tuple(kind for kind in KINDS if kind in wanted)

    def name(self, order: Order, kind: Kind, *, sample: bool = False) -> str:
        """The file's name: order number, language, what it is. Never a person's name.

        A page for the workshop's server is named as its address ends, so that it is put there as it is.
        """
        if kind == "page" and not sample and getattr(order.workshop, "pages_at", None):
            return f"{page_name(order)}.html"
        edition = self.edition if kind in ("leaflet", "first-sheet") and self.edition != "standard" else None
        parts = [None if kind == "leaflet" else kind, edition, "sample" if sample else None]
        return file_name(order, *(part for part in parts if part), ending=ending_of(kind))


@dataclass(frozen=True, slots=True)
class Document:
    """One finished document: a PDF, or HTML, which counts as one page. `notes` are about machine and language."""

    kind: Kind
    data: bytes
    pages: int
    notes: tuple[str, ...] = ()


def make_document(kind: Kind, order: Order, settings: Settings) -> Document:
    """One document of an order. Each kind's libraries are imported when it is first made."""
    return _MAKERS[kind](order, settings)


def _leaflet(order: Order, settings: Settings) -> Document:
    from explainer.render.leaflet import make_leaflet

    return _of_leaflet("leaflet", make_leaflet(order, edition=settings.edition, paper=settings.paper), order)


def _first_sheet(order: Order, settings: Settings) -> Document:
    from explainer.render.leaflet import make_leaflet

    made = make_leaflet(order, edition=settings.edition, paper=settings.paper, first_sheet=True)
    return _of_leaflet("first-sheet", made, order)


def _of_leaflet(kind: Kind, made: Leaflet, order: Order) -> Document:
    return Document(kind, made.pdf, made.pages, _in_english(order) if made.partly_english else ())


def _in_english(order: Order) -> tuple[str]:
    return (f"{order.language}: what is not translated stands in English, and the leaflet is marked as a draft",)


def _sheet(order: Order, settings: Settings) -> Document:
    from explainer.render.companions.sheet import sheet_pdf

    made = sheet_pdf(order, paper=settings.paper)
    return Document("sheet", made.data, made.pages)


def _card(order: Order, settings: Settings) -> Document:
    from explainer.render.companions.card import cards_pdf

    made = cards_pdf([order], paper=None)
    return Document("card", made.data, made.pages)


def _label(order: Order, settings: Settings) -> Document:
    from explainer.render.companions.label import labels_pdf

    made = labels_pdf([order], getattr(order.workshop, "label", None) or "89x36")
    return Document("label", made.data, made.pages)


def _tag(order: Order, settings: Settings) -> Document:
    from explainer.render.companions.label import tags_pdf

    made = tags_pdf([order])
    return Document("tag", made.data, made.pages)


def _page(order: Order, settings: Settings) -> Document:
    from explainer.render.phone.page import make_page

    made = make_page(order)
    return Document("page", made.html, 1, _in_english(order) if made.partly_english else ())


_MAKERS: dict[Kind, Callable[[Order, Settings], Document]] = {
    "leaflet": _leaflet,
    "first-sheet": _first_sheet,
    "sheet": _sheet,
    "card": _card,
    "label": _label,
    "tag": _tag,
    "page": _page,
}
