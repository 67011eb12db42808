"""A FHIR prescription as an order of its own: the prescription, and what a job file of the same number adds to it."""

from __future__ import annotations

from explainer.errors import Fault, InputError
from explainer.optics.spectacles import Prescription, Side, Spectacles
from explainer.orders.assembly.convert import of_job
from explainer.orders.assembly.job_join import compare_eyes, eyes_of_job
from explainer.orders.assembly.notes import notes_of
from explainer.orders.assembly.order import Order
from explainer.orders.assembly.plausibility import warnings
from explainer.orders.fhir import prescription as fhir
from explainer.orders.inbox.entries import Entry
from explainer.orders.job.file import Job
from explainer.orders.job.run import Jobs
from explainer.orders.notation.reading import Pair, Reading
from explainer.orders.shop.workshop import Workshop


def order_of_fhir(
    entry: Entry, workshop: Workshop | None, language: str | None, faults: list[Fault], jobs: Jobs
) -> Order:
    """The order, or InputError with every fault."""
    try:
        found = fhir.prescription(entry.data, source=entry.source)
    except InputError as error:
        raise InputError(entry.source, [*faults, *error.faults]) from error
    number, date = found.number, found.created or found.written
    if number is None:
        faults.append(Fault("identifier", "none that can be an order number", "up to 40 letters, digits, . - _"))
    if date is None:
        faults.append(Fault("created", "no full date", "created or dateWritten with a day: 2026-11-20"))
    job = jobs.for_order({"order": number}, entry.path, faults)
    spectacles = _spectacles(found.pair, job, workshop, entry, faults)
    if faults or number is None or date is None:
        raise InputError(entry.source, faults)
    pair = found.pair
    odd = warnings(spectacles, ordered=date, written=found.written)
    return Order(
        number=number,
        date=date,
        language=language or (workshop.language if workshop else None) or "en",
        spectacles=spectacles,
        received_right=pair.right.received,
        received_left=pair.left.received,
        prescription_written=found.written,
        workshop=workshop,
        notes=(*notes_of(spectacles, workshop), *(job.notes if job else ())),
        warnings=(*entry.warnings, *found.warnings, *odd),
        source=entry.source,
    )


def _spectacles(
    pair: Pair, job: Job | None, workshop: Workshop | None, entry: Entry, faults: list[Fault]
) -> Spectacles:
    """The pair of the prescription, with what a job file of the same number adds to it."""
    prescription = Prescription(right=pair.right.eye(), left=pair.left.eye(), vertex_mm=job.vertex_mm if job else None)
    if job is None:
        return Spectacles(prescription=prescription)
    here: dict[Side, Reading] = {"right": pair.right, "left": pair.left}
    compare_eyes(here, eyes_of_job(job, any_step=False, faults=faults), job, faults)
    parts = of_job(job, workshop, entry.path.parent, faults)
    return Spectacles(prescription=prescription, measurements=parts.measurements, frame=parts.frame, lens=parts.lens)
