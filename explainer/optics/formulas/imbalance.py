"""Both eyes together: how much more prism one eye gets than the other, and what a wrong centring puts there.

Vertical difference: right base up less left base up. Horizontal total: base in of both eyes added, because
prisms of both eyes work together when they point to the nose.
"""

from __future__ import annotations

from typing import NamedTuple

from explainer.optics.formulas.dial import Side
from explainer.optics.formulas.prescription import SpheroCylinder
from explainer.optics.formulas.prism import Prism, prism_at, prism_from_centre_error
from explainer.optics.formulas.ranges import within


class PairPrism(NamedTuple):
    """Prism of a pair [prism dioptre]: total base in, and right base up less left base up."""

    total_in_pd: float
    right_up_pd: float


def pair_prism(*, right: Prism, left: Prism) -> PairPrism:
    """What the two eyes together feel of two prisms.

    Parameters: right, left prisms.
    Returns: total base in; right base up less left base up [prism dioptre].
    Raises: nothing.
    Equation: R_in + L_in; R_up - L_up.
    Reference: cook-2020-magazine; mccarthy-anisometropia.
    """
    return PairPrism(right.base_in_pd + left.base_in_pd, right.base_up_pd - left.base_up_pd)


def prism_looking_down(
    *, right: SpheroCylinder, left: SpheroCylinder, down_mm: float, inset_mm: float = 0.0
) -> PairPrism:
    """Prism of the pair when both eyes look through points below the optical centres.

    Parameters: right, left lenses; down_mm below the optical centres [mm]; inset_mm towards the nose from
        them, on each lens, as the eyes turn in for reading [mm].
    Returns: total base in; right base up less left base up [prism dioptre].
    Raises: OutOfRange for a point more than 30 mm down or 10 mm in.
    Equation: prism_at at the same point of both lenses.
    Reference: mccarthy-anisometropia; cook-2020-magazine (differential prism at the reading point).
    """
    within("distance down", down_mm, 0, 30, "mm")
    within("inset", inset_mm, 0, 10, "mm")

    def one(lens: SpheroCylinder, side: Side) -> Prism:
        return prism_at(**lens._asdict(), side=side, nasal_mm=inset_mm, up_mm=-down_mm)

    return pair_prism(right=one(right, "right"), left=one(left, "left"))


def vertical_difference_down(*, right: SpheroCylinder, left: SpheroCylinder, down_mm: float) -> float:
    """How much the prism of the two eyes differs vertically, looking straight down.

    Parameters: right, left lenses; down_mm below the optical centres [mm].
    Returns: size of the difference [prism dioptre], never negative.
    Raises: OutOfRange for a point more than 30 mm down.
    Equation: |R_up - L_up| at that height, from both power matrices.
    Reference: mccarthy-anisometropia.
    """
    return abs(prism_looking_down(right=right, left=left, down_mm=down_mm).right_up_pd)


def prism_from_pd_error(*, right: SpheroCylinder, left: SpheroCylinder, pd_error_mm: float) -> PairPrism:
    """Prism of the pair when the optical centres stand too far apart or too close.

    Parameters: right, left lenses; pd_error_mm made less ordered distance of the centres [mm], half on each
        side.
    Returns: total base in; right base up less left base up (an oblique cylinder gives some) [prism dioptre].
    Raises: OutOfRange for an error beyond 20 mm.
    Equation: prism_from_centre_error with the centre half the error towards the temple.
    Reference: exam-guide-prism (Prentice's rule); the sharing between the eyes is an assumption.
    """
    outward_mm = within("error of the distance", pd_error_mm, -20, 20, "mm") / 2
    return _misplaced(right, left, in_mm=-outward_mm, up_mm=(0.0, 0.0))


def prism_from_height_error(
    *, right: SpheroCylinder, left: SpheroCylinder, right_up_mm: float, left_up_mm: float
) -> PairPrism:
    """Prism of the pair when an optical centre stands too high or too low.

    Parameters: right, left lenses; right_up_mm, left_up_mm heights of the centres above where they belong
        [mm].
    Returns: total base in; right base up less left base up [prism dioptre].
    Raises: OutOfRange for an error beyond 20 mm.
    Equation: prism_from_centre_error.
    Reference: exam-guide-prism (Prentice's rule).
    """
    within("height error of the right centre", right_up_mm, -20, 20, "mm")
    within("height error of the left centre", left_up_mm, -20, 20, "mm")
    return _misplaced(right, left, in_mm=0.0, up_mm=(right_up_mm, left_up_mm))


def prism_from_shifts(
    *, right: SpheroCylinder, left: SpheroCylinder, right_out_mm: float, left_out_mm: float
) -> PairPrism:
    """Prism of the pair when each lens stands too far out by its own amount.

    Parameters: right, left lenses; right_out_mm, left_out_mm how far each point that belongs before the pupil
        stands towards the temple [mm].
    Returns: total base in; right base up less left base up (an oblique cylinder gives some) [prism dioptre].
    Raises: OutOfRange for an error beyond 20 mm.
    Equation: prism_from_centre_error for each lens. What the lens shows at the point itself is not counted here.
    Reference: exam-guide-prism (Prentice's rule).
    """
    within("error of the right lens", right_out_mm, -20, 20, "mm")
    within("error of the left lens", left_out_mm, -20, 20, "mm")
    return pair_prism(
        right=prism_from_centre_error(**right._asdict(), side="right", centre_in_mm=-right_out_mm, centre_up_mm=0.0),
        left=prism_from_centre_error(**left._asdict(), side="left", centre_in_mm=-left_out_mm, centre_up_mm=0.0),
    )


def total_in(*, errors: PairPrism, more: PairPrism | None = None) -> float:
    """The horizontal prism of the pair: of one error, or of two together.

    Parameters: errors, more prisms of the pair.
    Returns: size [prism dioptre], never negative.
    Raises: nothing.
    Equation: |sum of base in|.
    Reference: cook-2020-magazine.
    """
    return abs(errors.total_in_pd + (more.total_in_pd if more else 0.0))


def vertical_difference(*, errors: PairPrism, more: PairPrism | None = None) -> float:
    """The difference of vertical prism of the pair: of one error, or of two together.

    Parameters: errors, more prisms of the pair.
    Returns: size [prism dioptre], never negative.
    Raises: nothing.
    Equation: |sum of right base up less left base up|.
    Reference: cook-2020-magazine.
    """
    return abs(errors.right_up_pd + (more.right_up_pd if more else 0.0))


def _misplaced(right: SpheroCylinder, left: SpheroCylinder, *, in_mm: float, up_mm: tuple[float, float]) -> PairPrism:
    """Prism of the pair with both centres as far inward, each at its own height."""
    return pair_prism(
        right=prism_from_centre_error(**right._asdict(), side="right", centre_in_mm=in_mm, centre_up_mm=up_mm[0]),
        left=prism_from_centre_error(**left._asdict(), side="left", centre_in_mm=in_mm, centre_up_mm=up_mm[1]),
    )
