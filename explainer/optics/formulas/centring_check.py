"""From a measured centring to a verdict: the prism that a wrong distance or height causes, against a rule."""

from __future__ import annotations

from typing import NamedTuple

from explainer.optics.formulas.imbalance import prism_from_height_error, prism_from_pd_error
from explainer.optics.formulas.power_vector import power_matrix
from explainer.optics.formulas.prescription import SpheroCylinder
from explainer.optics.formulas.tolerance import ImbalanceRule, Verdict, imbalance_verdict


class CentringCheck(NamedTuple):
    """Unwanted prism of the pair [prism dioptre], what it was judged by, and the verdict."""

    prism_pd: float
    strongest_power_d: float
    judged_by: str
    verdict: Verdict


def check_pd(rule: ImbalanceRule, *, right: SpheroCylinder, left: SpheroCylinder, pd_error_mm: float) -> CentringCheck:
    """Judges a distance of the optical centres that differs from the pupil distance ordered.

    Parameters: rule for the horizontal; right, left lenses; pd_error_mm made less ordered [mm].
    Returns: size of the horizontal prism, strongest horizontal power, what was judged ("prism" or
        "distance"), verdict.
    Raises: OutOfRange for an error beyond 20 mm.
    Equation: total base in of prism_from_pd_error; the stronger of the two horizontal powers chooses the
        limit.
    Reference: ansi-z80-1-2015-guide (0.67 up to 2.75 D, else 2.5 mm).
    """
    prism = prism_from_pd_error(right=right, left=left, pd_error_mm=pd_error_mm).total_in_pd
    strongest = max(abs(power_matrix(**lens._asdict()).fxx_d) for lens in (right, left))
    return _judge(rule, strongest, prism, pd_error_mm)


def check_heights(
    rule: ImbalanceRule,
    *,
    right: SpheroCylinder,
    left: SpheroCylinder,
    right_up_mm: float,
    left_up_mm: float,
) -> CentringCheck:
    """Judges optical centres at wrong heights.

    Parameters: rule for the vertical; right, left lenses; right_up_mm, left_up_mm heights above where each
        belongs [mm].
    Returns: size of the vertical difference, strongest vertical power, what was judged, verdict.
    Raises: OutOfRange for an error beyond 20 mm.
    Equation: difference of prism_from_height_error; above the rule's power the difference of the heights
        counts.
    Reference: ansi-z80-1-2015-guide (0.33 up to 3.375 D, else 1.0 mm difference in height).
    """
    errors = prism_from_height_error(right=right, left=left, right_up_mm=right_up_mm, left_up_mm=left_up_mm)
    strongest = max(abs(power_matrix(**lens._asdict()).fyy_d) for lens in (right, left))
    return _judge(rule, strongest, errors.right_up_pd, right_up_mm - left_up_mm)


def _judge(rule: ImbalanceRule, strongest_d: float, prism_pd: float, distance_mm: float) -> CentringCheck:
    verdict = imbalance_verdict(rule, strongest_power_d=strongest_d, prism_pd=prism_pd, distance_mm=distance_mm)
    judged_by = "prism" if strongest_d <= rule.up_to_d else "distance"
    return CentringCheck(abs(prism_pd), strongest_d, judged_by, verdict)
