"""`explainer sources` and `explainer schema`: what the program rests on and what it reads."""

from __future__ import annotations

import json

import click

from explainer.cli.common import JSON, guarded
from explainer.cli.streams import say, say_json, tell


@click.command()
@JSON
@guarded
def sources(as_json: bool) -> int:
    """List every source and what rests on it."""
    from explainer.render.evidence import sources_json, sources_text

    if as_json:
        say_json(sources_json())
    else:
        say(sources_text())
    return 0


@click.command()
@click.option("--workshop", is_flag=True, help="The workshop file instead of the order file.")
@click.option("--csv", "as_table", is_flag=True, help="The columns of a table of orders, with two rows as examples.")
@click.option("--fields", is_flag=True, help="Every field of both files in words, to read.")
@guarded
def schema(workshop: bool, as_table: bool, fields: bool) -> int:
    """Print the JSON Schema of the order file, the columns of a table of orders, or all fields in words."""
    from explainer.orders.reference import reference
    from explainer.orders.schema import order_schema, workshop_schema
    from explainer.orders.tables.example import example_csv

    if as_table + workshop + fields > 1:
        raise click.UsageError("use one of --workshop, --csv and --fields")
    if fields:
        say(reference())
        return 0
    if as_table:
        say(example_csv(), nl=False)
        tell("needed: order, date and the prescription in one of its ways; leave out every other column at will")
        return 0
    say(json.dumps(workshop_schema() if workshop else order_schema(), indent=2))
    return 0
