"""Order file → Order: every section in the core's terms, with the faults that only show between fields."""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import replace
from pathlib import Path
from typing import NamedTuple

from explainer.errors import Fault, InputError
from explainer.optics.formulas.reactive import is_reactive
from explainer.optics.spectacles import (
    Frame,
    LensChoice,
    LensData,
    Measurements,
    Prescription,
    Spectacles,
    Wearer,
)
from explainer.orders.assembly.bench import bench_warnings, readings_of
from explainer.orders.assembly.contradictions import contradictions, tint_faults
from explainer.orders.assembly.eyes import Received, prescription_of, previous_of, vertex_of
from explainer.orders.assembly.job_join import (
    compare_eyes,
    eyes_of_job,
    is_given,
    with_box,
    with_lens,
    with_measurements,
)
from explainer.orders.assembly.models import (
    BenchTable,
    FrameTable,
    LensTable,
    MeasurementsTable,
    OrderFile,
    PrescriptionTable,
    WearerTable,
)
from explainer.orders.assembly.notes import notes_of
from explainer.orders.assembly.order import Answers, Order, Release
from explainer.orders.assembly.plausibility import warnings
from explainer.orders.job.file import Job
from explainer.orders.job.trace import Trace, effective_diameter, read_trace
from explainer.orders.shop.workshop import Workshop
from explainer.orders.values.agreement import ONE_BOX_MM, ONE_LENGTH_MM


def order_of(
    model: OrderFile,
    *,
    source: str,
    folder: Path,
    workshop: Workshop | None,
    language: str | None,
    faults: list[Fault],
    job: Job | None = None,
) -> Order | None:
    """The order, joined with its job file if it has one, or None with what is wrong appended to the faults.

    Files that the order names lie in the folder.
    """
    shop_language = workshop.language if workshop else None
    tongue = model.language or shop_language
    received = _received(model.prescription, job, folder, tongue, faults)
    stated = (model.prescription.vertex_mm, job.vertex_mm if job else None)
    vertex = vertex_of(received.readings, stated, "prescription", faults)
    frame = _frame(model.frame, job, folder, faults)
    measures = with_measurements(model.measurements, job, faults) if job else model.measurements
    measured = _measurements(measures, frame, faults)
    lens = _lens(with_lens(model.lens, job, faults) if job else model.lens, workshop, faults)
    wearer = _wearer(model.wearer, model.date, faults)
    readings = readings_of(model.bench, folder, tongue, faults) if model.bench else None
    previous = previous_of(model.previous, tongue, faults) if model.previous else None
    if previous and wearer.first_pair:
        faults.append(Fault("wearer.first_pair", "true beside [previous]", "one of the two"))
    contradictions(model, received.readings, lens, readings, faults)
    if faults:
        return None
    right, left = received.readings["right"], received.readings["left"]
    spectacles = Spectacles(
        prescription=Prescription(right=right.eye(), left=left.eye(), vertex_mm=vertex),
        measurements=measured,
        frame=frame,
        lens=lens,
        readings=readings,
        previous=previous,
        wearer=wearer,
    )
    return Order(
        number=model.order,
        date=model.date,
        posted=model.posted,
        language=_spoken(language or tongue or "en", workshop),
        wearer_name=model.wearer.name,
        spectacles=spectacles,
        received_right=right.received,
        received_left=left.received,
        prescription_written=received.written,
        workshop=workshop,
        release=_release(model.bench),
        answers=Answers(**model.answers.model_dump()),
        notes=(*notes_of(spectacles, workshop), *_notes_of_job(job, model)),
        warnings=(
            *received.warnings,
            *bench_warnings(model.bench, spectacles),
            *warnings(spectacles, ordered=model.date, written=received.written),
        ),
        source=source,
    )


def _spoken(language: str, workshop: Workshop | None) -> str:
    """The language; English of no region is American where the workshop is American."""
    return "en-US" if language == "en" and workshop and workshop.country == "US" else language


def _received(
    table: PrescriptionTable, job: Job | None, folder: Path, language: str | None, faults: list[Fault]
) -> Received:
    """The prescription of the order, or of its job file; if both have one, it is the same."""
    there = eyes_of_job(job, any_step=table.confirmed_steps, faults=faults) if job else {}
    if job is None or not there or is_given(table):
        received = prescription_of(table, folder, language, faults)
        if job:
            compare_eyes(received.readings, there, job, faults)
        return received
    if table.add is not None:
        faults.append(Fault("prescription.add", "an addition beside a job file's prescription", "one of the two"))
    return Received(there, table.written)


class OfJob(NamedTuple):
    """What a job file alone says of a pair beside its prescription."""

    measurements: Measurements
    frame: Frame
    lens: LensChoice


def of_job(job: Job, workshop: Workshop | None, folder: Path, faults: list[Fault]) -> OfJob:
    """Measurements, frame and lens for an order that says nothing of them itself."""
    frame = _frame(FrameTable(), job, folder, faults)
    measured = _measurements(with_measurements(MeasurementsTable(), job, faults), frame, faults)
    return OfJob(measured, frame, _lens(with_lens(LensTable(), job, faults), workshop, faults))


def _notes_of_job(job: Job | None, model: OrderFile) -> tuple[str, ...]:
    if job is None:
        return ()
    of_bench = model.bench is not None and model.bench.job is not None
    return tuple(note for note in job.notes if not (of_bench and note.startswith("inspection")))


def _wearer(table: WearerTable, ordered: dt.date, faults: list[Fault]) -> Wearer:
    """The age is the difference of the years: a birth year is all that is asked for."""
    age = None if table.birth_year is None else ordered.year - table.birth_year
    if age is not None and not 0 <= age <= 120:
        faults.append(Fault("wearer.birth_year", "a year that does not fit the order's date", "the year of birth"))
    return Wearer(
        age_years=age,
        uses=frozenset(table.uses),
        first_pair=table.first_pair,
        only_seeing_eye=table.only_seeing_eye,
        falls=table.falls,
        patching=table.patching,
    )


def _measurements(table: MeasurementsTable, frame: Frame, faults: list[Fault]) -> Measurements:
    right, left = table.pd_right_mm, table.pd_left_mm
    if (right is None) != (left is None):
        missing = "pd_left_mm" if left is None else "pd_right_mm"
        faults.append(Fault(f"measurements.{missing}", "nothing", "both eyes, or pd_mm alone"))
    total = None if right is None or left is None else right + left
    if total is not None and table.pd_mm is not None and abs(total - table.pd_mm) > ONE_LENGTH_MM:
        found = f"{table.pd_mm:g} beside a sum of {total:g}"
        faults.append(Fault("measurements.pd_mm", found, "the sum of the two, or one of the two ways"))
    for name in ("height_right_mm", "height_left_mm"):
        height = getattr(table, name)
        if height is not None and frame.b_mm is not None and height >= frame.b_mm:
            faults.append(Fault(f"measurements.{name}", f"{height:g}", "a height inside the frame, below b_mm"))
    return Measurements(**table.model_dump())


def _frame(own: FrameTable, job: Job | None, folder: Path, faults: list[Fault]) -> Frame:
    table = with_box(own, job, faults) if job else own
    frame = Frame(a_mm=table.a_mm, b_mm=table.b_mm, dbl_mm=table.dbl_mm, ed_mm=table.ed_mm, material=table.material)
    frame = replace(frame, own=own.own, pantoscopic_tilt_deg=own.pantoscopic_tilt_deg, wrap_deg=own.wrap_deg)
    if table.trace is not None:
        frame = _with_trace(frame, folder / table.trace, faults)
    elif job and job.trace:
        frame = _traced(frame, job.trace, faults)
    a, b, ed = frame.a_mm, frame.b_mm, frame.ed_mm
    if a is not None and b is not None and ed is not None and own.ed_mm is not None:
        corner = math.hypot(a, b)
        if not max(a, b) <= ed <= corner + ONE_LENGTH_MM:
            accepted = f"twice the longest way from the box centre to the rim: {max(a, b):g} to {corner:.1f}"
            faults.append(Fault("frame.ed_mm", f"{ed:g}", accepted))
    return frame


def _with_trace(frame: Frame, path: Path, faults: list[Fault]) -> Frame:
    try:
        trace = read_trace(path)
    except InputError as error:
        faults.extend(Fault("frame.trace", f"{f.found} ({f.field})", f.accepted) for f in error.faults)
        return frame
    return _traced(frame, trace, faults)


def _traced(frame: Frame, trace: Trace, faults: list[Fault]) -> Frame:
    """The frame with its outlines. A box measure not written in the order is taken from the trace."""
    outline = trace.outlines.get("right") or trace.outlines["left"]
    width, height = trace.box("right" if "right" in trace.outlines else "left")
    for name, measured in (("a_mm", width), ("b_mm", height)):
        stated = getattr(frame, name)
        if stated is not None and abs(stated - measured) > ONE_BOX_MM:
            faults.append(Fault(f"frame.{name}", f"{stated:g} beside {measured:.2f} traced", "the traced frame's box"))
    return replace(
        frame,
        a_mm=round(width, 2) if frame.a_mm is None else frame.a_mm,
        b_mm=round(height, 2) if frame.b_mm is None else frame.b_mm,
        dbl_mm=trace.stated.get("dbl_mm") if frame.dbl_mm is None else frame.dbl_mm,
        ed_mm=round(effective_diameter(outline), 2) if frame.ed_mm is None else frame.ed_mm,
        outline_right_mm=trace.outlines.get("right"),
        outline_left_mm=trace.outlines.get("left"),
    )


def _lens(table: LensTable, workshop: Workshop | None, faults: list[Fault]) -> LensChoice:
    of_fixed_tint = table.tint_category is not None or table.tint_percent is not None
    if of_fixed_tint and table.tint not in ("fixed", None):
        faults.append(Fault("lens.tint", str(table.tint), 'tint = "fixed" with tint_category or tint_percent'))
    if table.tint_colour is not None and table.tint in ("clear", None):
        faults.append(Fault("lens.tint_colour", "a colour without a tint", "fixed, photochromic, photochromic-visible"))
    reactive = is_reactive(table.tint)
    if table.dye is not None and (not reactive or (table.dye, table.tint) == ("ultraviolet", "photochromic-visible")):
        faults.append(Fault("lens.dye", f"{table.dye} beside tint {table.tint}", "a dye of a light-reactive tint"))
    visible = table.tint == "photochromic" and table.dye == "visible"
    faults.extend(tint_faults(table))
    return LensChoice(
        design=table.design,
        material=table.material,
        tint="photochromic-visible" if visible else "fixed" if table.tint is None and of_fixed_tint else table.tint,
        tint_colour=table.tint_colour,
        tint_category=table.tint_category,
        tint_percent=table.tint_percent,
        dye="visible" if table.tint == "photochromic-visible" else table.dye,
        balance=table.balance,
        coatings=frozenset(table.coatings),
        supplied=_supplied(table, workshop, faults),
    )


def _supplied(table: LensTable, workshop: Workshop | None, faults: list[Fault]) -> LensData:
    """The workshop's data of this lens: by the name in `data`, else by the material's own name."""
    known = workshop.lenses if workshop else {}
    if table.data is not None and table.data not in known:
        names = ", ".join(sorted(known)[:8]) or "none: the workshop file has no [lenses]"
        faults.append(Fault("lens.data", "a lens that the workshop file does not have", f"one of: {names}"))
    found = known.get(table.data or table.material or "", LensData())
    reference = known.get("hard-resin")
    return replace(
        found,
        front_curve_d=found.front_curve_d if table.front_curve_d is None else table.front_curve_d,
        reference_minimum_centre_mm=reference.minimum_centre_mm if reference else None,
    )


def _release(table: BenchTable | None) -> Release | None:
    if table is None or table.release is None:
        return None
    return Release(by=table.release.by, date=table.release.date, reason=table.release.reason)
