"""`explainer claims`: every statement about an order, with what it rests on."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from explainer.cli.common import JSON, LANGUAGE, ORDER_NUMBER, ORDERS, WORKSHOP, each, guarded
from explainer.cli.streams import say, say_json, say_path

if TYPE_CHECKING:
    from explainer.orders import Order


@click.command()
@ORDERS
@LANGUAGE
@WORKSHOP
@ORDER_NUMBER
@JSON
@click.option("-o", "--output", type=click.Path(path_type=Path), help="Write a sheet for the file (PDF) instead.")
@click.option("--sensitivity", is_flag=True, help="Say instead which assumption moves which tint band by how much.")
@guarded
def claims(
    *,
    orders: tuple[Path, ...],
    language: str | None,
    workshop: Path | None,
    number: str | None,
    as_json: bool,
    output: Path | None,
    sensitivity: bool,
) -> int:
    """Print every statement about an order: value, how computed, from what, basis, source."""
    from explainer.compose.explained import explained
    from explainer.render.evidence import evidence_json, evidence_text, sensitivity_text

    def one(order: Order) -> None:
        found = explained(order).claims
        if output is not None:
            _evidence_sheet(order, output)
        elif sensitivity:
            say(sensitivity_text(order.spectacles.lens))
        elif as_json:
            say_json(evidence_json(order.number, order.language, found))
        else:
            say(evidence_text(found))

    return each(orders, workshop, language, one, number=number)


def _evidence_sheet(order: Order, path: Path) -> None:
    from explainer.render.evidence_pdf import evidence_pdf
    from explainer.render.files import write_file

    write_file(path, evidence_pdf(order))
    say_path(path)
