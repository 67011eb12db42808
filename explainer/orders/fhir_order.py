"""A FHIR prescription alone as an order of its own, with nothing known but the prescription."""

from __future__ import annotations

from explainer.errors import Fault, InputError
from explainer.optics.spectacles import Prescription, Spectacles
from explainer.orders import fhir
from explainer.orders.entries import Entry
from explainer.orders.notes import notes_of
from explainer.orders.order import Order
from explainer.orders.plausibility import warnings
from explainer.orders.workshop import Workshop


def order_of_fhir(entry: Entry, workshop: Workshop | None, language: str | None, faults: list[Fault]) -> Order:
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
    if faults or number is None or date is None:
        raise InputError(entry.source, faults)
    pair = found.pair
    spectacles = Spectacles(prescription=Prescription(right=pair.right.eye(), left=pair.left.eye()))
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
        notes=notes_of(spectacles, workshop),
        warnings=(*entry.warnings, *found.warnings, *odd),
        source=entry.source,
    )
