"""Directions on the dial: axis and nose, and how far two axes are apart.

The dial of ISO 8429: seen by someone facing the wearer, zero at that observer's right, anticlockwise, both
eyes alike. The nose is at the observer's right of the wearer's right eye and at the left of the left eye.
"""

from __future__ import annotations

import math
from typing import Literal

from explainer.errors import OutOfRange

Side = Literal["right", "left"]
End = Literal["nasal", "temporal", "level", "upright"]


def normalise_axis(*, axis_deg: float) -> float:
    """The same axis on the half circle that prescriptions use.

    Parameters: axis_deg any angle [deg], anticlockwise from the observer's right.
    Returns: axis above 0 and up to 180 [deg]; the horizontal is 180, never 0.
    Raises: OutOfRange for what is no finite number.
    Equation: A modulo 180, with 0 written 180; exact.
    Reference: iso-8429-1986 (scale, 0 to 180); exam-guide-transposition (180 for the horizontal).
    """
    if not math.isfinite(axis_deg):
        raise OutOfRange("axis", axis_deg, 0, 180, "deg")
    turned = math.fmod(axis_deg, 180)
    if turned <= 0:
        turned += 180
    return turned


def mirrored_axis(*, axis_deg: float) -> float:
    """The axis as seen from behind the lens, in a mirror, or on the other eye of a mirror pair.

    Parameters: axis_deg axis as seen by someone facing the wearer [deg].
    Returns: axis as the wearer would count it on an anticlockwise dial [deg], above 0 and up to 180.
    Raises: OutOfRange for what is no finite number.
    Equation: 180 - A; exact.
    Reference: derived from the observer's view of iso-8429-1986.
    """
    return normalise_axis(axis_deg=180 - normalise_axis(axis_deg=axis_deg))


def axis_difference(*, first_deg: float, second_deg: float) -> float:
    """The smaller angle between two axes.

    Parameters: first_deg, second_deg axes [deg].
    Returns: 0 to 90 [deg]; between 179 and 1 there are 2.
    Raises: OutOfRange for what is no finite number.
    Equation: d = |A - B| modulo 180, then the lesser of d and 180 - d; exact.
    Reference: derived; an axis is a line, without a head.
    """
    apart = abs(normalise_axis(axis_deg=first_deg) - normalise_axis(axis_deg=second_deg))
    return min(apart, 180 - apart)


def nasal_sign(side: Side) -> int:
    """+1 where the nose is at the observer's right (the wearer's right eye), -1 for the left eye.

    Reference: derived; the observer faces the wearer.
    """
    return 1 if side == "right" else -1
