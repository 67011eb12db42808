"""Plain comparisons that become statements: which kind, which is stronger, how far apart.

Sign convention: powers carry their sign; a comparison of strength looks at the size only.
"""

from __future__ import annotations

from typing import Literal

from explainer.optics.formulas.prescription import strongest_power


def kind_of_power(*, power_d: float) -> Literal["minus", "plus", "plano"]:
    """Whether a power spreads light, gathers it, or does neither.

    Parameters: power_d [D].
    Returns: minus, plus or plano.
    Raises: nothing.
    Equation: the sign of the power; exact.
    Reference: common practice.
    """
    return "plano" if power_d == 0 else "minus" if power_d < 0 else "plus"


def greatest_power(*, sphere_d: float, cylinder_d: float) -> float:
    """The greatest power of a lens in any direction, without its sign.

    Parameters: sphere_d, cylinder_d [D].
    Returns: size [D], never negative.
    Raises: OutOfRange for a power beyond 40 D.
    Equation: max(|S|, |S + C|); exact, since the power between them is a mean of the two.
    Reference: ansi-z80-1-1999-tables (meridian of highest absolute power).
    """
    return abs(strongest_power(sphere_d=sphere_d, cylinder_d=cylinder_d))


def stronger_lens(*, right_d: float, left_d: float) -> Literal["right", "left", "equal"]:
    """Which lens has the greater power.

    Parameters: right_d, left_d sizes of the greatest powers [D].
    Returns: right, left or equal (closer than a thousandth of a dioptre).
    Raises: nothing.
    Equation: comparison.
    Reference: common practice (a lens is called stronger when its greatest power is).
    """
    if abs(right_d - left_d) < 1e-3:
        return "equal"
    return "right" if right_d > left_d else "left"


def about_equally_strong(
    *, right_mean_d: float, left_mean_d: float, right_strongest_d: float, left_strongest_d: float, step_d: float
) -> bool:
    """Whether two lenses may be called about equally strong. One of them may be so in a single direction only.

    Parameters: right_mean_d, left_mean_d mean powers; right_strongest_d, left_strongest_d sizes of the greatest
        powers; step_d by how much the mean powers may differ [D].
    Returns: yes or no; no for a pair without any power.
    Raises: nothing.
    Equation: |right - left| <= step, and one of the greatest powers above 0.
    Reference: common practice (lenses come in quarter steps).
    """
    powered = max(right_strongest_d, left_strongest_d) > 0
    return powered and abs(right_mean_d - left_mean_d) <= step_d + 1e-9


def difference(*, first_d: float, second_d: float) -> float:
    """How far two powers are apart.

    Parameters: first_d, second_d [D].
    Returns: size of the difference [D], never negative.
    Raises: nothing.
    Equation: |first - second|.
    Reference: mccarthy-anisometropia (difference between the eyes).
    """
    return abs(first_d - second_d)


def lets_ultraviolet_pass(*, edge_nm: float, band_end_nm: float) -> bool:
    """Whether a material that stops light up to an edge leaves a part of the ultraviolet through.

    Parameters: edge_nm up to where it stops light, band_end_nm where the ultraviolet ends [nm].
    Returns: True when the edge stands before the end of the band.
    Raises: nothing.
    Equation: comparison of the two; a material is not asked how much passes.
    Reference: outer-limits-letter (where spectacle standards end the ultraviolet).
    """
    return edge_nm < band_end_nm


def share_saved(*, value: float, reference: float) -> float:
    """By how much a value is less than a reference, as a share of the reference.

    Parameters: value, reference in the same unit, reference above 0.
    Returns: percent; positive when the value is the smaller one.
    Raises: nothing.
    Equation: 100 (1 - value / reference).
    Reference: definition.
    """
    return 100 * (1 - value / reference)


def whole_pd(*, right_mm: float, left_mm: float) -> float:
    """The distance between the pupils from its two halves.

    Parameters: right_mm, left_mm from the middle of the nose to each pupil [mm].
    Returns: their sum [mm].
    Raises: nothing.
    Equation: right + left.
    Reference: common practice.
    """
    return right_mm + left_mm


def spreads_more(*, abbe: float, reference_abbe: float) -> bool:
    """Whether a material spreads colours more than a reference does.

    Parameters: abbe, reference_abbe Abbe numbers.
    Returns: yes or no.
    Raises: nothing.
    Equation: a smaller Abbe number spreads more.
    Reference: exam-guide-aberrations.
    """
    return abbe < reference_abbe


def pupil_distance(*, vertex_mm: float, entrance_pupil_mm: float) -> float:
    """How far the entrance pupil of the eye lies behind the lens.

    Parameters: vertex_mm from the lens to the cornea [mm]; entrance_pupil_mm from the cornea to the pupil [mm].
    Returns: their sum [mm].
    Raises: nothing.
    Equation: vertex + entrance pupil.
    Reference: forum-spectacle-magnification.
    """
    return vertex_mm + entrance_pupil_mm
