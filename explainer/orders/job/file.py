"""A job file of the spectacle trade's Data Communication Standard → what it says of an order.

Read are prescription, pupillary distances, heights, box and trace, index and design, and the inspection values. What
the laboratory keeps for itself (tools, blanks, its own codes) is passed over; what would change the lens and is not
understood is refused by its label.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from pathlib import Path

from explainer.errors import Fault, InputError
from explainer.optics.spectacles import SIDES, Design, Material, Side
from explainer.orders.job.inspection import Inspected, inspected
from explainer.orders.job.lens import design_of, material_of
from explainer.orders.job.records import Records, read_records
from explainer.orders.job.trace import Trace, trace_of
from explainer.orders.notation.cursor import Rules
from explainer.orders.notation.reading import Reading
from explainer.orders.notation.records import records
from explainer.orders.values.agreement import ONE_LENGTH_MM

_POWERS = ("SPH", "CYL", "AX", "ADD", "PRVM", "PRVA")
_CODES = ("TINT", "ACOAT", "PHOTO", "POLAR")
_VERSION = re.compile(r"0?[0-3]\.[0-9]{1,2}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """What a job file says. None or empty: it does not say. `notes` name what was left out and why."""

    name: str
    number: str | None = None
    date_text: str | None = None
    powers: str = ""  # the records of the prescription, for `prescription`
    vertex_mm: float | None = None
    measurements: dict[str, float] = field(default_factory=dict)
    box: dict[str, float] = field(default_factory=dict)
    trace: Trace | None = None
    material: Material | None = None
    design: Design | None = None
    inspected: Inspected | None = None
    notes: tuple[str, ...] = ()

    def prescription(self, *, any_step: bool = False) -> dict[Side, Reading]:
        """Both eyes; empty if the file has no sphere. InputError with every fault."""
        if not self.powers:
            return {}
        pair = records(self.powers, Rules(self.name, any_step=any_step))
        incomplete = [side for side in SIDES if not pair.eye(side).complete]
        if incomplete:
            accepted = "SPH, CYL and AX of both eyes"
            raise InputError(self.name, [Fault("SPH", f"no whole power for the {incomplete[0]} eye", accepted)])
        return {side: pair.eye(side) for side in SIDES}


def read_job(path: Path) -> Job:
    """Read a job file, or refuse it with the labels of what is wrong."""
    text, found = read_records(path)
    notes: list[str] = []
    _check_head(found)
    _check_other_prism(found)
    trace = trace_of(text, path)
    measurements = _distances(found)
    design = design_of(found, notes)
    _heights(found, design, measurements)
    job = Job(
        name=path.name,
        number=found.text("JOB"),
        date_text=found.text("_DATE"),
        powers=_powers(found, notes),
        vertex_mm=_vertex(found),
        measurements=measurements,
        box=_box(found, trace),
        trace=trace if trace.outlines else None,
        material=material_of(found, notes),
        design=design,
        inspected=inspected(found),
        notes=(*notes, *_left_out(found)),
    )
    found.check()
    return job


def _check_head(found: Records) -> None:
    """What every job says of itself: the version of the standard, which eyes, whether it went wrong."""
    version, eyes, status = found.text("OMAV"), found.text("DO"), found.text("STATUS")
    if version is not None and not _VERSION.fullmatch(version):
        found.fault("OMAV", "a version that is not known", "a version of the standard up to 3")
    if eyes not in (None, "B", "R", "L"):
        found.fault("DO", "eyes that are not known", "B, R or L")
    if status is not None and not re.fullmatch(r"0+", status):
        found.fault("STATUS", "a job that reports an error", "a job with STATUS=0")


def _check_other_prism(found: Records) -> None:
    """A prescribed prism by components must not be passed over, and is not read: its signs are not settled here."""
    for label in ("PRVIN", "PRVUP"):
        if any(found.numbers(label, -20, 20, "prism dioptres")) and not any(found.both("PRVM")):
            found.fault(label, "a prescribed prism by components", "PRVM with PRVA, its amount and base")


def _powers(found: Records, notes: list[str]) -> str:
    """The records of the prescription alone; an addition of zero is none."""
    if not any(found.both("SPH")):
        if any(any(found.both(label)) for label in ("CYL", "ADD", "PRVM")):
            found.fault("SPH", "nothing", "the sphere of both eyes beside CYL, ADD or PRVM")
        return ""
    lines = []
    for label in _POWERS:
        parts = [_without_zero(part) if label == "ADD" else part for part in found.both(label)]
        if any(parts):
            lines.append(f"{label}={parts[0] or '?'};{parts[1] or '?'}")
    if "PRVM" not in found.values:
        notes.append("no prism record (PRVM) in the job file: read as no prism")
    return "\n".join(lines)


def _without_zero(part: str | None) -> str | None:
    return None if part is None or re.fullmatch(r"0*\.?0*", part) else part


def _vertex(found: Records) -> float | None:
    right, left = found.numbers("BVD", 5, 30)
    if right is not None and left is not None and abs(right - left) > ONE_LENGTH_MM:
        found.fault("BVD", f"{right:g} and {left:g}", "one back vertex distance for the pair")
    return left if right is None else right


def _distances(found: Records) -> dict[str, float]:
    right, left = found.numbers("IPD", 10, 50)
    near = found.numbers("NPD", 10, 50)
    if (right is None) != (left is None):
        found.fault("IPD", "the distance of one eye only", "the distance of each eye: right;left")
    known: dict[str, float] = {}
    if right is not None and left is not None:
        known |= {"pd_right_mm": right, "pd_left_mm": left}
    if near[0] is not None and near[1] is not None:
        known["near_pd_mm"] = near[0] + near[1]
    return known


def _heights(found: Records, design: Design | None, measurements: dict[str, float]) -> None:
    """Heights above the lowest rim point: the optical centre's in single vision, else the fitting height."""
    label = {"single-vision": "OCHT", "progressive": "SEGHT"}.get(design or "")
    if label is None:
        return
    right, left = found.numbers(label, 2, 60)
    if right is not None and left is not None:
        measurements |= {"height_right_mm": right, "height_left_mm": left}


def _box(found: Records, trace: Trace) -> dict[str, float]:
    """The box as stated; two unlike rims leave it to the traces. The frame's diameter is checked against the trace."""
    for label, name, low, high in (("HBOX", "a_mm", 20, 80), ("VBOX", "b_mm", 10, 75), ("DBL", "dbl_mm", 5, 40)):
        value = trace.stated.get(name)
        if value is not None and not low <= value <= high:
            found.fault(label, f"{value:g}", f"a number of {low} to {high} mm")
    box = dict(trace.stated)
    right, left = found.numbers("FED", 20, 95)
    if right is not None and left is not None and abs(right - left) <= ONE_LENGTH_MM:
        box["ed_mm"] = right
    return box


def _left_out(found: Records) -> list[str]:
    notes = []
    codes = [label for label in _CODES if any(part not in ("", "0", "?") for part in _parts(found, label))]
    if codes:
        names = ", ".join(codes)
        notes.append(f"laboratory codes {names} of the job file are left out: say tint and coatings in [lens]")
    if any(label.startswith("INS") for label in found.values):
        notes.append(
            "inspection values of the job file are left out: they may be what the lens should show;"
            ' if they were read from the finished pair, name the file in [bench]: job = "..."'
        )
    return notes


def _parts(found: Records, label: str) -> list[str]:
    return [part.strip() for value in found.values.get(label, []) for part in value.split(";")]
