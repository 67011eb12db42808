"""`explainer check`: what is wrong or missing, before anything is posted."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from explainer.cli.common import JSON, LANGUAGE, WORKSHOP, each, guarded, language_of, some_there
from explainer.cli.streams import say, say_json
from explainer.errors import Fault, InputError

if TYPE_CHECKING:
    from explainer.orders import Order


NOTATION_HELP = """\b
With --notation, one JSON object is printed. Understood, exit 0:
  {"understood": true, "right": EYE, "left": EYE, "warnings": [...]}
with only the eye that the text names; or, if it names none,
  {"understood": true, "eye": EYE, "warnings": [...]}
EYE: sphere_d cylinder_d axis_deg add_d prism_in_pd prism_up_pd
vertex_mm pd_mm acuity, null where nothing is written, 0.0 for no
prism; written (the program's own form of it) and received (the text as
it came). Base in and base up are positive, axis 1 to 180. A pd_mm of
more than 40 is the distance between both pupils. Refused, exit 1:
  {"understood": false, "faults": [{"field", "found", "accepted"}]}
and, if it was readable but no whole lens, "partial": the eyes as read.
--language says in which language the text is written.
"""


@click.command(epilog=NOTATION_HELP)
@click.argument("orders", nargs=-1, type=click.Path(path_type=Path), callback=some_there)
@click.option("--notation", metavar="TEXT", help="Say how this written prescription is understood, instead of orders.")
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
@click.option(
    "--against",
    type=click.Path(path_type=Path, exists=True, dir_okay=False),
    help="A finished leaflet (PDF): say whether it belongs to the order.",
)
@guarded
def check(
    *,
    orders: tuple[Path, ...],
    notation: str | None,
    language: str | None,
    workshop: Path | None,
    as_json: bool,
    tolerances: str,
    against: Path | None,
) -> int:
    """Say what is wrong or missing in orders, and how the bench readings stand, before anything is posted."""
    if (notation is None) == (not orders):
        raise click.UsageError("give ORDERS, or a written prescription with --notation: one of the two")
    if notation is not None:
        return _say_understood(notation, language)
    from explainer.compose.release import bench_faults, bench_lines
    from explainer.optics.claims import explain
    from explainer.orders.assembly.check_word import check_word

    if against is not None:
        return _compared(orders, workshop, language, against)

    def one(order: Order) -> None:
        language_of(order)
        if order.workshop and order.workshop.logo:
            from explainer.render.press.logo import logo_picture

            logo_picture(order.workshop.logo, order.workshop.source)  # what is accepted here can be drawn there
        if order.workshop and order.workshop.house_wording:
            from explainer.render.house.sections import house_sections

            house_sections(order.workshop, order.language)  # refuses words that are against the rules
        claims = explain(order.spectacles, tolerances=tolerances).claims
        faults = bench_faults(claims)
        lines = bench_lines(claims)
        if as_json:
            say_json(json.dumps(_check_json(order, lines, faults), ensure_ascii=False))
        else:
            head = f"{order.number}: order is complete enough to make a leaflet (check word {check_word(order)})"
            say("\n  - ".join([head, *lines, *order.warnings, *order.notes]))
        if faults and order.release is None:
            raise InputError(order.source, faults)

    return each(orders, workshop, language, one)


def _say_understood(text: str, language: str | None) -> int:
    from explainer.orders.assembly.understood import understood

    found = understood(text, language=language)
    say(json.dumps(found))  # plain ASCII, so that no terminal can spoil a sign
    return 0 if found["understood"] else 1


def _compared(orders: tuple[Path, ...], workshop: Path | None, language: str | None, against: Path) -> int:
    """One order held against one finished leaflet."""
    from explainer.render.against import differences, read_paper

    if len(orders) != 1 or orders[0].is_dir():
        raise click.UsageError("--against compares one order with one leaflet")
    paper = read_paper(against)

    def one(order: Order) -> None:
        faults = differences(order, paper)
        if faults:
            raise InputError(str(against), faults)
        say(f"{order.number}: {against} is this order's leaflet")

    return each(orders, workshop, language, one)


def _check_json(order: Order, lines: list[str], faults: list[Fault]) -> dict[str, Any]:
    from explainer.orders.assembly.check_word import check_word

    return {
        "order": order.number,
        "check_word": check_word(order),
        "bench": lines,
        "outside": [str(fault) for fault in faults],
        "released": order.release is not None,
        "warnings": list(order.warnings),
        "left_out": list(order.notes),
    }
