"""Paths → orders, each with its workshop: files and folders of every kind. One refused order stops no other."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from functools import partial
from pathlib import Path

from explainer.errors import Fault, InputError, Unforeseen
from explainer.orders.assembly.convert import order_of
from explainer.orders.assembly.fhir_order import order_of_fhir
from explainer.orders.assembly.models import OrderFile
from explainer.orders.assembly.order import Order, ReadResult
from explainer.orders.fhir import prescription as fhir
from explainer.orders.inbox.doubles import Survey
from explainer.orders.inbox.entries import Entry, entries
from explainer.orders.inbox.sources import order_files
from explainer.orders.job.file import Job
from explainer.orders.job.run import Jobs, data_of_job, parted
from explainer.orders.notation.words import words_of
from explainer.orders.shop.export import ExportTable
from explainer.orders.shop.workshop import Workshop, find_workshop, read_workshop
from explainer.orders.tables.columns import column_fault
from explainer.orders.values.field_types import LANGUAGE
from explainer.orders.values.texts import of_a_kind
from explainer.orders.values.validate import redacted, validated, without_echoes


class Workshops:
    """The workshop files met in one run, each looked for and read once."""

    def __init__(self, fixed: Path | None) -> None:
        self._fixed = fixed
        self._of_folder: dict[Path, Path | None] = {}
        self._read: dict[Path, Workshop | InputError] = {}

    def of(self, order: Path, faults: list[Fault]) -> Workshop | None:
        """The workshop that belongs to an order; a faulty workshop file refuses the order with its faults."""
        path = self._fixed or self._beside(order)
        if path is None:
            return None
        if path not in self._read:
            try:
                self._read[path] = read_workshop(path)
            except InputError as error:
                self._read[path] = error
        found = self._read[path]
        if isinstance(found, Workshop):
            return found
        faults.extend(Fault(f"{path.name}: {fault.field}", fault.found, fault.accepted) for fault in found.faults)
        return None

    def export_of(self, table: Path) -> ExportTable | None:
        """How the workshop reads its shop's table; None where it does not say, or its file is faulty."""
        found = self.of(table, [])
        return found.export if found else None

    def _beside(self, order: Path) -> Path | None:
        if order.parent not in self._of_folder:
            self._of_folder[order.parent] = find_workshop(order)
        return self._of_folder[order.parent]


def read_order(
    path: Path | str,
    *,
    workshop_path: Path | str | None = None,
    language: str | None = None,
) -> Order:
    """The one order of a file, or InputError with every fault."""
    workshops = Workshops(Path(workshop_path) if workshop_path else None)
    _, jobs = parted([path])
    if jobs.files:
        return _read_job(Path(path), workshops, language)
    found = iter(entries(Path(path), workshops.export_of(Path(path))))
    entry, another = next(found, None), next(found, None)
    if entry is None or another is not None:
        count = "no order" if entry is None else "more than one order"
        raise InputError(str(path), [Fault("file", count, "one order; read_orders reads several")])
    if isinstance(entry, InputError):
        raise entry
    return _read(entry, workshops, language, jobs)


def read_orders(
    paths: Iterable[Path | str],
    *,
    workshop_path: Path | str | None = None,
    language: str | None = None,
) -> Iterator[ReadResult]:
    """Every order in these files and folders, in a stable order, each read or refused on its own when its turn comes.

    Before the first one all files are gone through for broken ones and for order numbers that stand twice. Job files
    that no order has used come last, as orders of their own.
    """
    workshops = Workshops(Path(workshop_path) if workshop_path else None)
    others, jobs = parted(paths)
    files = order_files(others)
    survey = Survey([item for item in files if isinstance(item, Path)], workshops.export_of)
    for item in files:
        broken = item if isinstance(item, InputError) else survey.broken.get(item)
        if broken is not None:
            yield ReadResult(source=broken.source, error=broken)
        elif isinstance(item, Path):
            read = partial(_read, workshops=workshops, language=language, jobs=jobs)
            yield from _of_file(item, workshops.export_of(item), survey, read)
    for path in jobs.alone():
        yield _result(str(path), partial(_read_job, path, workshops, language, jobs))


def _of_file(
    path: Path, export: ExportTable | None, survey: Survey, read: Callable[[Entry], Order]
) -> Iterator[ReadResult]:
    count = 0
    try:
        for entry in entries(path, export):
            count += 1
            if isinstance(entry, InputError):
                yield ReadResult(source=entry.source, error=entry)
            else:
                yield _result(entry.source, partial(_read_single, entry, survey, read))
    except InputError as error:  # the file has changed since it was gone through
        yield ReadResult(source=error.source, error=error)
    except Exception as error:
        yield ReadResult(source=str(path), error=Unforeseen(str(path), error))
    if count == 0:
        empty = InputError(str(path), [Fault("file", "no order in it", "at least one order")])
        yield ReadResult(source=empty.source, error=empty)


def _result(source: str, read: Callable[[], Order]) -> ReadResult:
    try:
        return ReadResult(source=source, order=read())
    except InputError as error:
        return ReadResult(source=source, error=error)
    except Exception as error:
        return ReadResult(source=source, error=Unforeseen(source, error))


def _read_single(entry: Entry, survey: Survey, read: Callable[[Entry], Order]) -> Order:
    """The order of an entry, unless its number stands elsewhere in the run too."""
    order = read(entry)
    double = survey.fault(order.number, entry.source)
    if double is not None:
        raise InputError(entry.source, [double])
    return order


def _read_job(path: Path, workshops: Workshops, language: str | None, jobs: Jobs | None = None) -> Order:
    """A job file that no order uses, as an order of its own."""
    data, job = data_of_job(path)
    faults = jobs.doubles(path) if jobs else []
    if "order" not in data:
        faults.append(Fault("JOB", "nothing", "the job's number"))
    if "date" not in data:
        accepted = 'an order with the same number, or with job = "..."; or the record _DATE=2026-11-20'
        faults.append(Fault("date", "none in a job file", accepted))
    if faults:
        raise InputError(str(path), faults)
    entry = Entry(source=str(path), path=path, data=data)
    return _from_data(entry, workshops.of(path, faults), language, faults=faults, job=job)


def _read(entry: Entry, workshops: Workshops, language: str | None, jobs: Jobs) -> Order:
    faults = list(entry.faults)
    if language is not None and not re.fullmatch(LANGUAGE, language):
        faults.append(Fault("language", "no language tag", "a language tag such as en-GB, de or pt-BR"))
    workshop = workshops.of(entry.path, faults)
    if fhir.is_fhir(entry.data):
        return order_of_fhir(entry, workshop, language, faults, jobs)
    job = jobs.for_order(entry.data, entry.path, faults)
    return _from_data(entry, workshop, language, faults=faults, job=job)


def _from_data(
    entry: Entry, workshop: Workshop | None, language: str | None, *, faults: list[Fault], job: Job | None
) -> Order:
    model = validated(OrderFile, entry.data, faults)
    order = None
    if model:
        order = order_of(
            model,
            source=entry.source,
            folder=entry.path.parent,
            workshop=workshop,
            language=language,
            faults=faults,
            job=job,
        )
    if order is None or faults:
        named = map(_in_column, faults) if entry.in_columns else faults
        raise InputError(entry.source, redacted(without_echoes(named), _wearer_name(entry)))
    return order


def _in_column(fault: Fault) -> Fault:
    """A fault of a table, by its column; words of a cell are told only if they are such as the column accepts."""
    known = column_fault(fault)
    if not fault.found.startswith('"'):
        return known
    return Fault(known.field, of_a_kind(fault.found.strip('"'), [fault.accepted, *words_of(None)]), fault.accepted)


def _wearer_name(entry: Entry) -> object:
    wearer = entry.data.get("wearer")
    return wearer.get("name") if isinstance(wearer, dict) else None
