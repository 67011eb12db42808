"""What daylight falls on a spectacle lens: an upright plane under sun, sky and ground."""

from __future__ import annotations

from math import cos, radians, sin

import numpy as np

from explainer.errors import OutOfRange
from explainer.optics.formulas.spectrum import FloatArray, Spectrum


def on_lens(
    *,
    direct: Spectrum,
    diffuse: Spectrum,
    elevation_deg: float,
    turn_deg: float,
    ground_share: float,
    sky_share: float = 1.0,
) -> Spectrum:
    """Spectral irradiance on an upright lens in sunshine.

    Parameters: direct, on a plane that faces the sun, and diffuse, on a level plane [W/(m2 nm)], on one grid;
    elevation_deg of the sun, turn_deg of the face away from the sun's bearing [deg], 0 to 90;
    ground_share, reflected by the ground [1]; sky_share, the part of the sky in view that is not hidden [1].
    Returns: irradiance [W/(m2 nm)].
    Raises: OutOfRange for angles outside 0 to 90 deg, shares outside 0 to 1, or two different grids.
    Equation: E = D cos(el) cos(turn) + sky F/2 + ground (D sin(el) + F)/2; an upright plane sees half of an
    evenly bright sky and half of the ground. Brow, frame and lens tilt are not counted.
    Reference: isotropic sky, bird-riordan-1986 with the even-sky term; definition of the view factor 1/2.
    """
    _check_angle("elevation", elevation_deg)
    _check_angle("turn of the face", turn_deg)
    beam, sky = _same_grid(direct, diffuse)
    seen = _share("sky share", sky_share) * sky / 2
    ground = _share("ground share", ground_share) * (beam * sin(radians(elevation_deg)) + sky) / 2
    straight = beam * cos(radians(elevation_deg)) * cos(radians(turn_deg))
    return Spectrum(direct.wavelength_nm, straight + seen + ground)


def in_shade(*, diffuse: Spectrum, sky_share: float) -> Spectrum:
    """Spectral irradiance on an upright lens that sees a part of the blue sky and no sun.

    Parameters: diffuse, on a level plane [W/(m2 nm)]; sky_share, the part of the sky in view not
    hidden [1].
    Returns: irradiance [W/(m2 nm)].
    Raises: OutOfRange for a share outside 0 to 1.
    Equation: E = sky F/2; the shaded ground is not counted.
    Reference: definition of the view factor 1/2.
    """
    return Spectrum(diffuse.wavelength_nm, _share("sky share", sky_share) * diffuse.values / 2)


def under_cloud(
    *, direct: Spectrum, diffuse: Spectrum, elevation_deg: float, cloud_share: float, ground_share: float
) -> Spectrum:
    """Spectral irradiance on an upright lens under closed, evenly bright cloud.

    Parameters: direct, on a plane that faces the sun, and diffuse, on a level plane, both of the clear sky
    [W/(m2 nm)]; elevation_deg of the hidden sun [deg], 0 to 90; cloud_share, what the cloud lets through of
    the light on level ground [1]; ground_share, reflected by the ground [1].
    Returns: irradiance [W/(m2 nm)].
    Raises: OutOfRange for an angle outside 0 to 90 deg, shares outside 0 to 1, or two different grids.
    Equation: E = cloud (1 + ground) (D sin(el) + F)/2; one share for all wavelengths.
    Reference: cloud modification factor, uvimate-guide; definition of the view factor 1/2.
    """
    _check_angle("elevation", elevation_deg)
    beam, sky = _same_grid(direct, diffuse)
    level = beam * sin(radians(elevation_deg)) + sky
    seen = _share("cloud share", cloud_share) * (1 + _share("ground share", ground_share)) / 2
    return Spectrum(direct.wavelength_nm, seen * level)


def _check_angle(name: str, angle_deg: float) -> None:
    if not 0 <= angle_deg <= 90:
        raise OutOfRange(name, angle_deg, 0, 90, "deg")


def _share(name: str, share: float) -> float:
    if not 0 <= share <= 1:
        raise OutOfRange(name, share, 0, 1, "")
    return share


def _same_grid(first: Spectrum, second: Spectrum) -> tuple[FloatArray, FloatArray]:
    if not np.array_equal(first.wavelength_nm, second.wavelength_nm):
        raise OutOfRange("grid of the second spectrum", "different", first.low_nm, first.high_nm, "nm")
    return first.values, second.values
