"""A run: orders that were read, to leaflets in a folder, each told as soon as it stands there or is refused."""

from __future__ import annotations

import contextlib
import datetime as dt
from collections import Counter
from collections.abc import Generator, Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass, field
from functools import cache
from pathlib import Path

from explainer import __version__
from explainer.batch.alone import made_here, workers_for
from explainer.batch.documents import Kind, Settings
from explainer.batch.report import Report, fault_lines, sha256
from explainer.batch.samples import without_people
from explainer.batch.work import Made, Refused, refused
from explainer.errors import Fault, InputError, RenderError
from explainer.orders import Order, ReadResult
from explainer.orders.assembly.check_word import check_word
from explainer.orders.assembly.file_names import name_key
from explainer.orders.assembly.normal import digest, digest_of_files, normal_form
from explainer.orders.sample import as_sample
from explainer.render.files import DiskError, ready_folder, write_file
from explainer.resources import root


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """What a run is to do. `workers` None leaves it to the program; `again` makes anew what is already there.

    `today` is noted in the report; only the command line knows it.
    """

    folder: Path
    settings: Settings = field(default_factory=Settings)
    workers: int | None = None
    again: bool = False
    sample: bool = False
    today: dt.date | None = None

    def path(self, order: Order, kind: Kind | None = None) -> Path:
        """Where an order's document goes; the main one, if no kind is named."""
        kind = kind or self.settings.kinds(order)[0]
        return self.folder / self.settings.name(order, kind, sample=self.sample)

    def names(self, order: Order) -> set[str]:
        """What tells the names of all the order's files from those of others."""
        return {name_key(self.path(order, kind).name) for kind in self.settings.kinds(order)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What became of one order: made now or kept from before (`path`, and what goes `beside`), or refused."""

    source: str
    order: Order | None = None
    path: Path | None = None
    beside: tuple[Path, ...] = ()
    kept: bool = False
    refusal: Refused | None = None
    notes: tuple[str, ...] = ()


def make_all(results: Sequence[ReadResult], plan: Plan, report: Report | None = None) -> Generator[Outcome, None, None]:
    """Every order made, kept or refused. RenderError when the machine can go on with none of them."""
    to_make: list[Order] = []
    orders = [as_sample(result.order) if plan.sample and result.order else result.order for result in results]
    meant = Counter(name for order in orders if order for name in plan.names(order))
    there = _names_there(plan.folder)
    for result, order in zip(results, orders, strict=True):
        if order is None:
            yield _refused_when_read(result, report)
            continue
        name = plan.path(order).name
        if any(meant[each] > 1 for each in plan.names(order)) or there.get(name_key(name), name) != name:
            yield _refused_when_read(_taken(order, name, there), report)
        elif report and not plan.again and report.holds(plan.path(order), made_from(order, plan.settings)):
            yield Outcome(source=order.source, order=order, path=plan.path(order), kept=True)
        else:
            to_make.append(order)
    if to_make:
        ready_folder(plan.folder)
        shown_to = {result.source: result.order for result in results if result.order} if plan.sample else {}
        yield from _made(to_make, plan, report, shown_to)


def _names_there(folder: Path) -> dict[str, str]:
    """The files that stand in the folder already, by what tells their names apart everywhere."""
    try:
        return {name_key(path.name): path.name for path in folder.iterdir()}
    except OSError:
        return {}  # not there yet, or told when it is made ready


def _taken(order: Order, name: str, there: Mapping[str, str]) -> ReadResult:
    """An order whose leaflet would stand in another's place."""
    other = there.get(name_key(name), name)
    found = f"{order.number}: its leaflet would be {name}, in the place of " + (
        f"{other}, which is there already" if other != name else "another order's in this run"
    )
    fault = Fault("order", found, "numbers that differ in more than small letters and capitals")
    return ReadResult(source=order.source, error=InputError(order.source, [fault]))


def _made(
    orders: Sequence[Order], plan: Plan, report: Report | None, originals: Mapping[str, Order]
) -> Iterator[Outcome]:
    with contextlib.closing(_results(orders, plan)) as results:
        for number, (order, made) in enumerate(results):
            if isinstance(made, Refused) and made.ends_run:
                raise RenderError(f"{made.message}\n{_left_over(len(orders) - number)}")
            try:
                original = originals.get(order.source)
                yield _stored(order, without_people(original, made) if original else made, plan, report)
            except DiskError as error:
                raise RenderError(f"{error}\n{_left_over(len(orders) - number)}") from error


def _results(orders: Sequence[Order], plan: Plan) -> Generator[tuple[Order, Made | Refused], None, None]:
    """Made here or by worker processes, whose machinery one leaflet need not wait for."""
    workers = workers_for(len(orders), plan.workers)
    if workers == 1:
        return made_here(orders, plan.settings)
    from explainer.batch.pool import made_by_workers

    return made_by_workers(orders, plan.settings, workers)


def _left_over(count: int) -> str:
    return f"{count} order{'s were' if count > 1 else ' was'} not made; all that was made before stays"


def _stored(order: Order, made: Made | Refused, plan: Plan, report: Report | None) -> Outcome:
    """The documents on the disk, then their line in the report."""
    path = plan.path(order)
    if isinstance(made, Made):
        try:
            for document in made.documents:
                write_file(plan.path(order, document.kind), document.data)
        except DiskError:
            raise
        except RenderError as error:
            made = refused(error, order.source)
    if isinstance(made, Refused):
        if report:
            report.add(_line(order, report.name_of(path), state="refused", faults=fault_lines(made.faults)))
        return Outcome(source=order.source, order=order, refusal=made)
    beside = tuple(plan.path(order, document.kind) for document in made.documents[1:])
    if report:
        report.add(_line_of_made(order, made, plan, report))
    return Outcome(source=order.source, order=order, path=path, beside=beside, notes=made.notes)


def _line_of_made(order: Order, made: Made, plan: Plan, report: Report) -> dict[str, object]:
    main, *beside = made.documents
    return _line(
        order,
        report.name_of(plan.path(order)),
        state="made",
        sha256=sha256(main.data),
        pages=main.pages,
        beside={report.name_of(plan.path(order, each.kind)): sha256(each.data) for each in beside},
        seconds=round(made.seconds, 3),
        made_from=made_from(order, plan.settings),
        settings=asdict(plan.settings),
        made_on=plan.today.isoformat() if plan.today else None,
    )


def _line(order: Order, file: str, *, state: str, **more: object) -> dict[str, object]:
    about = {"source": order.source, "order": order.number, "state": state, "file": file}
    return {
        **about,
        "language": order.language,
        "check_word": check_word(order),
        "warnings": len(order.warnings),
        **more,
    }


def _refused_when_read(result: ReadResult, report: Report | None) -> Outcome:
    faults = result.error.faults if result.error else ()
    if report:
        line = {"source": result.source, "order": None, "state": "refused", "file": None, "faults": fault_lines(faults)}
        report.add(line)
    message = str(result.error) if result.error else f"{result.source}: refused"
    return Outcome(source=result.source, refusal=Refused(message, faults))


def made_from(order: Order, settings: Settings) -> str:
    """A hash of all that decides a leaflet's content: order, workshop, settings, and the program with its texts."""
    return digest(normal_form(order), repr(settings), _program())


@cache
def _program() -> str:
    """The program as it is installed: its own files, templates, fonts, catalogues, and the engine's version."""
    from importlib.metadata import version

    home = Path(__file__).parents[1]
    own = (path for path in home.rglob("*") if "__pycache__" not in path.parts)
    texts = [digest_of_files(root(kind).rglob("*"), root(kind)) for kind in ("templates", "locales")]
    return digest(__version__, version("weasyprint"), digest_of_files(own, home), *texts)
