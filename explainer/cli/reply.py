"""`explainer reply`: a draft answer to a customer, from the sections that hold for this order. Nothing is ever sent."""

from __future__ import annotations

from datetime import UTC, datetime
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING, Literal

import click

from explainer.cli.common import LANGUAGE, ORDER_NUMBER, QUESTION, WORKSHOP, guarded, letter_in, refusal, tell_notes
from explainer.cli.completing import topic_names
from explainer.cli.output import free, is_one_file, read_for
from explainer.cli.streams import say, say_path, tell

if TYPE_CHECKING:
    from explainer.orders import Order, ReadResult
    from explainer.render.mail.reply import Reply
    from explainer.topics.letters import Letter

FORMS = ("eml", "html", "text", "markdown")


@click.command()
@click.argument("order_path", metavar="ORDER", type=click.Path(path_type=Path, exists=True))
@click.option(
    "--topic",
    "names",
    multiple=True,
    shell_complete=topic_names,
    help="What to answer, more than once if wanted; see `topics`.",
)
@ORDER_NUMBER
@QUESTION
@click.option(
    "-o", "--output", type=click.Path(path_type=Path), help="File or folder; a piece else goes to the screen."
)
@click.option(
    "--form", type=click.Choice(FORMS), default="eml", show_default=True, help="A draft, or a piece to paste."
)
@click.option("--pictures/--no-pictures", default=True, show_default=True, help="Pictures in the draft.")
@click.option("--attach-leaflet", "attach", flag_value="leaflet", help="Attach the order's leaflet to the draft.")
@click.option("--attach-page", "attach", flag_value="page", help="Attach it as a page for the telephone instead.")
@LANGUAGE
@WORKSHOP
@guarded
def reply(
    *,
    order_path: Path,
    names: tuple[str, ...],
    number: str | None,
    question: Path | None,
    output: Path | None,
    form: str,
    pictures: bool,
    attach: Literal["leaflet", "page"] | None,
    language: str | None,
    workshop: Path | None,
) -> int:
    """Write a draft reply to a customer about an order. Nothing is sent.

    ORDER is an order, or a table or folder of many: then --order, or the number in the message, says which.
    """
    if not names and question is None:
        raise click.UsageError("say what to answer: --topic NAME, or --question FILE")
    letter = letter_in(question) if question else None

    def one(order: Order) -> None:
        from explainer.render.mail.reply import make_reply

        tell_notes(order)
        asked = letter.text if letter else None
        made = make_reply(order, names, question=asked, attached=attach is not None and form == "eml")
        _told(made)
        leaflet = _attached(order, attach) if attach else None
        read = read_for(order.workshop, order_path, question, workshop)
        _hand_over(made, form, output, pictures=pictures, leaflet=leaflet, letter=letter, read=read)

    error = refusal(_chosen(order_path, number, letter, workshop, language), one)
    if error is not None:
        tell(str(error))
    return 1 if error else 0


def _chosen(
    path: Path, number: str | None, letter: Letter | None, workshop: Path | None, language: str | None
) -> ReadResult:
    """The order to answer about: by its number, as the only one, or as the only one that the message names."""
    from explainer.orders import read_orders
    from explainer.orders.choosing import choose_order, numbered, numbers_named

    if number is None:
        results = list(islice(read_orders([path], workshop_path=workshop, language=language), 2))
        if len(results) == 1:
            return results[0]
        known = [each for each, _, _ in numbered([path], workshop_path=workshop)]
        named = numbers_named(letter.text, known) if letter else []
        if len(named) != 1:
            found = f"the message names {', '.join(named)}" if named else "no message names one of them"
            raise click.UsageError(f"a reply is about one order; {path} holds more, and {found}: say --order NUMBER")
        number = named[0]
        tell(f"order {number}, as the message says")
    return choose_order([path], number, workshop_path=workshop, language=language)


def _told(made: Reply) -> None:
    """What the desk must know: urgent signs first, then what was answered, then what is not translated."""
    from explainer.topics.matcher import reading_lines

    if made.reading is not None:
        for line in reading_lines(made.reading):
            tell(line)
        tell(f"{made.order.number}: answered: {', '.join(made.topics)}")
    if made.lacking:
        tell(f"{made.order.number}: not translated yet, in English: {'; '.join(made.lacking)}")


def _attached(order: Order, kind: Literal["leaflet", "page"]) -> tuple[str, bytes]:
    """A document's name and content. A page that is sent needs no name that nobody guesses."""
    from explainer.batch.documents import Settings, ending_of, make_document
    from explainer.orders.assembly.file_names import file_name

    made = make_document(kind, order, Settings())
    return file_name(order, *(["page"] if kind == "page" else []), ending=ending_of(kind)), made.data


def _hand_over(
    made: Reply,
    form: str,
    output: Path | None,
    *,
    pictures: bool,
    leaflet: tuple[str, bytes] | None,
    letter: Letter | None,
    read: list[Path],
) -> None:
    from explainer.render.files import write_file
    from explainer.render.mail import forms

    if form == "eml":
        data = forms.reply_draft(made, moment=_now(), pictures=pictures, leaflet=leaflet, letter=letter)
    else:
        data = getattr(forms, f"reply_{form}")(made).encode()
        if output is None:
            say(data.decode(), nl=False)
            return
    path = output or Path()
    path = path if is_one_file(path) else path / forms.reply_name(made, form)
    free(path, forms.ENDINGS[form], read)
    write_file(path, data)
    say_path(path)


def _now() -> datetime:
    try:
        now = datetime.now().astimezone()
    except (ValueError, OverflowError, OSError):  # a time zone that cannot be
        now = datetime.now(UTC)
    return now.replace(microsecond=0)
