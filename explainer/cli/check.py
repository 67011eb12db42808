"""`explainer check`: what is wrong or missing, before anything is posted."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from explainer.cli.common import JSON, LANGUAGE, ORDERS, WORKSHOP, each, guarded
from explainer.errors import Fault, InputError

if TYPE_CHECKING:
    from explainer.orders import Order


@click.command()
@ORDERS
@LANGUAGE
@WORKSHOP
@JSON
@click.option(
    "--tolerances",
    type=click.Choice(["ansi-z80-1-2015", "iso-21987-2017", "new-jersey"]),
    default="ansi-z80-1-2015",
    show_default=True,
    help="Table that bench readings are judged by; ISO 21987 is remembered and marked so.",
)
@guarded
def check(
    *, orders: tuple[Path, ...], language: str | None, workshop: Path | None, as_json: bool, tolerances: str
) -> int:
    """Say what is wrong or missing in orders, and how the bench readings stand, before anything is posted."""
    from explainer.compose.release import bench_faults, bench_lines
    from explainer.optics.claims import explain_bench

    def one(order: Order) -> None:
        claims = explain_bench(order.spectacles, tolerances=tolerances)
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

    return each(orders, workshop, language, one)


def _check_json(order: Order, lines: list[str], faults: list[Fault]) -> dict[str, Any]:
    return {
        "order": order.number,
        "bench": lines,
        "outside": [str(fault) for fault in faults],
        "released": order.release is not None,
        "warnings": list(order.warnings),
        "left_out": list(order.notes),
    }
