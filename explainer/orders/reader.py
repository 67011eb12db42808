"""Paths → orders: files and folders, TOML, JSON and FHIR, each with its workshop. One refused order stops no other."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from explainer.errors import Fault, InputError
from explainer.optics.spectacles import Prescription, Spectacles
from explainer.orders import fhir
from explainer.orders.convert import order_of
from explainer.orders.field_types import LANGUAGE, ORDER_NUMBER
from explainer.orders.job_file import Job
from explainer.orders.jobs import Jobs, data_of_job, parted
from explainer.orders.models import OrderFile
from explainer.orders.notes import notes_of
from explainer.orders.order import Order, ReadResult
from explainer.orders.plausibility import warnings
from explainer.orders.sources import order_files, plain_data
from explainer.orders.validate import redacted, validated, without_echoes
from explainer.orders.workshop import Workshop, find_workshop, read_workshop


class Workshops:
    """The workshop files met in one run, each read once."""

    def __init__(self, fixed: Path | None) -> None:
        self._fixed = fixed
        self._read: dict[Path, Workshop | InputError] = {}

    def of(self, order: Path, faults: list[Fault]) -> Workshop | None:
        """The workshop that belongs to an order; a faulty workshop file refuses the order with its faults."""
        path = self._fixed or find_workshop(order)
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


def read_order(
    path: Path | str,
    *,
    workshop_path: Path | str | None = None,
    language: str | None = None,
) -> Order:
    """One order from a TOML, JSON, FHIR or job file, or InputError with every fault."""
    workshops = Workshops(Path(workshop_path) if workshop_path else None)
    _, jobs = parted([path])
    if jobs.files:
        return _read_job(Path(path), workshops, language)
    return _read(Path(path), workshops, language, jobs)


def read_orders(
    paths: Iterable[Path | str],
    *,
    workshop_path: Path | str | None = None,
    language: str | None = None,
) -> list[ReadResult]:
    """Every order in these files and folders, in a stable order, each read or refused on its own."""
    workshops = Workshops(Path(workshop_path) if workshop_path else None)
    others, jobs = parted(paths)
    results = [_result(item, workshops, language, jobs) for item in order_files(others)]
    results += [_job_result(path, workshops, language) for path in jobs.alone()]
    return _without_doubles(results)


def _result(item: Path | InputError, workshops: Workshops, language: str | None, jobs: Jobs) -> ReadResult:
    if isinstance(item, InputError):
        return ReadResult(source=item.source, error=item)
    try:
        return ReadResult(source=str(item), order=_read(item, workshops, language, jobs))
    except InputError as error:
        return ReadResult(source=str(item), error=error)


def _job_result(path: Path, workshops: Workshops, language: str | None) -> ReadResult:
    try:
        return ReadResult(source=str(path), order=_read_job(path, workshops, language))
    except InputError as error:
        return ReadResult(source=str(path), error=error)


def _read_job(path: Path, workshops: Workshops, language: str | None) -> Order:
    """A job file that no order uses, as an order of its own."""
    data, job = data_of_job(path)
    faults: list[Fault] = []
    if "order" not in data:
        faults.append(Fault("JOB", "nothing", "the job's number"))
    if "date" not in data:
        accepted = 'an order with the same number, or with job = "..."; or the record _DATE=2026-11-20'
        faults.append(Fault("date", "none in a job file", accepted))
    if faults:
        raise InputError(str(path), faults)
    return _from_data(data, path, workshops.of(path, faults), language, faults=faults, job=job)


def _read(path: Path, workshops: Workshops, language: str | None, jobs: Jobs) -> Order:
    data = plain_data(path)
    faults: list[Fault] = []
    if language is not None and not re.fullmatch(LANGUAGE, language):
        faults.append(Fault("language", "no language tag", "a language tag such as en-GB, de or pt-BR"))
    workshop = workshops.of(path, faults)
    if fhir.is_fhir(data):
        return _from_fhir(data, path, workshop, language, faults)
    job = jobs.for_order(data, path, faults)
    return _from_data(data, path, workshop, language, faults=faults, job=job)


def _from_data(
    data: dict[str, Any],
    path: Path,
    workshop: Workshop | None,
    language: str | None,
    *,
    faults: list[Fault],
    job: Job | None,
) -> Order:
    model = validated(OrderFile, data, faults)
    order = None
    if model:
        order = order_of(model, source=path, workshop=workshop, language=language, faults=faults, job=job)
    if order is None or faults:
        raise InputError(str(path), redacted(without_echoes(faults), _wearer_name(data)))
    return order


def _wearer_name(data: dict[str, Any]) -> object:
    wearer = data.get("wearer")
    return wearer.get("name") if isinstance(wearer, dict) else None


def _from_fhir(
    data: dict[str, Any], path: Path, workshop: Workshop | None, language: str | None, faults: list[Fault]
) -> Order:
    """A FHIR prescription alone is an order of its own, with nothing known but the prescription."""
    try:
        found = fhir.prescription(data, source=str(path))
    except InputError as error:
        raise InputError(str(path), [*faults, *error.faults]) from error
    number = next((value for value in found.identifiers if _is_number(value)), None)
    date = found.created or found.written
    if number is None:
        faults.append(Fault("identifier", "none that can be an order number", "up to 40 letters, digits, . - _"))
    if date is None:
        faults.append(Fault("created", "no full date", "created or dateWritten with a day: 2026-11-20"))
    if faults or number is None or date is None:
        raise InputError(str(path), faults)
    pair = found.pair
    spectacles = Spectacles(prescription=Prescription(right=pair.right.eye(), left=pair.left.eye()))
    return Order(
        number=number,
        date=date,
        language=language or (workshop.language if workshop else None) or "en",
        spectacles=spectacles,
        received_right=pair.right.received,
        received_left=pair.left.received,
        prescription_written=found.written,
        workshop=workshop,
        notes=notes_of(spectacles, workshop),
        warnings=(*found.warnings, *warnings(spectacles, ordered=date, written=found.written)),
        source=str(path),
    )


def _is_number(value: str) -> bool:
    return re.fullmatch(ORDER_NUMBER, value) is not None and ".." not in value


def _without_doubles(results: list[ReadResult]) -> list[ReadResult]:
    """Two orders with one number would make one leaflet of two people: both are refused."""
    sources: dict[str, list[str]] = defaultdict(list)
    for result in results:
        if result.order:
            sources[result.order.number.lower()].append(result.source)
    return [_refused_if_double(result, sources) for result in results]


def _refused_if_double(result: ReadResult, sources: dict[str, list[str]]) -> ReadResult:
    if result.order is None or len(sources[result.order.number.lower()]) == 1:
        return result
    others = len(sources[result.order.number.lower()]) - 1
    fault = Fault("order", f"{result.order.number}, as in {others} other file{'s' * (others > 1)}", "each number once")
    return ReadResult(source=result.source, error=InputError(result.source, [fault]))
