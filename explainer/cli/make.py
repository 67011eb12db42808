"""`explainer make`: one leaflet for every order."""

from __future__ import annotations

import gc
from pathlib import Path
from typing import TYPE_CHECKING, Literal

import click

from explainer.cli.common import LANGUAGE, ORDERS, WORKSHOP, each, guarded, tell, tell_notes

if TYPE_CHECKING:
    from explainer.orders import Order


@click.command()
@ORDERS
@click.option("-o", "--output", type=click.Path(path_type=Path), default=Path(), help="Folder for the leaflets.")
@click.option("--edition", type=click.Choice(["standard", "large-print"]), default="standard", show_default=True)
@click.option("--paper", type=click.Choice(["A4", "Letter"]), help="Paper; else the workshop's, else A4.")
@LANGUAGE
@WORKSHOP
@guarded
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
        tell(f"note: {note}")

    def one(order: Order) -> None:
        tell_notes(order)
        leaflet = make_leaflet(order, edition=edition, paper=paper)
        path = output / leaflet_name(order, edition)
        write_file(path, leaflet.pdf)
        click.echo(path)

    return each(orders, workshop, language, one)
