"""The boxing system: where the lens must be centred, and how large the uncut lens must be.

Distances in mm. Decentration counts positive inward, towards the nose.
"""

from __future__ import annotations

from explainer.optics.formulas.ranges import within


def frame_pd(*, a_mm: float, dbl_mm: float) -> float:
    """Distance between the two box centres.

    Parameters: a_mm width of the lens box [mm]; dbl_mm distance between the lenses [mm].
    Returns: frame centre distance [mm].
    Raises: OutOfRange for a box outside 20 to 90 mm, or a bridge outside 5 to 40 mm.
    Equation: A + DBL.
    Reference: boxing-slides.
    """
    return within("box width", a_mm, 20, 90, "mm") + within("distance between lenses", dbl_mm, 5, 40, "mm")


def decentration(*, a_mm: float, dbl_mm: float, pd_mm: float) -> float:
    """How far inward each optical centre lies from its box centre, from the whole pupil distance.

    Parameters: a_mm, dbl_mm of the frame [mm]; pd_mm distance between the pupils [mm].
    Returns: decentration of each lens [mm], positive inward.
    Raises: OutOfRange for a frame or pupil distance outside its range (40 to 85 mm).
    Equation: (A + DBL - PD) / 2; right for each eye only if the face is symmetrical.
    Reference: decentration-quiz.
    """
    return (frame_pd(a_mm=a_mm, dbl_mm=dbl_mm) - within("pupil distance", pd_mm, 40, 85, "mm")) / 2


def monocular_decentration(*, a_mm: float, dbl_mm: float, monocular_pd_mm: float) -> float:
    """How far inward the optical centre lies from its box centre, from one eye's own pupil distance.

    Parameters: a_mm, dbl_mm of the frame [mm]; monocular_pd_mm from the middle of the nose to the pupil [mm].
    Returns: decentration of that lens [mm], positive inward.
    Raises: OutOfRange for a frame or pupil distance outside its range (18 to 45 mm).
    Equation: (A + DBL) / 2 - PD of that eye.
    Reference: decentration-quiz; board-review-notes (arithmetic only).
    """
    own = within("pupil distance of one eye", monocular_pd_mm, 18, 45, "mm")
    return frame_pd(a_mm=a_mm, dbl_mm=dbl_mm) / 2 - own


def points_apart(*, pd_mm: float) -> float:
    """How far apart the points of a pair belong that show the prescribed prism.

    Parameters: pd_mm distance between the pupils at the distance the pair is for [mm].
    Returns: the same distance [mm].
    Raises: OutOfRange for a pupil distance outside 20 to 100 mm.
    Equation: none; each point stands before its pupil.
    Reference: common practice.
    """
    return within("pupil distance", pd_mm, 20, 100, "mm")


def minimum_uncut(*, ed_mm: float, decentration_mm: float, allowance_mm: float = 0.0) -> float:
    """Diameter of the smallest uncut lens that covers the shape, when only the effective diameter is known.

    Parameters: ed_mm effective diameter [mm]; decentration_mm of one lens, either way [mm]; allowance_mm for
        edging [mm].
    Returns: diameter [mm]; an upper bound, exact from a traced shape only.
    Raises: OutOfRange for an ED outside 20 to 100 mm, or an allowance outside 0 to 5 mm.
    Equation: ED + 2 |d| + allowance. The 2 makes a diameter of one lens; it does not count the two eyes.
    Reference: decentration-quiz.
    """
    within("effective diameter", ed_mm, 20, 100, "mm")
    within("decentration", decentration_mm, -30, 30, "mm")
    return ed_mm + 2 * abs(decentration_mm) + within("allowance", allowance_mm, 0, 5, "mm")


def height_above_datum(*, height_mm: float, b_mm: float) -> float:
    """Height above the middle line of the box, from the height above the lowest rim point.

    Parameters: height_mm segment or fitting height above the lowest rim point [mm]; b_mm box height [mm].
    Returns: height above the datum line [mm], negative below it.
    Raises: OutOfRange for a box height outside 15 to 80 mm, or a height outside the box.
    Equation: h - B / 2.
    Reference: decentration-quiz.
    """
    within("box height", b_mm, 15, 80, "mm")
    return within("height above the lowest rim point", height_mm, 0, b_mm, "mm") - b_mm / 2


def segment_inset(*, distance_pd_mm: float, near_pd_mm: float) -> float:
    """How far inward each near part lies from the distance centre.

    Parameters: distance_pd_mm, near_pd_mm between the pupils [mm].
    Returns: inset of each lens [mm].
    Raises: OutOfRange for a pupil distance outside 40 to 85 mm.
    Equation: (distance PD - near PD) / 2.
    Reference: board-review-notes (arithmetic only).
    """
    far = within("distance pupil distance", distance_pd_mm, 40, 85, "mm")
    return (far - within("near pupil distance", near_pd_mm, 40, 85, "mm")) / 2


def total_inset(*, a_mm: float, dbl_mm: float, near_pd_mm: float) -> float:
    """How far inward each near part lies from its box centre.

    Parameters: a_mm, dbl_mm of the frame [mm]; near_pd_mm between the pupils [mm].
    Returns: total inset of each lens [mm].
    Raises: OutOfRange for a frame or pupil distance outside its range.
    Equation: (A + DBL - near PD) / 2, the decentration for near.
    Reference: board-review-notes (arithmetic only).
    """
    return decentration(a_mm=a_mm, dbl_mm=dbl_mm, pd_mm=near_pd_mm)
