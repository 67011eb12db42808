"""What looks odd in an order that is sound in form: warnings for the optician, never a refusal.

The range of sphere and cylinder is that of worn spectacles in a national survey (NHANES 2007-2008, examination file
VIX_E, read by lensmeter: sphere -15 to +9.25 D, cylinder up to 6.25 D); the other bounds are common practice. No
warning repeats a value or a name, since warnings go to logs.
"""

from __future__ import annotations

import datetime as dt

from explainer.optics.spectacles import SIDES, Eye, Measurements, Prescription, Spectacles

LOWEST_SPHERE_D, HIGHEST_SPHERE_D = -15.0, 10.0
MOST_CYLINDER_D = 6.25
PD_MM = (40.0, 80.0)
MOST_DIFFERENCE_D = 4.0
MOST_PD_DIFFERENCE_MM = 4.0
MOST_PRISM_PD = 10.0
BIG_CHANGE_D = 3.0
READING_AGE = 38
STRONG_ADD_D, STRONG_ADD_AGE = 2.0, 45
WEAK_ADD_D, WEAK_ADD_AGE = 1.25, 60
VALID_YEARS = 2


def warnings(spectacles: Spectacles, *, ordered: dt.date, written: dt.date | None) -> tuple[str, ...]:
    """Every warning for this order, in a fixed order."""
    return (
        *_powers(spectacles.prescription),
        *_pair(spectacles.prescription),
        *_addition(spectacles),
        *_distances(spectacles.measurements),
        *_dates(ordered, written),
        *_previous(spectacles),
    )


def warnings_for_pair(right: Eye, left: Eye) -> tuple[str, ...]:
    """The warnings that the powers of both eyes alone give rise to."""
    prescription = Prescription(right=right, left=left)
    return (*_powers(prescription), *_pair(prescription))


def warnings_for_eye(eye: Eye, name: str) -> tuple[str, ...]:
    """The warnings that the powers of one eye alone give rise to; `name` is "right", "left" or "eye"."""
    return tuple(_of_eye(eye, name if name == "eye" else f"{name} eye"))


def mean_sphere(eye: Eye) -> float:
    """Sphere plus half the cylinder [D]."""
    return eye.sphere_d + eye.cylinder_d / 2


def _powers(prescription: Prescription) -> list[str]:
    return [line for side in SIDES for line in _of_eye(prescription.eye(side), f"{side} eye")]


def _of_eye(eye: Eye, name: str) -> list[str]:
    found = []
    powers = (eye.sphere_d, eye.sphere_d + eye.cylinder_d)
    if min(powers) < LOWEST_SPHERE_D or max(powers) > HIGHEST_SPHERE_D:
        found.append(f"{name}: a power beyond {LOWEST_SPHERE_D:+g} to {HIGHEST_SPHERE_D:+g} D is rare; check it")
    if abs(eye.cylinder_d) > MOST_CYLINDER_D:
        found.append(f"{name}: a cylinder beyond {MOST_CYLINDER_D:g} D is rare; check it")
    if max(abs(eye.prism_in_pd), abs(eye.prism_up_pd)) > MOST_PRISM_PD:
        found.append(f"{name}: a prism beyond {MOST_PRISM_PD:g} prism dioptres is rare; check it")
    return found


def _pair(prescription: Prescription) -> list[str]:
    right, left = prescription.right, prescription.left
    found = []
    if abs(mean_sphere(right) - mean_sphere(left)) > MOST_DIFFERENCE_D:
        found.append(f"the eyes differ by more than {MOST_DIFFERENCE_D:g} D; check signs and eyes")
    elif mean_sphere(right) * mean_sphere(left) < 0 and min(abs(mean_sphere(right)), abs(mean_sphere(left))) >= 1:
        found.append("one eye is plus and the other minus; check the signs")
    if right.cylinder_d * left.cylinder_d < 0:
        found.append("one cylinder is plus and the other minus; check the signs")
    if right.add_d != left.add_d:
        found.append("the reading additions of the eyes differ; check them")
    if right.prism_up_pd * left.prism_up_pd > 0:
        found.append("vertical prism has its base the same way for both eyes; check the directions")
    if right.prism_in_pd * left.prism_in_pd < 0:
        found.append("horizontal prism is base in for one eye and base out for the other; check the directions")
    return found


def _addition(spectacles: Spectacles) -> list[str]:
    age = spectacles.wearer.age_years
    design = spectacles.lens.design
    added = spectacles.prescription.right.add_d is not None or spectacles.prescription.left.add_d is not None
    found = []
    if added and age is not None and age < READING_AGE:
        found.append(f"a reading addition for a wearer under {READING_AGE} is unusual; check birth year and addition")
    elif added and age is not None and not _fits(spectacles.prescription, age):
        found.append("the reading addition is unusual at this age; check birth year and addition")
    if design in ("bifocal", "progressive") and not added:
        found.append(f"a {design} lens without a reading addition; check the prescription or the design")
    return found


def _fits(prescription: Prescription, age: int) -> bool:
    """Whether additions are those of the age: up to +2.00 before 45, at least +1.25 from 60 (common practice)."""
    additions = [eye.add_d for eye in (prescription.right, prescription.left) if eye.add_d is not None]
    strong = age < STRONG_ADD_AGE and max(additions) > STRONG_ADD_D
    weak = age >= WEAK_ADD_AGE and min(additions) < WEAK_ADD_D
    return not (strong or weak)


def _distances(measured: Measurements) -> list[str]:
    both = (measured.pd_right_mm, measured.pd_left_mm)
    total = measured.pd_mm if None in both else sum(value for value in both if value is not None)
    found = []
    if total is not None and not PD_MM[0] <= total <= PD_MM[1]:
        found.append(f"a pupillary distance outside {PD_MM[0]:g} to {PD_MM[1]:g} mm is rare; check it")
    if both[0] is not None and both[1] is not None and abs(both[0] - both[1]) > MOST_PD_DIFFERENCE_MM:
        found.append(
            f"the pupillary distances of the eyes differ by more than {MOST_PD_DIFFERENCE_MM:g} mm; check them"
        )
    if total is not None and measured.near_pd_mm is not None and measured.near_pd_mm >= total:
        found.append("the near pupillary distance is not smaller than the distance one; check both")
    return found


def _dates(ordered: dt.date, written: dt.date | None) -> list[str]:
    if written is None:
        return []
    if written > ordered:
        return ["the prescription was written after the date of the order; check both dates"]
    if (ordered.year - written.year, ordered.month, ordered.day) > (VALID_YEARS, written.month, written.day):
        return [f"the prescription is older than {VALID_YEARS} years; check whether it may still be used"]
    return []


def _previous(spectacles: Spectacles) -> list[str]:
    now, before = spectacles.prescription, spectacles.previous
    if before is None:
        return []
    straight = [abs(mean_sphere(now.eye(side)) - mean_sphere(before.eye(side))) for side in SIDES]
    crossed = [
        abs(mean_sphere(now.right) - mean_sphere(before.left)),
        abs(mean_sphere(now.left) - mean_sphere(before.right)),
    ]
    found = []
    if max(straight) >= 1 and max(crossed) <= 0.25:
        found.append("this prescription is the previous one with the eyes exchanged; check which eye is which")
    for side, change in zip(SIDES, straight, strict=True):
        if change > BIG_CHANGE_D:
            found.append(
                f"{side} eye: changed by more than {BIG_CHANGE_D:g} D since the previous prescription; check it"
            )
    return found
