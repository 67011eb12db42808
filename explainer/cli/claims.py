"""`explainer claims`: every statement about an order, with what it rests on."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from explainer.cli.common import JSON, LANGUAGE, ORDER_NUMBER, ORDERS, WORKSHOP, each, guarded
from explainer.cli.output import free, is_one_file, read_for
from explainer.cli.streams import say, say_json, say_path
from explainer.errors import Fault, InputError
from explainer.places import is_folder

if TYPE_CHECKING:
    from explainer.orders import Order


@click.command()
@ORDERS
@LANGUAGE
@WORKSHOP
@ORDER_NUMBER
@JSON
@click.option(
    "-o",
    "--output",
    type=click.Path(path_type=Path),
    help="Write a sheet for the file (PDF) instead, or one for each order into a folder.",
)
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

    one_file = output is not None and is_one_file(output)
    if one_file and (len(orders) != 1 or is_folder(orders[0])):
        raise click.UsageError("one file holds one order's sheet; name a folder for several")

    written: list[Path] = []

    def one(order: Order) -> None:
        found = explained(order).claims
        if output is not None:
            _evidence_sheet(order, output, orders, written)
        elif sensitivity:
            say(sensitivity_text(order.spectacles.lens))
        elif as_json:
            say_json(evidence_json(order.number, order.language, found))
        else:
            say(evidence_text(found))

    return each(orders, workshop, language, one, number=number)


def _evidence_sheet(order: Order, output: Path, read: tuple[Path, ...], written: list[Path]) -> None:
    from explainer.orders.assembly.file_names import file_name
    from explainer.render.evidence_pdf import evidence_pdf
    from explainer.render.files import write_file

    path = output if is_one_file(output) else output / file_name(order, "evidence", ending="pdf")
    if path in written:
        raise InputError(order.source, [Fault("-o", "one file for several orders", "a folder")])
    free(path, "pdf", read_for(order.workshop, *read))
    write_file(path, evidence_pdf(order))
    written.append(path)
    say_path(path)
