"""Arithmetic that the tests do by hand, from textbooks, and ways to put the program's formulas to published numbers."""

from __future__ import annotations

import math

import numpy as np

from explainer.optics.formulas.dye import Real
from explainer.optics.formulas.lens_body import LensForm
from explainer.optics.formulas.power_vector import lens_of_vector, vector_of
from explainer.optics.formulas.prescription import SpheroCylinder
from explainer.optics.formulas.shape import Outline, outline_from_box
from explainer.optics.formulas.spectrum import FloatArray, Spectrum
from explainer.optics.formulas.surface import toric_sag_mm
from explainer.optics.formulas.thickness import CutLens, cut_lens


def sphere_sag_mm(*, power_d: float, index: float, height_mm: float) -> float:
    """The program's torus with two equal curves, for tables of spherical sags."""
    return _sag(power_d / (1000 * (index - 1)), height_mm)


def edge_thickness_mm(
    *, centre_mm: float, front_curvature_per_mm: float, back_curvature_per_mm: float, height_mm: float
) -> float:
    """Edge of a centred lens: centre less front sag plus back sag (curvatures positive for a meniscus)."""
    return centre_mm - _sag(front_curvature_per_mm, height_mm) + _sag(back_curvature_per_mm, height_mm)


def _sag(curvature_per_mm: float, height_mm: float) -> float:
    depth = toric_sag_mm(
        x_mm=np.array([height_mm]),
        y_mm=np.array([0.0]),
        base_curvature_per_mm=curvature_per_mm,
        cross_curvature_per_mm=curvature_per_mm,
        base_meridian_deg=0.0,
    )
    return float(depth[0])


def round_lens(
    *,
    diameter_mm: float,
    sphere_d: float,
    index: float,
    front_power_d: float,
    minimum_centre_mm: float,
    minimum_edge_mm: float,
) -> CutLens:
    """A round, centred, spherical lens, as textbooks calculate it, cut by the program."""
    return cut_lens(
        outline=outline_from_box(a_mm=diameter_mm, b_mm=diameter_mm, ed_mm=diameter_mm),
        form=LensForm(side="right", sphere_d=sphere_d, index=index, front_power_d=front_power_d),
        minimum_centre_mm=minimum_centre_mm,
        minimum_edge_mm=minimum_edge_mm,
    )


def meniscus_volume_cm3(
    *, front_power_d: float, back_power_d: float, index: float, centre_mm: float, diameter_mm: float
) -> float:
    """Closed formula: cylinder of the edge, plus the cap in front, less the hollow behind (school geometry)."""
    half = diameter_mm / 2
    front, hollow = (_cap_height(power, index, half) for power in (front_power_d, -back_power_d))
    edge = centre_mm - front + hollow
    return (math.pi * half**2 * edge + _cap_volume(front, half) - _cap_volume(hollow, half)) / 1000


def _cap_height(power_d: float, index: float, half_mm: float) -> float:
    if power_d == 0:
        return 0.0
    radius = 1000 * (index - 1) / power_d
    return radius - math.copysign(math.sqrt(radius**2 - half_mm**2), radius)


def _cap_volume(height_mm: float, half_mm: float) -> float:
    return math.pi * height_mm * (3 * half_mm**2 + height_mm**2) / 6


def mirrored(outline: Outline) -> Outline:
    """Left and right exchanged, still anticlockwise."""
    return Outline(tuple(-x for x in reversed(outline.x_mm)), tuple(reversed(outline.y_mm)))


def added(first: SpheroCylinder, second: SpheroCylinder) -> SpheroCylinder:
    """Two thin lenses in contact: their power vectors add (Thibos 1994)."""
    a, b = vector_of(first), vector_of(second)
    return lens_of_vector(m_d=a.m_d + b.m_d, j0_d=a.j0_d + b.j0_d, j45_d=a.j45_d + b.j45_d)


def band_integral(spectrum: Spectrum, *, low_nm: float, high_nm: float) -> float:
    """The integral over a band by the trapezium rule, on the spectrum's own grid."""
    grid = _grid(low_nm, high_nm, spectrum)
    return float(np.trapezoid(spectrum.at(grid), grid))


def weighted_mean(spectrum: Spectrum, *, weight: Spectrum, low_nm: float, high_nm: float) -> float:
    """The mean over a band, each wavelength counted by a weight (the form of EN 410)."""
    grid = _grid(low_nm, high_nm, spectrum, weight)
    shares = weight.at(grid)
    return float(np.trapezoid(spectrum.at(grid) * shares, grid) / np.trapezoid(shares, grid))


def _grid(low_nm: float, high_nm: float, *spectra: Spectrum) -> FloatArray:
    points = np.concatenate([each.wavelength_nm for each in spectra])
    return np.unique(np.concatenate([[low_nm], points[(points > low_nm) & (points < high_nm)], [high_nm]]))


def share_rate(*, share: Real, colouring_rate: Real, fade_rate: Real) -> Real:
    """The right-hand side of the rate equation, first order both ways: dd/dt = a (1 - d) - k d."""
    return colouring_rate * (1.0 - np.asarray(share)) - fade_rate * np.asarray(share)


def share_after(*, seconds: Real, start: Real, colouring_rate: Real, fade_rate: Real) -> Real:
    """Its solution: d = d_ss + (d_0 - d_ss) exp(-(a + k) t)."""
    settled = colouring_rate / (colouring_rate + fade_rate)
    return settled + (np.asarray(start) - settled) * np.exp(-(colouring_rate + fade_rate) * np.asarray(seconds))
