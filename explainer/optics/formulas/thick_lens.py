"""Two surfaces and a thickness: the vertex powers and the equivalent power."""

from __future__ import annotations

from explainer.optics.formulas.ranges import index as lens_index
from explainer.optics.formulas.ranges import power, within


def back_vertex_power(*, front_d: float, back_d: float, thickness_mm: float, index: float) -> float:
    """The power a focimeter reads at the back of a lens; spectacle powers are back vertex powers.

    Parameters: front_d, back_d surface powers [D]; thickness_mm centre thickness [mm]; index of the lens.
    Returns: back vertex power [D].
    Raises: OutOfRange for a thickness outside 0 to 30 mm, an index outside 1.4 to 2, or a power beyond 40 D.
    Equation: F'v = F1 / (1 - (t/n) F1) + F2, t in metres; exact for rays near the axis.
    Reference: back-vertex-power-problems; kerr-2010.
    """
    power("back surface power", back_d)
    return _carried_through(front_d, _reduced_m(thickness_mm, index)) + back_d


def front_vertex_power(*, front_d: float, back_d: float, thickness_mm: float, index: float) -> float:
    """The power a focimeter reads at the front of a lens.

    Parameters: front_d, back_d surface powers [D]; thickness_mm centre thickness [mm]; index of the lens.
    Returns: front vertex power [D].
    Raises: OutOfRange as back_vertex_power.
    Equation: Fv = F2 / (1 - (t/n) F2) + F1, t in metres; exact for rays near the axis.
    Reference: nfos-module-11-answers.
    """
    return back_vertex_power(front_d=back_d, back_d=front_d, thickness_mm=thickness_mm, index=index)


def equivalent_power(*, front_d: float, back_d: float, thickness_mm: float, index: float) -> float:
    """The power of the thin lens that would stand in for the thick one.

    Parameters: front_d, back_d surface powers [D]; thickness_mm centre thickness [mm]; index of the lens.
    Returns: equivalent power [D].
    Raises: OutOfRange for a thickness outside 0 to 30 mm, or an index outside 1.4 to 2.
    Equation: F1 + F2 - (t/n) F1 F2, t in metres; exact for rays near the axis.
    Reference: board-review-notes (arithmetic only).
    """
    power("front surface power", front_d)
    power("back surface power", back_d)
    return front_d + back_d - _reduced_m(thickness_mm, index) * front_d * back_d


def _reduced_m(thickness_mm: float, index: float) -> float:
    return within("centre thickness", thickness_mm, 0, 30, "mm") / 1000 / lens_index(index)


def _carried_through(power_d: float, reduced_m: float) -> float:
    """Vergence of light from one surface when it reaches the other; within the limits it never meets a focus."""
    return power("surface power", power_d) / (1 - reduced_m * power_d)
