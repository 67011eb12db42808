"""`explainer sources` and `explainer schema`: what the program rests on and what it reads."""

from __future__ import annotations

import json

import click

from explainer.cli.common import JSON, guarded


@click.command()
@JSON
@guarded
def sources(as_json: bool) -> int:
    """List every source and what rests on it."""
    from explainer.render.evidence import sources_json, sources_text

    click.echo(sources_json() if as_json else sources_text())
    return 0


@click.command()
@click.option("--workshop", is_flag=True, help="The workshop file instead of the order file.")
@guarded
def schema(workshop: bool) -> int:
    """Print the JSON Schema of the order file."""
    from explainer.orders.schema import order_schema, workshop_schema

    click.echo(json.dumps(workshop_schema() if workshop else order_schema(), indent=2))
    return 0
