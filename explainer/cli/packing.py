"""Papers held against orders: a finished document, or codes as a scanner types them, a line each."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from explainer.cli.refusals import Refusals
from explainer.cli.streams import say, tell
from explainer.errors import Fault, InputError
from explainer.orders import Order


def compared(order: Order, against: Path) -> None:
    """One order held against one finished leaflet; InputError with every difference."""
    from explainer.render.against import differences, read_paper

    faults = differences(order, read_paper(against))
    if faults:
        raise InputError(str(against), faults)
    say(f"{order.number}: {against} is this order's leaflet")


def scanned(orders: tuple[Path, ...], workshop: Path | None, language: str | None) -> int:
    """Each code on standard input held against its order; the exit code says whether all were right."""
    refusals = Refusals(tell)
    wrong = 0
    for line in sys.stdin or ():
        if not line.strip():
            continue
        try:
            say(_right(line, orders, workshop, language))
        except InputError as error:
            wrong += 1
            refusals.add(error.source, error)
    refusals.flush()
    return 1 if wrong else 0


def _right(code: str, orders: tuple[Path, ...], workshop: Path | None, language: str | None) -> str:
    from explainer.orders.assembly.check_word import check_word
    from explainer.orders.choosing import choose_order
    from explainer.render.companions.codes import read_code

    number, word = read_code(code)
    found = choose_order(orders, number, workshop_path=workshop, language=language)
    if found.order is None:
        raise found.error or InputError(found.source, [])
    now = check_word(found.order)
    if word != now:
        fault = Fault("check word", word, f"{now}, the order's word today: print label, tag and leaflet again")
        raise InputError(f"scanned code {number}", [fault])
    return f"{found.order.number} {now}: this order's, {found.order.wearer_name or 'no name'}"


def one_of(orders: tuple[Path, ...], number: str | None) -> None:
    """Wrong use where a paper is to be held against more than one order."""
    if number is None and (len(orders) != 1 or orders[0].is_dir()):
        raise click.UsageError("--against compares one order with one paper: give one order, or --order NUMBER")
