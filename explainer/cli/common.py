"""What the commands share: arguments, the guard that ends with an exit code, and the walk over the orders."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable
from functools import wraps
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from explainer.cli.completing import leaflet_languages
from explainer.cli.early import STOPPED
from explainer.cli.refusals import Refusals
from explainer.cli.streams import OutputLost, tell
from explainer.errors import ExplainerError, Fault, InputError, OutOfRange, Unforeseen
from explainer.places import is_there

LARGEST_LETTER = 25_000_000

if TYPE_CHECKING:
    from explainer.orders import Order, ReadResult
    from explainer.topics.letters import Letter


def some_there(_: click.Context, __: click.Parameter, paths: tuple[Path, ...]) -> tuple[Path, ...]:
    """The paths, of which at least one leads somewhere: a missing one among good ones is refused in its turn."""
    if paths and not any(map(is_there, paths)):
        raise click.BadParameter(f"there is no {' and no '.join(map(str, paths[:3]))}")
    return paths


ORDERS = click.argument("orders", nargs=-1, required=True, type=click.Path(path_type=Path), callback=some_there)
WORKSHOP = click.option(
    "--workshop", type=click.Path(path_type=Path, exists=True, dir_okay=False), help="Workshop file to use."
)
LANGUAGE = click.option(
    "--language", shell_complete=leaflet_languages, help="Language of the leaflet, such as en-GB or de."
)
QUIET = click.option("--quiet", is_flag=True, help="Say nothing but results and refusals.")
QUESTION = click.option(
    "--question",
    type=click.Path(path_type=Path),
    help="The customer's message: a mail as saved, or text; - reads input.",
)
ORDER_NUMBER = click.option("--order", "number", metavar="NUMBER", help="Which order, by its number.")
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
            code = STOPPED
        sys.exit(code)

    return run


def letter_in(path: Path) -> Letter:
    """A customer's message, a mail or text in any encoding, from a file or standard input; InputError if unreadable."""
    from explainer.orders.values.files import read_bytes
    from explainer.topics.letters import read_letter

    if str(path) != "-":
        return read_letter(read_bytes(path, largest=LARGEST_LETTER))
    try:
        data = sys.stdin.buffer.read(LARGEST_LETTER + 1) if sys.stdin else b""
    except (OSError, ValueError):
        data = b""
    if len(data) > LARGEST_LETTER:
        fault = Fault("file", f"more than {LARGEST_LETTER} bytes", f"at most {LARGEST_LETTER} bytes")
        raise InputError("standard input", [fault])
    return read_letter(data)


def results_of(
    paths: Iterable[Path], workshop: Path | None, language: str | None, number: str | None = None
) -> Iterable[ReadResult]:
    """All orders, read or refused; with a number, that one alone, wherever among them it stands."""
    from explainer.orders import read_orders
    from explainer.orders.choosing import choose_order

    if number is not None:
        return [choose_order(list(paths), number, workshop_path=workshop, language=language)]
    return read_orders(list(paths), workshop_path=workshop, language=language)


def each(
    paths: Iterable[Path],
    workshop: Path | None,
    language: str | None,
    use: Callable[[Order], None],
    *,
    number: str | None = None,
) -> int:
    """Reads all orders, or that of one number, and uses each; a refused order is told and never stops the others."""
    refused = False
    refusals = Refusals(tell)
    for result in results_of(paths, workshop, language, number):
        error = refusal(result, use)
        if error is not None:
            refused = True
            refusals.add(result.source, error)
    refusals.flush()
    return 1 if refused else 0


def language_of(order: Order) -> None:
    """InputError unless the order is in a language that leaflets are made in; long before one is."""
    from explainer.render.language import available, has_language

    if not has_language(order.language):
        found, accepted = f'"{order.language}"', f"{', '.join(available())}, each with a country if wanted: en-GB"
        raise InputError(order.source, [Fault("language", found, accepted)])


def refusal(result: ReadResult, use: Callable[[Order], None]) -> ExplainerError | None:
    """Uses the order that was read; the error when it was refused, then or before."""
    try:
        if result.order is None:
            return result.error or InputError(result.source, [])
        use(result.order)
    except OutOfRange as error:
        return InputError(result.source, [error.fault])
    except OutputLost:
        raise
    except ExplainerError as error:
        return error
    except (OSError, click.ClickException):
        raise  # the machine's fault, or wrong use: the next order would fare no better
    except Exception as error:
        return Unforeseen(result.source, error)
    return None


def tell_notes(order: Order, say: Callable[[str], None] = tell) -> None:
    """What looks odd in an order and what is left out of its leaflet, on standard error."""
    for line in order.warnings:
        say(f"{order.number}: warning: {line}")
    for line in order.notes:
        say(f"{order.number}: {line}")
