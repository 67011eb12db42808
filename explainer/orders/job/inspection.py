"""Inspection values of a job file. They are bench readings only if the order says so, by naming the file in [bench].

One label, two meanings: a laboratory's system sends inspection values as what the lens should show, a lensmeter writes
under the same labels what it has read. A leaflet must never call the one the other. So the optician decides, and values
that merely repeat the computed values of the lens design are refused as readings.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from explainer.errors import Fault, InputError
from explainer.optics.spectacles import SIDES, LensReading, Readings, Side
from explainer.orders.job.records import Records
from explainer.orders.notation.prism import from_angle

_SAME_D = 0.0051


@dataclass(frozen=True, slots=True, kw_only=True)
class Inspected:
    """What the file says was, or should be, seen at inspection; `computed`: it repeats the design's own values."""

    eyes: dict[Side, LensReading] = field(default_factory=dict)
    thickness_mm: dict[Side, float] = field(default_factory=dict)
    computed: bool = False
    faults: tuple[Fault, ...] = ()

    def readings(self, name: str) -> Readings:
        """The values as bench readings, or a refusal."""
        if self.faults:
            raise InputError(name, list(self.faults))
        if self.computed:
            found = "inspection values that repeat the computed values of the lens design"
            raise InputError(name, [Fault("INSSPH", found, "values read from the finished pair")])
        return Readings(
            right=self.eyes.get("right"),
            left=self.eyes.get("left"),
            centre_thickness_right_mm=self.thickness_mm.get("right"),
            centre_thickness_left_mm=self.thickness_mm.get("left"),
        )


def inspected(found: Records) -> Inspected | None:
    """The inspection values of both eyes, None if there are none. Their faults matter only if they are used."""
    if not any(label.startswith("INS") for label in found.values):
        return None
    own = Records(found.source, found.values)
    _check_components(own)
    spheres = own.numbers("INSSPH", -30, 30, "D")
    eyes = {side: _eye(own, place, side) for place, side in enumerate(SIDES) if spheres[place] is not None}
    thickness = dict(zip(SIDES, own.numbers("INSCTHK", 0.3, 30), strict=True))
    if not eyes:
        own.fault("INSSPH", "nothing", "the sphere that was read, of at least one eye")
    return Inspected(
        eyes=eyes,
        thickness_mm={side: value for side, value in thickness.items() if value is not None},
        computed=_repeats_design(own),
        faults=tuple(own.faults),
    )


def _eye(own: Records, place: int, side: Side) -> LensReading:
    """What the records hold of one lens; a record that is not there was not read."""
    sphere = own.numbers("INSSPH", -30, 30, "D")[place]
    cylinder = own.numbers("INSCYL", -15, 15, "D")[place]
    axis = own.numbers("INSAX", 0, 180, "degrees")[place]
    add = own.numbers("INSADD", 0, 6, "D")[place]
    if cylinder and axis is None:
        own.fault("INSAX", "nothing", "the axis of the cylinder that was read")
    sideways, upright = _prism(own, place, side)
    return LensReading(
        sphere_d=sphere,
        cylinder_d=cylinder,
        axis_deg=(axis or 180.0) if cylinder and axis is not None else None,
        add_d=add or None,
        prism_in_pd=sideways,
        prism_up_pd=upright,
    )


def _prism(own: Records, place: int, side: Side) -> tuple[float | None, float | None]:
    """A prism by amount and base is read in both directions, and so is one of no amount."""
    amount = own.numbers("INSPRPRVM", 0, 25, "prism dioptres")[place]
    base = own.numbers("INSPRPRVA", 0, 360, "degrees")[place]
    if amount and base is None:
        own.fault("INSPRPRVA", "nothing", "the base of the prism that was read")
    if amount is None:
        return (None, None)
    found = from_angle(amount, base or 0.0, side)
    return (found.in_pd or 0.0, found.up_pd or 0.0)


def _check_components(own: Records) -> None:
    for label in ("INSPRPRVH", "INSPRPRVV"):
        if any(own.numbers(label, -25, 25, "prism dioptres")):
            own.fault(label, "a prism by components", "INSPRPRVM with INSPRPRVA, its amount and base")


def _repeats_design(own: Records) -> bool:
    """Whether sphere and cylinder of both eyes are to the hundredth those that the design was computed to have."""
    pairs = (("INSSPH", "LDDRSPH"), ("INSCYL", "LDDRCYL"))
    values = [
        (read, computed)
        for one, other in pairs
        for read, computed in zip(own.numbers(one, -30, 30, "D"), own.numbers(other, -40, 40, "D"), strict=True)
    ]
    return all(
        read is not None and computed is not None and abs(read - computed) <= _SAME_D for read, computed in values
    )
