"""How large the world looks through a lens, and how large the wearer's eyes look to others."""

from __future__ import annotations

from explainer.errors import OutOfRange
from explainer.optics.formulas.ranges import index as lens_index
from explainer.optics.formulas.ranges import power, within


def shape_factor(*, front_power_d: float, thickness_mm: float, index: float) -> float:
    """The part of the magnification that comes from curve and thickness.

    Parameters: front_power_d front surface power [D]; thickness_mm centre thickness [mm]; index of the lens.
    Returns: ratio.
    Raises: OutOfRange for a thickness outside 0 to 30 mm, or an index outside 1.4 to 2.
    Equation: 1 / (1 - (t/n) F1), t in metres.
    Reference: spectacle-magnification-flashcards (arithmetic only); forum-spectacle-magnification.
    """
    power("front surface power", front_power_d)
    reduced_m = within("centre thickness", thickness_mm, 0, 30, "mm") / 1000 / lens_index(index)
    return _ratio(reduced_m * front_power_d, front_power_d)


def power_factor(*, back_vertex_power_d: float, pupil_distance_mm: float) -> float:
    """The part of the magnification that comes from power and distance.

    Parameters: back_vertex_power_d [D]; pupil_distance_mm from the back of the lens to the entrance pupil of
        the eye, about 3 mm more than the vertex distance [mm].
    Returns: ratio.
    Raises: OutOfRange for a distance outside 0 to 50 mm.
    Equation: 1 / (1 - h F'v), h in metres.
    Reference: forum-spectacle-magnification (h to the entrance pupil, not the vertex distance).
    """
    power("back vertex power", back_vertex_power_d)
    distance_m = within("distance to the entrance pupil", pupil_distance_mm, 0, 50, "mm") / 1000
    return _ratio(distance_m * back_vertex_power_d, back_vertex_power_d)


def spectacle_magnification(
    *,
    front_power_d: float,
    back_vertex_power_d: float,
    thickness_mm: float,
    index: float,
    pupil_distance_mm: float,
) -> float:
    """Size of the picture on the retina with the lens against without it.

    Parameters: front_power_d, back_vertex_power_d [D]; thickness_mm centre thickness [mm]; index of the lens;
        pupil_distance_mm from the back of the lens to the entrance pupil [mm].
    Returns: ratio, above 1 for larger.
    Raises: OutOfRange as shape_factor and power_factor.
    Equation: shape factor times power factor; for distant things.
    Reference: spectacle-magnification-flashcards (arithmetic only); forum-spectacle-magnification.
    """
    shape = shape_factor(front_power_d=front_power_d, thickness_mm=thickness_mm, index=index)
    return shape * power_factor(back_vertex_power_d=back_vertex_power_d, pupil_distance_mm=pupil_distance_mm)


def eyes_seen(*, power_d: float, vertex_mm: float) -> float:
    """How large the wearer's eye looks to someone at a distance, against its real size.

    Parameters: power_d of the lens [D]; vertex_mm from the lens to the eye [mm].
    Returns: ratio, below 1 for smaller.
    Raises: OutOfRange for a distance outside 0 to 50 mm.
    Equation: 1 / (1 - d F), d in metres; the lens as thin, the observer far away. The index has no part in
        it.
    Reference: derived from vergence.
    """
    power("power", power_d)
    distance_m = within("vertex distance", vertex_mm, 0, 50, "mm") / 1000
    return _ratio(distance_m * power_d, power_d)


def _ratio(product: float, power_d: float) -> float:
    if product >= 1:
        raise OutOfRange("power", power_d, -40, power_d / product, "D")
    return 1 / (1 - product)


def size_difference_percent(*, first: float, second: float) -> float:
    """By how much the pictures of the two eyes differ in size, because of their lenses alone.

    Parameters: first, second magnifications.
    Returns: percent of the smaller one, never negative. How large the wearer finds them is another matter: eyes of
        different length may undo it.
    Raises: OutOfRange for a magnification that is not above 0.
    Equation: 100 (larger / smaller - 1).
    Reference: forum-spectacle-magnification (size against the other eye); common practice.
    """
    low, high = sorted((within("magnification", first, 0.01, 100), within("magnification", second, 0.01, 100)))
    return 100 * (high / low - 1)


def pair_difference_percent(
    *,
    right_front_d: float,
    right_power_d: float,
    right_thickness_mm: float,
    left_front_d: float,
    left_power_d: float,
    left_thickness_mm: float,
    index: float,
    pupil_distance_mm: float,
) -> float:
    """By how much the pictures of the two eyes differ in size, both lenses at one distance from their pupils.

    Parameters: front surface powers, back vertex powers [D] and centre thicknesses [mm] of both lenses; index of
        their material; pupil_distance_mm from the back of each lens to the entrance pupil [mm].
    Returns: percent of the smaller picture, never negative.
    Raises: OutOfRange as spectacle_magnification.
    Equation: size_difference_percent of both spectacle magnifications. A distance that is not known exactly is the
        same for both eyes, so a range of it must not be taken apart.
    Reference: forum-spectacle-magnification (size against the other eye); common practice.
    """
    first, second = (
        spectacle_magnification(
            front_power_d=front,
            back_vertex_power_d=power,
            thickness_mm=thickness,
            index=index,
            pupil_distance_mm=pupil_distance_mm,
        )
        for front, power, thickness in (
            (right_front_d, right_power_d, right_thickness_mm),
            (left_front_d, left_power_d, left_thickness_mm),
        )
    )
    return size_difference_percent(first=first, second=second)
