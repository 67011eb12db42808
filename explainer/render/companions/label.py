"""The parcel's label and the frame's tag: number, check word, name and code. No health data stands outside a parcel."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from types import SimpleNamespace
from typing import Any

from explainer.errors import Fault, InputError
from explainer.orders import Order
from explainer.orders.assembly.check_word import check_word
from explainer.orders.assembly.normal import digest
from explainer.render.companions.codes import code_svg, code_text
from explainer.render.language import language
from explainer.render.press.pdf import Pdf, write_pdf
from explainer.render.templates import environment
from explainer.resources import root


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelSize:
    """One label [mm], and how many stand on a sheet of paper: columns, rows, margins and gaps [mm].

    A label that is low or narrow leaves out the sentence and takes smaller letters.
    """

    width: float
    height: float
    paper: str | None = None
    columns: int = 1
    rows: int = 1
    top: float = 0.0
    side: float = 0.0
    gap: float = 0.0

    @property
    def looks(self) -> str:
        """The style sheet's words for a label of this size."""
        return " ".join(word for word, holds in (("low", self.height < 32), ("narrow", self.width < 75)) if holds)


# Rolls for label printers, width × height; sheets by what they hold. Common sizes of the trade, from memory.
SIZES = {
    "89x36": LabelSize(width=89, height=36),
    "89x28": LabelSize(width=89, height=28),
    "62x29": LabelSize(width=62, height=29),
    "100x50": LabelSize(width=100, height=50),
    "100x150": LabelSize(width=100, height=150),
    "A4-14": LabelSize(width=99.1, height=38.1, paper="A4", columns=2, rows=7, top=15.15, side=4.65, gap=2.5),
    "A4-24": LabelSize(width=70, height=37, paper="A4", columns=3, rows=8, top=0.5),
    "Letter-10": LabelSize(width=101.6, height=50.8, paper="Letter", columns=2, rows=5, top=12.7, side=3.95, gap=4.8),
}
TAG = LabelSize(width=62, height=14)


def labels_pdf(orders: Sequence[Order], size: str = "89x36") -> Pdf:
    """Labels for these orders, one a page or as many as the sheet holds. InputError for a size that is not known."""
    if size not in SIZES:
        raise InputError("label", [Fault("label", repr(size)[:40], ", ".join(SIZES))])
    return _labels(orders, SIZES[size], "label")


def tags_pdf(orders: Sequence[Order]) -> Pdf:
    """Tags to hang on the frame: number and check word, so that spectacles and papers are told together."""
    return _labels(orders, TAG, "tag")


def _labels(orders: Sequence[Order], size: LabelSize, kind: str) -> Pdf:
    spoken = language(orders[0].language)
    each = size.columns * size.rows
    sheets = [orders[start : start + each] for start in range(0, len(orders), each)]
    html = (
        environment(spoken)
        .get_template(f"companions/{kind}.html")
        .render(
            lang=spoken.code,
            dir=spoken.direction,
            title=", ".join(order.number for order in orders[:3]),
            size=size,
            sheets=[[_fields(order) for order in sheet] for sheet in sheets],
        )
    )
    return write_pdf(
        html,
        assets={_code_name(order): code_svg(code_text(order)) for order in orders},
        stylesheets=[(root("templates") / "companions" / "label.css").read_text(encoding="utf-8")],
        title=f"{kind} {orders[0].number}",
        language=spoken.code,
        direction=spoken.direction,
        created=orders[0].date,
        identifier=f"{orders[0].number} {kind}",
    )


def _fields(order: Order) -> Any:
    name = order.wearer_name or ""
    return SimpleNamespace(
        number=order.number,
        code=_code_name(order),
        word=check_word(order),
        name=name,
        workshop=getattr(order.workshop, "name", "") or "",
        phone=getattr(order.workshop, "phone", "") or "",
        looks=" ".join(word for word, holds in (("long", len(order.number) > 12), ("much", len(name) > 26)) if holds),
    )


def _code_name(order: Order) -> str:
    return f"figure:code-{digest(order.number)[:16]}"
