"""One line for each thing that was not given: it is not invented, so what needs it is left out."""

from __future__ import annotations

from explainer.optics.claims.situations import country
from explainer.optics.spectacles import Spectacles
from explainer.orders.shop.workshop import Workshop


def notes_of(spectacles: Spectacles, workshop: Workshop | None) -> tuple[str, ...]:
    """What is missing, and what is left out for it."""
    return (*_of_the_pair(spectacles), *_of_the_bench(spectacles), *_of_the_workshop(workshop))


def _of_the_pair(spectacles: Spectacles) -> list[str]:
    frame, lens, measured = spectacles.frame, spectacles.lens, spectacles.measurements
    notes = []
    if None in (frame.a_mm, frame.b_mm, frame.dbl_mm):
        notes.append("no frame measurements (a_mm, b_mm, dbl_mm): thickness, weight and decentration are left out")
    elif measured.pd_mm is None and measured.pd_right_mm is None:
        notes.append("no pupillary distance: decentration, and with it thickness and weight, are left out")
    if (frame.outline_right_mm is None) != (frame.outline_left_mm is None):
        side = "right" if frame.outline_left_mm is None else "left"
        notes.append(f"only the {side} rim was traced: the other has no outline")
    if frame.material is None:
        notes.append("no frame material: advice that depends on it is left out")
    if lens.material is None:
        notes.append("no lens material: everything that depends on it is left out")
    if lens.design is None:
        notes.append("no lens design: advice that depends on it is left out")
    if lens.tint is None:
        notes.append("no tint class: the sections on tint and car are left out")
    if spectacles.prescription.vertex_mm is None:
        notes.append("no vertex distance: what needs it is left out or named as measured from the lens")
    return notes


def _of_the_bench(spectacles: Spectacles) -> list[str]:
    if spectacles.readings is None:
        return ["no bench readings: the section on what was measured is left out"]
    return []


def _of_the_workshop(workshop: Workshop | None) -> list[str]:
    if workshop is None:
        return ["no workshop file: contact, urgent-help line, returns and adjustments are left out"]
    return [*_of_the_country(workshop), *_of_its_lines(workshop)]


def _of_the_country(workshop: Workshop) -> list[str]:
    """What the leaflet cannot know of the reader's country, and what disagrees with it."""
    code, law = workshop.country, workshop.legal_profile
    if code is None:
        return ["no country in the workshop file: whom to call, the law and driving rules stay in neutral words"]
    if code not in country.known():
        own = "" if workshop.emergency else "; write emergency and urgent_help into the workshop file"
        return [f"no entry for the country {code}: whom to call, the law and driving rules stay in neutral words{own}"]
    usual = country.line(code, "law")
    if law is not None and law != usual:
        return [f"legal_profile {law} beside the country {code}, for which {usual} is usual"]
    return []


def _of_its_lines(workshop: Workshop) -> list[str]:
    lines = {"urgent_help": "the urgent-help line", "returns": "returns", "adjustments": "adjustments"}
    return [
        f"no {name} in the workshop file: {what} left out"
        for name, what in lines.items()
        if not getattr(workshop, name)
    ]
