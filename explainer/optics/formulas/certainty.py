"""Whether a lens can surely be cut, by bounds alone: a few lines of algebra instead of the whole lens.

The answer "no" means only that the bounds do not say so; `thickness.cut_lens` then decides.
"""

from __future__ import annotations

import math

from explainer.optics.formulas.lens_body import LensForm, wedge
from explainer.optics.formulas.surface import back_surface_power_d, curvature_from_power, sag_of_curvature_mm

FARTHEST_MM = 70.0
"""Half the largest uncut lens that the core states [mm]."""

THICKEST_MM = 30.0
"""Beyond this centre thickness the formulas of magnification refuse [mm]; no bound vouches for such a lens."""


def box_reach_mm(*, a_mm: float, b_mm: float, ed_mm: float | None, inward_mm: float, above_mm: float) -> float | None:
    """How far from the pupil any point of an outline made from its box can lie.

    Parameters: a_mm, b_mm box [mm]; ed_mm effective diameter [mm]; inward_mm, above_mm the pupil from the box
        centre [mm].
    Returns: distance [mm]; None when the box is no usual one, the pupil not surely inside the outline, or the
        distance beyond FARTHEST_MM.
    Raises: nothing.
    Equation: half the ED (without one, the 6-norm of the half sides, as outline_from_box does) plus the way
        from the box centre to the pupil. Every such outline holds the ellipse of its box.
    Reference: derived (triangle inequality; superellipses of exponent 2 and more hold the ellipse).
    """
    usual = min(a_mm, b_mm) >= 10 and max(a_mm, b_mm) <= 100
    if not usual or not (ed_mm is None or max(a_mm, b_mm) <= ed_mm <= math.hypot(a_mm, b_mm)):
        return None
    if math.hypot(inward_mm / a_mm, above_mm / b_mm) > 0.49:
        return None
    half = ((a_mm / 2) ** 6 + (b_mm / 2) ** 6) ** (1 / 6) if ed_mm is None else ed_mm / 2
    reach = half + math.hypot(inward_mm, above_mm)
    return reach if reach < FARTHEST_MM else None


def surely_cut(*, form: LensForm, reach_mm: float, minimum_centre_mm: float, minimum_edge_mm: float) -> bool:
    """Whether both surfaces of a lens surely reach its edge, whatever the shape within reach.

    Parameters: form prescription, index, front curve; reach_mm from the pupil to the farthest edge [mm];
        minimum_centre_mm, minimum_edge_mm [mm].
    Returns: yes only when cut_lens cannot refuse.
    Raises: OutOfRange as LensForm and wedge, where cut_lens would too.
    Equation: centre <= T = max(least centre, least edge + front sag + sag of a convex back + wedge), all at
        reach; the back is steepest at T or at the least centre, since F1 / (1 - (t/n) F1) grows with t; a torus
        reaches wherever c r < 1 with its steeper curvature c.
    Reference: derived from the equations of thickness.cut_lens and surface.toric_sag_mm.
    """
    front = curvature_from_power(power_d=form.front_power_d, index=form.index)
    if not 0 <= front * reach_mm < 0.999 or not 0.1 <= minimum_centre_mm <= 20 or not 0.1 <= minimum_edge_mm <= 20:
        return False
    flattest = max(_back_curvatures(form, minimum_centre_mm))
    if flattest * reach_mm >= 0.999:
        return False
    slope = math.hypot(*wedge(prism_in_pd=form.prism_in_pd, prism_up_pd=form.prism_up_pd, index=form.index))
    sags = sum(sag_of_curvature_mm(curvature_per_mm=max(c, 0.0), height_mm=reach_mm) for c in (front, flattest))
    thickest = max(minimum_centre_mm, minimum_edge_mm + sags + slope * reach_mm)
    if thickest > THICKEST_MM or thickest / 1000 / form.index * form.front_power_d >= 0.9:
        return False
    hollow = min(*_back_curvatures(form, thickest), *_back_curvatures(form, minimum_centre_mm))
    return -hollow * reach_mm < 0.999


def _back_curvatures(form: LensForm, centre_mm: float) -> tuple[float, float]:
    """Curvatures of the back along and across the axis [1/mm], positive for a back that bulges to the eye."""
    along, across = (
        back_surface_power_d(
            back_vertex_power_d=power, front_power_d=form.front_power_d, index=form.index, centre_mm=centre_mm
        )
        for power in (form.sphere_d, form.sphere_d + form.cylinder_d)
    )
    return (
        curvature_from_power(power_d=along, index=form.index),
        curvature_from_power(power_d=across, index=form.index),
    )
