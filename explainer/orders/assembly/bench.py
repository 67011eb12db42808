"""The readings of the finished pair: [bench] of an order → what was read, and nothing that was not.

A reading is not a prescription. A prescription that names no cylinder has none; a reading that names none may come from
somebody who did not look. So the cylinder of a lens counts as read only if the reading speaks of it.
"""

from __future__ import annotations

import re
from itertools import pairwise
from pathlib import Path

from explainer.errors import Fault, InputError
from explainer.optics.spectacles import SIDES, LensReading, Readings, Side, Spectacles
from explainer.orders.assembly.eyes import How, Written, one_eye
from explainer.orders.assembly.job_join import readings_of_job
from explainer.orders.assembly.models import BenchTable
from explainer.orders.assembly.written import tongue
from explainer.orders.job.file import read_job
from explainer.orders.notation.prism import from_word
from explainer.orders.notation.reading import Reading
from explainer.orders.notation.tokens import clean, tokens_of
from explainer.orders.values.texts import quoted

_PRISM = re.compile(r"(\d{1,2}(?:[.,]\d{1,3})?) ?(in|out|up|down)", re.ASCII)
_NO_PRISM = re.compile(r"0(?:[.,]0{1,3})?", re.ASCII)
_PRISMS = 'amount and base of each direction that was read: "2.00 in & 0.25 up"; "0" for none at all'
_LENGTHS = (
    *("optical_centres_mm", "reference_point_right_mm", "reference_point_left_mm"),
    *("height_right_mm", "height_left_mm", "centre_thickness_right_mm", "centre_thickness_left_mm"),
)


def readings_of(table: BenchTable, folder: Path, language: str | None, faults: list[Fault]) -> Readings | None:
    """The readings of a [bench] table; None with its faults appended, or for a table that holds no reading."""
    if table.pd_mm is not None and table.reference_points_mm is not None:
        faults.append(Fault("bench.pd_mm", "the same distance twice", "reference_points_mm alone"))
    points = table.pd_mm if table.reference_points_mm is None else table.reference_points_mm
    lengths = {name: getattr(table, name) for name in _LENGTHS}
    lengths["reference_points_mm"] = points
    eyes = _from_job(table, folder, lengths, faults) if table.job else _from_order(table, language, faults)
    nothing = not any(eyes.values()) and all(value is None for value in lengths.values())
    return None if nothing else Readings(right=eyes.get("right"), left=eyes.get("left"), **lengths)


def _from_order(table: BenchTable, language: str | None, faults: list[Fault]) -> dict[Side, LensReading | None]:
    how = How(table="bench", language=language, any_step=True, in_order=False)
    found: dict[Side, LensReading | None] = {}
    for side in SIDES:
        value: Written = getattr(table, side)
        reading = one_eye(value, side, how, faults)
        prism = _prism(getattr(table, f"prism_{side}"), side, faults)
        if reading is None:
            found[side] = LensReading(prism_in_pd=prism[0], prism_up_pd=prism[1]) if prism else None
            continue
        written = (reading.prism_in_pd or None, reading.prism_up_pd or None)
        if prism is not None and any(written):
            faults.append(Fault(f"bench.prism_{side}", "a prism here and in the reading itself", "one of the two"))
        spherical = reading.cylinder_d is None and isinstance(value, str) and says_spherical(value, language)
        found[side] = _reading(reading, prism or written, spherical=spherical)
    return found


def _reading(reading: Reading, prism: tuple[float | None, float | None], *, spherical: bool) -> LensReading:
    """What the text or the fields say, and the prism that stands in them or beside them."""
    return LensReading(
        sphere_d=reading.sphere_d,
        cylinder_d=0.0 if spherical else reading.cylinder_d,
        axis_deg=reading.axis_deg,
        add_d=reading.add_d,
        prism_in_pd=prism[0],
        prism_up_pd=prism[1],
    )


def bench_warnings(table: BenchTable | None, spectacles: Spectacles) -> tuple[str, ...]:
    """The earlier name of a distance, where prism makes two distances of it."""
    eyes = [spectacles.prescription.eye(side) for side in SIDES]
    prescribed = any(eye.prism_in_pd or eye.prism_up_pd for eye in eyes)
    if table is None or table.pd_mm is None or not prescribed:
        return ()
    return (
        "bench.pd_mm is taken as the distance of the points that show the prescribed prism; "
        "if the optical centres were measured, write optical_centres_mm",
    )


def says_spherical(text: str, language: str | None) -> bool:
    """Whether a written power says that there is no cylinder: -2.25 DS, -2.25 sph, plano.

    A label before the number ("sphere -2.25") only names it.
    """
    if text.lstrip()[:1] in ('"', "{"):
        return False
    kinds = [token.kind for token in tokens_of(clean(text, field="bench")[1], language=tongue(language))]
    behind = any(before in ("number", "unit") and kind == "sph" for before, kind in pairwise(kinds))
    return "ds" in kinds or "plano" in kinds or behind


def _prism(text: str | None, side: Side, faults: list[Fault]) -> tuple[float | None, float | None] | None:
    """Horizontal and vertical prism as they were read; None for a direction that was not."""
    if text is None:
        return None
    if _NO_PRISM.fullmatch(text):
        return (0.0, 0.0)
    sideways: float | None = None
    upright: float | None = None
    for part in re.split(r" ?[&;+] ?|, ", text):
        found = _PRISM.fullmatch(part.strip())
        amount = float(found[1].replace(",", ".")) if found else 99.0
        one = from_word(amount, found[2]) if found and amount <= 20 else None
        again = one and ((sideways if one.up_pd is None else upright) is not None)
        if one is None or again:
            faults.append(Fault(f"bench.prism_{side}", quoted(text), _PRISMS))
            return None
        sideways, upright = (one.in_pd, upright) if one.up_pd is None else (sideways, one.up_pd)
    return (None if sideways is None else sideways + 0.0, None if upright is None else upright + 0.0)


def _from_job(
    table: BenchTable, folder: Path, lengths: dict[str, float | None], faults: list[Fault]
) -> dict[Side, LensReading | None]:
    """The inspection values of the file that [bench] names."""
    try:
        job = read_job(folder / (table.job or ""))
    except InputError as error:
        faults.extend(Fault(f"bench.job: {fault.field}", fault.found, fault.accepted) for fault in error.faults)
        return {}
    found = readings_of_job(table, job, faults)
    if found is None:
        return {}
    for side in SIDES:
        lengths[f"centre_thickness_{side}_mm"] = found.of("centre_thickness", side)
    return {"right": found.right, "left": found.left}
