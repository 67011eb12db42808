"""What the commands share: arguments, the guard that ends with an exit code, and the walk over the orders."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable
from functools import wraps
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from explainer.cli.refusals import Refusals
from explainer.errors import ExplainerError, InputError, OutOfRange

if TYPE_CHECKING:
    from explainer.orders import Order, ReadResult

ORDERS = click.argument("orders", nargs=-1, required=True, type=click.Path(path_type=Path, exists=True))
WORKSHOP = click.option(
    "--workshop", type=click.Path(path_type=Path, exists=True, dir_okay=False), help="Workshop file to use."
)
LANGUAGE = click.option("--language", help="Language of the leaflet, such as en-GB or de.")
QUIET = click.option("--quiet", is_flag=True, help="Say nothing but results and refusals.")
JSON = click.option("--json", "as_json", is_flag=True, help="Print JSON for a program to read.")


def guarded(command: Callable[..., int]) -> Callable[..., None]:
    """Ends with the command's exit code; any error on purpose becomes a message and exit 1, Ctrl-C exit 130."""

    @wraps(command)
    def run(*args: Any, **kwargs: Any) -> None:
        try:
            code = command(*args, **kwargs)
        except ExplainerError as error:
            tell(str(error))
            code = 1
        except KeyboardInterrupt:
            tell("stopped")
            code = 130
        sys.exit(code)

    return run


def each(paths: Iterable[Path], workshop: Path | None, language: str | None, use: Callable[[Order], None]) -> int:
    """Reads all orders and uses each; a refused order is told and never stops the others."""
    from explainer.orders import read_orders

    refused = False
    refusals = Refusals(tell)
    for result in read_orders(list(paths), workshop_path=workshop, language=language):
        error = refusal(result, use)
        if error is not None:
            refused = True
            refusals.add(result.source, error)
    refusals.flush()
    return 1 if refused else 0


def refusal(result: ReadResult, use: Callable[[Order], None]) -> ExplainerError | None:
    """Uses the order that was read; the error when it was refused, then or before."""
    try:
        if result.order is None:
            return result.error or InputError(result.source, [])
        use(result.order)
    except OutOfRange as error:
        return InputError(result.source, [error.fault])
    except ExplainerError as error:
        return error
    return None


def tell(message: str) -> None:
    """One message on standard error."""
    click.echo(message, err=True)


def tell_notes(order: Order, say: Callable[[str], None] = tell) -> None:
    """What looks odd in an order and what is left out of its leaflet, on standard error."""
    for line in order.warnings:
        say(f"{order.number}: warning: {line}")
    for line in order.notes:
        say(f"{order.number}: {line}")
