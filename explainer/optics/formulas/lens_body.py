"""The body of one lens: a spherical front, and a toric back that gives the prescription, tilted for prism.

Places are measured from the point before the pupil, x to the observer's right, y up; depth runs from the
vertex of the front towards the eye. The prescription is met at that point, along the lens axis; away from it
this simple toric form is what it is, and an aspheric or individual surface differs.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from explainer.errors import OutOfRange
from explainer.optics.formulas import ranges
from explainer.optics.formulas.dial import Side, nasal_sign
from explainer.optics.formulas.surface import (
    Array,
    back_surface_power_d,
    curvature_from_power,
    toric_sag_mm,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class LensForm:
    """What a lens has to do and what it is made of, without its thickness.

    Powers [D] and axis [deg] as prescribed (back vertex powers); prism [prism dioptre] positive for base in
    and base up; front_power_d is the true surface power of the front in this index.
    """

    side: Side
    sphere_d: float
    cylinder_d: float = 0.0
    axis_deg: float | None = None
    prism_in_pd: float = 0.0
    prism_up_pd: float = 0.0
    index: float
    front_power_d: float

    def __post_init__(self) -> None:
        ranges.index(self.index)
        for name, power_d in (
            ("sphere", self.sphere_d),
            ("cylinder", self.cylinder_d),
            ("front", self.front_power_d),
        ):
            ranges.power(name, power_d)
        if self.cylinder_d and self.axis_deg is None:
            raise OutOfRange("axis of a cylinder", None, 0, 180, "deg")
        ranges.within("axis", self.axis_deg or 0.0, 0, 180, "deg")


@dataclass(frozen=True, slots=True, kw_only=True)
class LensBody:
    """The two surfaces of a lens and their distance; slopes are those of the tilted back, per mm."""

    index: float
    front_power_d: float
    back_along_d: float
    back_across_d: float
    axis_deg: float
    centre_mm: float
    slope_x: float
    slope_y: float

    def front_mm(self, x_mm: Array, y_mm: Array) -> Array:
        """Depth of the front surface [mm]."""
        curve = curvature_from_power(power_d=self.front_power_d, index=self.index)
        return toric_sag_mm(
            x_mm=x_mm,
            y_mm=y_mm,
            base_curvature_per_mm=curve,
            cross_curvature_per_mm=curve,
            base_meridian_deg=0.0,
            surface=f"front curve of {self.front_power_d:+.2f} D",
        )

    def back_mm(self, x_mm: Array, y_mm: Array) -> Array:
        """Depth of the back surface [mm]: the flatter curve is swept (tyre form), the tilt is a shear."""
        along = -curvature_from_power(power_d=self.back_along_d, index=self.index)
        across = -curvature_from_power(power_d=self.back_across_d, index=self.index)
        flat_along = abs(along) <= abs(across)
        sag = toric_sag_mm(
            x_mm=x_mm,
            y_mm=y_mm,
            base_curvature_per_mm=along if flat_along else across,
            cross_curvature_per_mm=across if flat_along else along,
            base_meridian_deg=self.axis_deg if flat_along else self.axis_deg + 90,
            surface=f"back curves of {self.back_along_d:+.2f} and {self.back_across_d:+.2f} D",
        )
        depth: Array = self.centre_mm + sag + self.slope_x * x_mm + self.slope_y * y_mm
        return depth

    def thickness_mm(self, x_mm: Array, y_mm: Array) -> Array:
        """Thickness along the axis [mm]."""
        thickness: Array = self.back_mm(x_mm, y_mm) - self.front_mm(x_mm, y_mm)
        return thickness


def lens_body(*, form: LensForm, centre_mm: float) -> LensBody:
    """The body that meets a prescription with a given centre thickness.

    Parameters: form the prescription, index and front curve; centre_mm thickness before the pupil [mm].
    Returns: the body.
    Raises: OutOfRange for a centre thickness outside 0.1 to 60 mm, or a front that focuses inside the lens.
    Equation: back surface power for each principal meridian from the back vertex power; the power S acts
        along the axis, S + C across it. The whole back is tilted so that the prism stands at the centre.
    Reference: back-vertex-power-problems; exam-guide-transposition (which meridian the sphere acts in).
    """
    ranges.within("centre thickness", centre_mm, 0.1, 60, "mm")

    def back(power_d: float) -> float:
        return back_surface_power_d(
            back_vertex_power_d=power_d,
            front_power_d=form.front_power_d,
            index=form.index,
            centre_mm=centre_mm,
        )

    inward, upward = wedge(prism_in_pd=form.prism_in_pd, prism_up_pd=form.prism_up_pd, index=form.index)
    return LensBody(
        index=form.index,
        front_power_d=form.front_power_d,
        back_along_d=back(form.sphere_d),
        back_across_d=back(form.sphere_d + form.cylinder_d),
        axis_deg=form.axis_deg or 180.0,
        centre_mm=centre_mm,
        slope_x=nasal_sign(form.side) * inward,
        slope_y=upward,
    )


def wedge(*, prism_in_pd: float, prism_up_pd: float, index: float) -> tuple[float, float]:
    """How much thicker a lens grows towards the base of its prism.

    Parameters: prism_in_pd, prism_up_pd [prism dioptre], positive for base in and base up; index of the lens.
    Returns: thickness gained per mm inward and per mm upward [mm/mm].
    Raises: OutOfRange for more than 30 prism dioptres or an impossible index.
    Equation: a ray along the axis meets the tilted back at the angle a and is bent by d, tan d = P / 100:
        sin(a + d) = n sin a, so tan a = sin d / (n - cos d). To first order this is P / (100 (n - 1)).
    Reference: derived from Snell's law.
    """
    ranges.index(index)
    prism = ranges.within("prism", math.hypot(prism_in_pd, prism_up_pd), 0, 30, "prism dioptre")
    if prism == 0:
        return 0.0, 0.0
    deviation = math.atan(prism / 100)
    slope = math.sin(deviation) / (index - math.cos(deviation))
    return slope * prism_in_pd / prism, slope * prism_up_pd / prism
