"""`explainer make`: one leaflet for every order."""

from __future__ import annotations

import contextlib
import datetime as dt
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Literal

import click

from explainer.cli.common import LANGUAGE, ORDER_NUMBER, ORDERS, QUIET, WORKSHOP, guarded, results_of
from explainer.cli.digest import Digest, finished
from explainer.cli.output import free
from explainer.cli.progress import Progress
from explainer.cli.refusals import Refusals
from explainer.cli.streams import say_path

if TYPE_CHECKING:
    from explainer.batch.documents import Kind
    from explainer.batch.run import Outcome
    from explainer.orders import Order


@click.command()
@ORDERS
@click.option("-o", "--output", type=click.Path(path_type=Path), default=Path(), help="Folder for the leaflets.")
@click.option("--edition", type=click.Choice(["standard", "large-print"]), default="standard", show_default=True)
@click.option("--paper", type=click.Choice(["A4", "Letter"]), help="Paper; else the workshop's, else A4.")
@click.option(
    "--document",
    "documents",
    multiple=True,
    type=click.Choice(["leaflet", "first-sheet", "sheet", "card", "label", "tag", "page"]),
    help="What to make; may be given more than once. Else what the workshop file says under parcel, else the leaflet.",
)
@LANGUAGE
@WORKSHOP
@ORDER_NUMBER
@click.option("--workers", type=click.IntRange(1, 64), help="Processes at work; 1 for this one alone. Else all cores.")
@click.option(
    "--report",
    type=click.Path(path_type=Path, dir_okay=False),
    help="Write a line of JSON for every order into this file; a second run with it skips what is already made.",
)
@click.option("--again", is_flag=True, help="Make everything anew, whatever the report says.")
@click.option(
    "--print-set",
    type=click.Path(path_type=Path, dir_okay=False),
    help="Write all leaflets of the run into this one PDF too, in packing order, with a list to tick.",
)
@click.option("--redact", is_flag=True, help="Make samples without the wearer's name and age or the shop's address.")
@QUIET
@guarded
def make(
    *,
    orders: tuple[Path, ...],
    output: Path,
    edition: Literal["standard", "large-print"],
    paper: str | None,
    documents: tuple[Kind, ...],
    language: str | None,
    workshop: Path | None,
    number: str | None,
    workers: int | None,
    report: Path | None,
    again: bool,
    print_set: Path | None,
    redact: bool,
    quiet: bool,
) -> int:
    """Make one leaflet (PDF) for every order."""
    from explainer.batch.documents import Settings
    from explainer.batch.report import Report
    from explainer.batch.run import Plan, make_all

    today = dt.date.today()
    settings = Settings(edition, paper, documents)
    if print_set is not None:
        free(print_set, "pdf", orders)
    plan = Plan(folder=output, settings=settings, workers=workers, again=again, sample=redact, today=today)
    results = list(results_of(orders, workshop, language, number))
    with contextlib.ExitStack() as stack:
        kept_report = stack.enter_context(Report(report)) if report else None
        teller = stack.enter_context(Progress(len(results)))
        outcomes = stack.enter_context(contextlib.closing(make_all(results, plan, kept_report)))
        told = _Told(teller, quiet=quiet)
        code = told.all_of(outcomes)
    if print_set is not None and told.papers:
        place = {result.source: number for number, result in enumerate(results)}
        _write_set(print_set, sorted(told.papers, key=lambda paper: place[paper[0].source]))
    return code


def _write_set(path: Path, papers: list[tuple[Order, Path]]) -> None:
    """All leaflets of the run as one file."""
    from explainer.batch.print_set import print_set
    from explainer.render.files import write_file

    write_file(path, print_set(papers))
    say_path(path)


class _Told:
    """What the optician hears of a run: each leaflet and refusal as it comes, then the digest and a sum."""

    def __init__(self, progress: Progress, *, quiet: bool) -> None:
        self._progress, self._quiet = progress, quiet
        self._machine: set[str] = set()
        self._digest = Digest()
        self._refusals = Refusals(progress.tell)
        self._made = self._kept = self._refused = 0
        self.papers: list[tuple[Order, Path]] = []

    def all_of(self, outcomes: Iterable[Outcome]) -> int:
        """Tells all; the exit code."""
        try:
            for outcome in outcomes:
                self._one(outcome)
                self._progress.step(made=outcome.path is not None and not outcome.kept)
        except KeyboardInterrupt:
            self._refusals.flush()
            self._progress.tell(f"stopped: {self._made} made, and what is made stays")
            return 130
        self._refusals.flush()
        if not self._quiet:
            self._digest.told(self._progress.tell)
            self._progress.tell(self._sum())
        return 1 if self._refused or self._progress.lost else 0

    def _sum(self) -> str:
        looked = self._digest.to_look_at
        return finished(made=self._made, kept=self._kept, refused=self._refused, to_look_at=looked)

    def _one(self, outcome: Outcome) -> None:
        for note in outcome.notes:
            if note not in self._machine:
                self._machine.add(note)
                self._progress.tell(f"note: {note}")
        if outcome.order is not None and outcome.path is not None and outcome.path.suffix == ".pdf":
            self.papers.append((outcome.order, outcome.path))
        if outcome.kept:
            self._kept += 1
            return
        if outcome.order is not None:
            self._digest.add(outcome.order)
        if outcome.refusal is not None:
            self._refused += 1
            self._refusals.add(outcome.source, outcome.refusal.as_error(outcome.source))
        else:
            self._made += 1
            for path in (outcome.path, *outcome.beside):
                self._progress.result(path)
