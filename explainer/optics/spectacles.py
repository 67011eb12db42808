"""What the core is asked about: one wearer's prescription, frame, lens and the finished pair.

Conventions, the same everywhere in the core:

* powers in dioptres [D], plus converges; axis 1 to 180 [deg] after ISO 8429, seen by someone facing the wearer,
  anticlockwise from that observer's right, both eyes alike;
* horizontal prism positive for base in, vertical prism positive for base up [prism dioptre];
* decentration positive inward, towards the nose [mm].

Nothing here checks whether a prescription is plausible; that is the reader's work (explainer.orders).
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

Side = Literal["right", "left"]
SIDES: tuple[Side, Side] = ("right", "left")

Design = Literal["single-vision", "reading", "bifocal", "progressive"]
Material = Literal[
    "hard-resin",
    "polycarbonate",
    "urethane-1.53",
    "high-index-1.60",
    "high-index-1.67",
    "high-index-1.74",
    "crown-glass",
]
TintClass = Literal["clear", "fixed", "photochromic", "photochromic-visible"]
Dye = Literal["ultraviolet", "visible"]
FrameMaterial = Literal["acetate", "nylon", "metal", "titanium", "half-rim", "rimless"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Eye:
    """One eye's power: sphere and cylinder [D], axis [deg], addition [D], prism [prism dioptre]."""

    sphere_d: float
    cylinder_d: float = 0.0
    axis_deg: float | None = None
    add_d: float | None = None
    prism_in_pd: float = 0.0
    prism_up_pd: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Prescription:
    """Both eyes as received from the prescriber, with the vertex distance [mm] if it was written down."""

    right: Eye
    left: Eye
    vertex_mm: float | None = None

    def eye(self, side: Side) -> Eye:
        """The eye of that side."""
        return self.right if side == "right" else self.left


@dataclass(frozen=True, slots=True, kw_only=True)
class Measurements:
    """Where the wearer's pupils are: distances, and fitting heights above the lowest rim point [mm]."""

    pd_mm: float | None = None
    pd_right_mm: float | None = None
    pd_left_mm: float | None = None
    near_pd_mm: float | None = None
    height_right_mm: float | None = None
    height_left_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """The frame by the boxing system [mm], its material, and the traced outlines where there are any.

    An outline is a row of radii [mm] at equal angles, the first at 0 degrees (the observer's right, facing the
    wearer), anticlockwise. The forward (pantoscopic) tilt brings the lower rim to the cheek, wrap the temporal rim of
    each lens to the temple [deg].
    """

    a_mm: float | None = None
    b_mm: float | None = None
    dbl_mm: float | None = None
    ed_mm: float | None = None
    pantoscopic_tilt_deg: float | None = None
    wrap_deg: float | None = None
    material: FrameMaterial | None = None
    own: bool = False
    outline_right_mm: tuple[float, ...] | None = None
    outline_left_mm: tuple[float, ...] | None = None

    def outline(self, side: Side) -> tuple[float, ...] | None:
        """The traced outline of that side, if there is one."""
        return self.outline_right_mm if side == "right" else self.outline_left_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class LensData:
    """What the workshop knows of its own lens. Everything optional; what is given replaces the generic fact.

    Transmittances are luminous transmittances in percent; half-times in seconds at 23 degrees Celsius.
    """

    front_curve_d: float | None = None
    minimum_centre_mm: float | None = None
    minimum_edge_mm: float | None = None
    reference_minimum_centre_mm: float | None = None
    clear_percent: float | None = None
    dark_percent_by_celsius: tuple[tuple[float, float], ...] = ()
    darken_half_s: float | None = None
    fade_half_s: float | None = None

    def of_light(self) -> LensData:
        """The part that the tint depends on, so that one answer serves all lenses that agree in it."""
        return LensData(
            clear_percent=self.clear_percent,
            dark_percent_by_celsius=self.dark_percent_by_celsius,
            darken_half_s=self.darken_half_s,
            fade_half_s=self.fade_half_s,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class LensChoice:
    """The lens in generic words. tint_category 0 to 4 or tint_percent (light let through) describe a fixed tint.

    `dye` says what a light-reactive lens reacts to, if that is known; `balance` the lens that only matches the other.
    """

    design: Design | None = None
    material: Material | None = None
    tint: TintClass | None = None
    tint_colour: str | None = None
    tint_category: int | None = None
    tint_percent: float | None = None
    dye: Dye | None = None
    balance: Side | None = None
    coatings: frozenset[str] = frozenset()
    supplied: LensData = field(default_factory=LensData)


@dataclass(frozen=True, slots=True, kw_only=True)
class LensReading:
    """What was read of one finished lens: powers [D], axis [deg], prism at its reference point [prism dioptre].

    None means: not read. A cylinder or a prism of 0.0 means: looked for, and none found.
    """

    sphere_d: float | None = None
    cylinder_d: float | None = None
    axis_deg: float | None = None
    add_d: float | None = None
    prism_in_pd: float | None = None
    prism_up_pd: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Readings:
    """What was read from the finished pair. A lens not read is None, and so is each length [mm].

    A lens's reference point shows the prescribed prism and belongs before the pupil; its optical centre shows none.
    Where no prism is prescribed the two are the same point. `reference_points_mm` and `optical_centres_mm` are the
    distances between those of both lenses; `reference_point_right_mm` counts from the middle of the bridge; heights
    count from the lowest point of the rim up to the reference point, the fitting cross or the top of the segment.
    """

    right: LensReading | None = None
    left: LensReading | None = None
    reference_points_mm: float | None = None
    optical_centres_mm: float | None = None
    reference_point_right_mm: float | None = None
    reference_point_left_mm: float | None = None
    height_right_mm: float | None = None
    height_left_mm: float | None = None
    centre_thickness_right_mm: float | None = None
    centre_thickness_left_mm: float | None = None

    def eye(self, side: Side) -> LensReading | None:
        """The reading of that side."""
        return self.right if side == "right" else self.left

    def of(self, name: str, side: Side) -> float | None:
        """A length of that side by its name: reference_point, height or centre_thickness [mm]."""
        value: float | None = getattr(self, f"{name}_{side}_mm")
        return value


@dataclass(frozen=True, slots=True, kw_only=True)
class Wearer:
    """What matters of the person to the optics: age at the order's date, uses, whether only one eye sees well."""

    age_years: int | None = None
    uses: frozenset[str] = frozenset()
    first_pair: bool = False
    only_seeing_eye: Side | None = None
    falls: bool = False
    patching: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Spectacles:
    """The whole question put to the core. What is None was not given and is never invented."""

    prescription: Prescription
    measurements: Measurements = field(default_factory=Measurements)
    frame: Frame = field(default_factory=Frame)
    lens: LensChoice = field(default_factory=LensChoice)
    readings: Readings | None = None
    previous: Prescription | None = None
    wearer: Wearer = field(default_factory=Wearer)
