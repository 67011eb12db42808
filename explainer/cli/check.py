"""`explainer check`: what is wrong or missing, before anything is posted."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING

import click

from explainer.cli.common import JSON, LANGUAGE, ORDER_NUMBER, WORKSHOP, each, guarded, language_of, some_there
from explainer.cli.streams import say, say_json
from explainer.errors import InputError

if TYPE_CHECKING:
    from explainer.optics.claims import ClaimSet
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
    help="Table that bench readings are held against instead of the workshop's; ISO 21987 is remembered and marked so.",
)
@ORDER_NUMBER
@click.option(
    "--against",
    type=click.Path(path_type=Path, exists=True, dir_okay=False, allow_dash=True),
    help="A finished leaflet (PDF): say whether it belongs to the order. - reads scanned codes, a line each.",
)
@guarded
def check(
    *,
    orders: tuple[Path, ...],
    notation: str | None,
    language: str | None,
    workshop: Path | None,
    as_json: bool,
    tolerances: str | None,
    number: str | None,
    against: Path | None,
) -> int:
    """Say what is wrong or missing in orders, and how the bench readings stand, before anything is posted."""
    if (notation is None) == (not orders):
        raise click.UsageError("give ORDERS, or a written prescription with --notation: one of the two")
    if notation is not None:
        return _say_understood(notation, language)
    if against is not None:
        return _held_against(orders, workshop, language, number, against)
    from explainer.compose.explained import explained
    from explainer.compose.release import posting_faults

    def one(order: Order) -> None:
        language_of(order)
        if order.workshop and order.workshop.logo:
            from explainer.render.press.logo import logo_picture

            logo_picture(order.workshop.logo, order.workshop.source)  # what is accepted here can be drawn there
        if order.workshop and order.workshop.house_wording:
            from explainer.render.house.sections import house_sections

            house_sections(order.workshop, order.language)  # refuses words that are against the rules
        claims = explained(order, standard=tolerances).claims
        faults = posting_faults(order, claims)
        if as_json:
            say_json(_as_json(order, claims))
        else:
            say(_as_text(order, claims, ready=not faults))
        if faults:
            raise InputError(order.source, faults)

    return each(orders, workshop, language, one, number=number)


def _say_understood(text: str, language: str | None) -> int:
    from explainer.orders.assembly.understood import understood

    found = understood(text, language=language)
    say(json.dumps(found))  # plain ASCII, so that no terminal can spoil a sign
    return 0 if found["understood"] else 1


def _held_against(
    orders: tuple[Path, ...], workshop: Path | None, language: str | None, number: str | None, against: Path
) -> int:
    from explainer.cli.packing import compared, one_of, scanned

    if str(against) == "-":
        return scanned(orders, workshop, language)
    one_of(orders, number)
    return each(orders, workshop, language, lambda order: compared(order, against), number=number)


def _as_text(order: Order, claims: ClaimSet, *, ready: bool) -> str:
    from explainer.compose.asked import warning_lines
    from explainer.compose.release import bench_lines
    from explainer.orders.assembly.check_word import check_word

    state = "order is complete enough to make a leaflet" if ready else "no leaflet until this is answered"
    head = f"{order.number}: {state} (check word {check_word(order)})"
    return "\n  - ".join([head, *bench_lines(order, claims), *warning_lines(claims), *order.warnings, *order.notes])


def _as_json(order: Order, claims: ClaimSet) -> str:
    from explainer.compose.asked import hold_faults, warning_lines
    from explainer.compose.release import bench_faults, bench_lines, limits_name
    from explainer.orders.assembly.check_word import check_word

    said = {
        "order": order.number,
        "check_word": check_word(order),
        "limits": limits_name(order, claims),
        "bench": bench_lines(order, claims),
        "outside": [str(fault) for fault in bench_faults(claims)],
        "released": order.release is not None,
        "asked": [str(fault) for fault in hold_faults(order, claims)],
        "warnings": [*warning_lines(claims), *order.warnings],
        "left_out": list(order.notes),
    }
    return json.dumps(said, ensure_ascii=False)
