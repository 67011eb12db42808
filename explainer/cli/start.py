"""`explainer start`: an empty folder becomes a workshop's."""

from __future__ import annotations

import datetime as dt
import sys
from pathlib import Path

import click

from explainer.cli.common import guarded
from explainer.cli.completing import leaflet_languages
from explainer.cli.streams import say_path, tell

_ASKED = {
    "name": "Name of the workshop",
    "phone": "Telephone for customers (empty: none)",
    "email": "E-mail for customers (empty: none)",
    "country": "Country, two capital letters",
    "language": "Language of the leaflets",
}
_USUAL = {"name": None, "phone": "", "email": "", "country": "GB", "language": "en-GB"}


@click.command(epilog='Example: explainer start my-workshop --name "Fernlight" --country GB --language en-GB')
@click.argument("folder", type=click.Path(path_type=Path, file_okay=False))
@click.option("--name", help="Name of the workshop.")
@click.option("--phone", help="Telephone for customers.")
@click.option("--email", help="E-mail address for customers.")
@click.option("--country", help="Two capital letters, such as GB.")
@click.option("--language", shell_complete=leaflet_languages, help="Language of the leaflets, such as en-GB.")
@guarded
def start(*, folder: Path, **options: str | None) -> int:
    """Write a first workshop file and a first order into FOLDER; asks for what is not given. Nothing is replaced."""
    from explainer.orders import read_order
    from explainer.orders.shop.first import first_order, first_workshop
    from explainer.render.files import write_file

    workshop, order = folder / "workshop.toml", folder / "orders" / "first.toml"
    there = [path for path in (workshop, order) if path.exists()]
    if there:
        raise click.UsageError(f"{there[0]} is there already; nothing was written")
    given = {name: value if value is not None else _asked(name) for name, value in options.items()}
    write_file(workshop, first_workshop(given).encode())
    write_file(order, first_order(dt.date.today(), given["language"]).encode())
    try:
        read_order(order)
    except BaseException:
        workshop.unlink()
        order.unlink()
        raise
    say_path(workshop)
    say_path(order)
    tell(f"next: explainer check {order}, then explainer make {order} -o {folder / 'parcels'}")
    return 0


def _asked(name: str) -> str:
    if sys.stdin is not None and sys.stdin.isatty():
        return str(click.prompt(_ASKED[name], default=_USUAL[name], err=True)).strip()
    if name == "name":
        raise click.UsageError("--name is needed where nobody can be asked")
    return _USUAL[name] or ""
