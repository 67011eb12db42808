"""How large the blur of an eye out of focus is."""

from __future__ import annotations

from explainer.optics.formulas.ranges import power, within


def blur_angle_mrad(*, pupil_mm: float, defocus_d: float) -> float:
    """Full extent of the blur of one point, in one meridian.

    Parameters: pupil_mm width of the pupil [mm]; defocus_d missing or surplus power in that meridian [D].
    Returns: angle [mrad].
    Raises: OutOfRange for a pupil outside 1 to 9 mm.
    Equation: pupil times defocus (m times 1/m is radians); geometrical, without diffraction.
    Reference: defocus-encyclopedia (0.057 degrees per mm and D); strasburger-2018 and thibos-2011
        (derivations).
    """
    return within("pupil", pupil_mm, 1, 9, "mm") * abs(power("defocus", defocus_d))
