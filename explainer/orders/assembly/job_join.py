"""A job file joined to its order: it fills in what the order lacks; where the two disagree, the order is refused.

The prescription is taken whole or not at all: an addition or a prism that only one of the two has is a disagreement.
"""

from __future__ import annotations

from explainer.errors import Fault, InputError
from explainer.optics.formulas.power_vector import PowerVector, power_vector
from explainer.optics.spectacles import SIDES, Readings, Side
from explainer.orders.assembly.models import BenchTable, FrameTable, LensTable, MeasurementsTable, PrescriptionTable
from explainer.orders.job.file import Job
from explainer.orders.notation.reading import Reading, written
from explainer.orders.values.agreement import ONE_BOX_MM, ONE_LENGTH_MM

_SAME = "the same in both, or in one of them"
_AXIS_MATTERS_D = 0.005  # two cylinders are the same lens if their power vectors differ by less than this


def is_given(table: PrescriptionTable) -> bool:
    """Whether the order itself says a prescription."""
    return any(value is not None for value in (table.right, table.left, table.text, table.fhir))


def eyes_of_job(job: Job, *, any_step: bool, faults: list[Fault]) -> dict[Side, Reading]:
    """The prescription of the job file, with its faults under the file's name."""
    try:
        return job.prescription(any_step=any_step)
    except InputError as error:
        faults.extend(Fault(f"{job.name}: {fault.field}", fault.found, fault.accepted) for fault in error.faults)
        return {}


def compare_eyes(here: dict[Side, Reading], there: dict[Side, Reading], job: Job, faults: list[Fault]) -> None:
    """A fault for each eye that is another lens in the order than in the job."""
    for side in SIDES:
        if side in here and side in there and not _same_lens(here[side], there[side]):
            found = f"{written(here[side])} here, {written(there[side])} in {job.name}"
            faults.append(Fault(f"prescription.{side}", found, "the same lens in both, or in one of them"))


def with_measurements(table: MeasurementsTable, job: Job, faults: list[Fault]) -> MeasurementsTable:
    """The measurements with what only the job knows."""
    known = dict(job.measurements)
    singly = table.pd_right_mm is not None or table.pd_left_mm is not None
    if singly or "pd_right_mm" not in known:
        agrees = {"pd_right_mm": ONE_LENGTH_MM, "pd_left_mm": ONE_LENGTH_MM}
    else:
        agrees = {}
        total = known["pd_right_mm"] + known["pd_left_mm"]
        if table.pd_mm is not None and abs(table.pd_mm - total) > ONE_LENGTH_MM:
            faults.append(_disagreement("measurements.pd_mm", table.pd_mm, total, job))
    agrees |= {"near_pd_mm": ONE_LENGTH_MM, "height_right_mm": ONE_LENGTH_MM, "height_left_mm": ONE_LENGTH_MM}
    own = {name: getattr(table, name) for name in known}
    faults.extend(_disagreements("measurements", own, job, known, agrees))
    return table.model_copy(update={name: value for name, value in known.items() if own[name] is None})


def with_box(table: FrameTable, job: Job, faults: list[Fault]) -> FrameTable:
    """The frame with the box of the job; where the job has a trace, width, height and diameter come from that."""
    own = {name: getattr(table, name) for name in job.box}
    faults.extend(_disagreements("frame", own, job, job.box, dict.fromkeys(job.box, ONE_BOX_MM)))
    traced = () if job.trace is None else ("a_mm", "b_mm", "ed_mm")
    filled = {name: value for name, value in job.box.items() if own[name] is None and name not in traced}
    return table.model_copy(update=filled)


def with_lens(table: LensTable, job: Job, faults: list[Fault]) -> LensTable:
    """The lens with the generic material and the design of the job."""
    filled = {}
    for name, said in (("material", job.material), ("design", job.design)):
        own = getattr(table, name)
        if said is not None and own not in (None, said):
            faults.append(Fault(f"lens.{name}", f"{own} here, {said} in {job.name}", _SAME))
        filled[name] = own or said
    return table.model_copy(update=filled)


def readings_of_job(table: BenchTable, job: Job, faults: list[Fault]) -> Readings | None:
    """The inspection values of the file that [bench] names, as readings of the finished pair."""
    own = (
        *(table.right, table.left, table.prism_right, table.prism_left),
        *(table.centre_thickness_right_mm, table.centre_thickness_left_mm),
    )
    if any(value is not None for value in own):
        faults.append(Fault("bench.job", "readings here and in a job file", "one of the two"))
        return None
    if job.inspected is None:
        faults.append(Fault("bench.job", f"no inspection values in {job.name}", "INSSPH, INSCYL, INSAX: right;left"))
        return None
    try:
        return job.inspected.readings(job.name)
    except InputError as error:
        faults.extend(Fault(f"bench.job: {fault.field}", fault.found, fault.accepted) for fault in error.faults)
        return None


def _disagreements(
    table: str, own: dict[str, float | None], job: Job, there: dict[str, float], agrees: dict[str, float]
) -> list[Fault]:
    return [
        _disagreement(f"{table}.{name}", here, there[name], job)
        for name, here in own.items()
        if here is not None and name in agrees and abs(here - there[name]) > agrees[name]
    ]


def _disagreement(field: str, here: float, there: float, job: Job) -> Fault:
    return Fault(field, f"{here:g} here, {there:g} in {job.name}", _SAME)


def _same_lens(one: Reading, other: Reading) -> bool:
    """Whether both are one lens, in whichever cylinder form, with the same addition and prism."""
    powers = zip(_vector(one), _vector(other), strict=True)
    prisms = ((one.prism_in_pd, other.prism_in_pd), (one.prism_up_pd, other.prism_up_pd))
    return (
        one.add_d == other.add_d
        and all(abs(a - b) < _AXIS_MATTERS_D for a, b in powers)
        and all(abs(a - b) < 0.01 for a, b in prisms)
    )


def _vector(reading: Reading) -> PowerVector:
    """The power in a form that is the same for both ways to write a lens."""
    return power_vector(
        sphere_d=reading.sphere_d or 0.0, cylinder_d=reading.cylinder_d or 0.0, axis_deg=reading.axis_deg or 180.0
    )
