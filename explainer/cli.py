"""The command line: arguments in, calls, exit code out. The only place that prints or turns an error into a message.

Results go to standard output, messages to standard error. Exit 0 all made, 1 an order was refused, 2 wrong use.
"""

from __future__ import annotations

import gc
import json
import sys
from collections.abc import Callable, Iterable
from functools import wraps
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

import click

from explainer import __version__
from explainer.errors import ExplainerError, Fault, InputError, OutOfRange

if TYPE_CHECKING:
    from explainer.orders import Order

_ORDERS = click.argument("orders", nargs=-1, required=True, type=click.Path(path_type=Path, exists=True))
_WORKSHOP = click.option(
    "--workshop", type=click.Path(path_type=Path, exists=True, dir_okay=False), help="Workshop file to use."
)
_LANGUAGE = click.option("--language", help="Language of the leaflet, such as en-GB or de.")
_JSON = click.option("--json", "as_json", is_flag=True, help="Print JSON for a program to read.")


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__)
def main() -> None:
    """Explain a pair of spectacles to the person who wears it."""


def _guarded(command: Callable[..., int]) -> Callable[..., None]:
    """Ends with the command's exit code; any error on purpose becomes a message and exit 1."""

    @wraps(command)
    def run(*args: Any, **kwargs: Any) -> None:
        try:
            code = command(*args, **kwargs)
        except ExplainerError as error:
            _tell(str(error))
            code = 1
        sys.exit(code)

    return run


@main.command()
@_ORDERS
@click.option("-o", "--output", type=click.Path(path_type=Path), default=Path(), help="Folder for the leaflets.")
@click.option("--edition", type=click.Choice(["standard", "large-print"]), default="standard", show_default=True)
@click.option("--paper", type=click.Choice(["A4", "Letter"]), help="Paper; else the workshop's, else A4.")
@_LANGUAGE
@_WORKSHOP
@_guarded
def make(
    *,
    orders: tuple[Path, ...],
    output: Path,
    edition: Literal["standard", "large-print"],
    paper: str | None,
    language: str | None,
    workshop: Path | None,
) -> int:
    """Make one leaflet (PDF) for every order."""
    from explainer.render.engine import engine_notes
    from explainer.render.files import write_file
    from explainer.render.leaflet import leaflet_name, make_leaflet

    gc.set_threshold(200_000)  # a leaflet leaves few cycles behind, and looking for them costs a tenth of its time

    for note in engine_notes():
        _tell(f"note: {note}")

    def one(order: Order) -> None:
        _tell_notes(order)
        leaflet = make_leaflet(order, edition=edition, paper=paper)
        path = output / leaflet_name(order, edition)
        write_file(path, leaflet.pdf)
        click.echo(path)

    return _each(orders, workshop, language, one)


@main.command()
@_ORDERS
@_LANGUAGE
@_WORKSHOP
@_JSON
@click.option(
    "--tolerances",
    type=click.Choice(["ansi-z80-1-2015", "iso-21987-2017", "new-jersey"]),
    default="ansi-z80-1-2015",
    show_default=True,
    help="Table that bench readings are judged by; ISO 21987 is remembered and marked so.",
)
@_guarded
def check(
    *, orders: tuple[Path, ...], language: str | None, workshop: Path | None, as_json: bool, tolerances: str
) -> int:
    """Say what is wrong or missing in orders, and how the bench readings stand, before anything is posted."""
    from explainer.compose.release import bench_faults, bench_lines
    from explainer.optics.claims import explain

    def one(order: Order) -> None:
        claims = explain(order.spectacles, tolerances=tolerances).claims
        faults = bench_faults(claims)
        lines = bench_lines(claims)
        if as_json:
            click.echo(json.dumps(_check_json(order, lines, faults), ensure_ascii=False))
        else:
            click.echo(f"{order.number}: order is complete enough to make a leaflet")
            for line in [*lines, *order.warnings, *order.notes]:
                click.echo(f"  - {line}")
        if faults and order.release is None:
            raise InputError(order.source, faults)

    return _each(orders, workshop, language, one)


@main.command()
@_ORDERS
@_LANGUAGE
@_WORKSHOP
@_JSON
@click.option("-o", "--output", type=click.Path(path_type=Path), help="Write a sheet for the file (PDF) instead.")
@click.option("--sensitivity", is_flag=True, help="Say instead which assumption moves which tint band by how much.")
@_guarded
def claims(
    *,
    orders: tuple[Path, ...],
    language: str | None,
    workshop: Path | None,
    as_json: bool,
    output: Path | None,
    sensitivity: bool,
) -> int:
    """Print every statement about an order: value, how computed, from what, basis, source."""
    from explainer.optics.claims import explain
    from explainer.render.evidence import evidence_json, evidence_text, sensitivity_text

    def one(order: Order) -> None:
        found = explain(order.spectacles).claims
        if output is not None:
            _evidence_sheet(order, output)
        elif sensitivity:
            click.echo(sensitivity_text(order.spectacles.lens))
        else:
            click.echo(evidence_json(order.number, order.language, found) if as_json else evidence_text(found))

    return _each(orders, workshop, language, one)


def _evidence_sheet(order: Order, path: Path) -> None:
    from explainer.render.evidence_pdf import evidence_pdf
    from explainer.render.files import write_file

    write_file(path, evidence_pdf(order))
    click.echo(path)


@main.command()
@_JSON
@_guarded
def sources(as_json: bool) -> int:
    """List every source and what rests on it."""
    from explainer.render.evidence import sources_json, sources_text

    click.echo(sources_json() if as_json else sources_text())
    return 0


@main.command()
@click.option("--workshop", is_flag=True, help="The workshop file instead of the order file.")
@_guarded
def schema(workshop: bool) -> int:
    """Print the JSON Schema of the order file."""
    from explainer.orders.schema import order_schema, workshop_schema

    click.echo(json.dumps(workshop_schema() if workshop else order_schema(), indent=2))
    return 0


def _each(paths: Iterable[Path], workshop: Path | None, language: str | None, use: Callable[[Order], None]) -> int:
    """Reads all orders and uses each; a refused order is told and never stops the others."""
    from explainer.orders import read_orders

    refused = False
    for result in read_orders(list(paths), workshop_path=workshop, language=language):
        try:
            if result.order is None:
                raise result.error or InputError(result.source, [])
            use(result.order)
        except OutOfRange as error:
            refused = True
            fault = Fault(error.name, f"{error.value}", f"{error.low:g} to {error.high:g} {error.unit}")
            _tell(str(InputError(result.source, [fault])))
        except ExplainerError as error:
            refused = True
            _tell(str(error))
    return 1 if refused else 0


def _check_json(order: Order, lines: list[str], faults: list[Fault]) -> dict[str, Any]:
    return {
        "order": order.number,
        "bench": lines,
        "outside": [str(fault) for fault in faults],
        "released": order.release is not None,
        "warnings": list(order.warnings),
        "left_out": list(order.notes),
    }


def _tell_notes(order: Order) -> None:
    for line in order.warnings:
        _tell(f"{order.number}: warning: {line}")
    for line in order.notes:
        _tell(f"{order.number}: {line}")


def _tell(message: str) -> None:
    click.echo(message, err=True)
