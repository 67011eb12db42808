"""The evidence of an order as a sheet for the workshop's file."""

from __future__ import annotations

from explainer.compose.explained import explained
from explainer.orders import Order
from explainer.render.evidence import HEAD, evidence_rows
from explainer.render.language import language
from explainer.render.press.pdf import write_pdf
from explainer.render.templates import environment
from explainer.resources import root

_LONG_LIST = 6


def evidence_pdf(order: Order) -> bytes:
    """Every claim of the order in one table. In English: it is for the optician who signs, not for the customer."""
    claims = explained(order).claims
    rows, lists = _with_lists(evidence_rows(claims))
    title = f"Evidence for order {order.number}"
    spoken = language("en")
    html = (
        environment(spoken)
        .get_template("leaflet/evidence.html")
        .render(
            title=title,
            summary=f"{len(claims)} statements. What rests on memory is marked so and is never printed as known.",
            head=HEAD,
            rows=rows,
            lists=lists,
        )
    )
    return write_pdf(
        html,
        assets={},
        stylesheets=[(root("templates") / "leaflet" / "evidence.css").read_text(encoding="utf-8")],
        title=title,
        language="en",
        direction="ltr",
        created=order.date,
        identifier=f"{order.number} evidence",
    ).data


def _with_lists(rows: list[tuple[str, ...]]) -> tuple[list[tuple[str, ...]], list[tuple[str, str]]]:
    """Rows whose long lists of inputs stand once, at the end, under a number: many claims share them."""
    numbers: dict[str, str] = {}
    place = HEAD.index("from")
    short = []
    for row in rows:
        cells = list(row)
        if cells[place].count(",") >= _LONG_LIST:
            cells[place] = numbers.setdefault(cells[place], f"list {len(numbers) + 1}")
        short.append(tuple(cells))
    return short, [(name, inputs) for inputs, name in numbers.items()]
