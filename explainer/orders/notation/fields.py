"""A prescription given as numbers in named fields, by a TOML or JSON order or by FHIR, checked for sense.

A number in a field carries its own sign: sphere = 1.25 is plus. Only written text can lose a sign on the way.
"""

from __future__ import annotations

from typing import NamedTuple

from explainer.errors import Fault, InputError
from explainer.optics.spectacles import Side
from explainer.orders.notation.numbers import MOST_ADD_D, MOST_POWER_D, MOST_PRISM_PD, is_step
from explainer.orders.notation.prism import Prism, from_angle, from_word, joined
from explainer.orders.notation.reading import Reading

_STEPS = "in steps of 0.25 or 0.125 D; if it is meant, confirmed_steps = true in [prescription] of the order"


class PrismField(NamedTuple):
    """A prism's amount [prism dioptre] and its base: in, out, up, down, or an angle of 0 to 360 [deg]."""

    amount: float
    base: str | float


class Numbers(NamedTuple):
    """One eye's prescription as numbers [D], axis [deg]; None: not given."""

    sphere: float | None
    cylinder: float | None = None
    axis: float | None = None
    add: float | None = None
    prism: tuple[PrismField, ...] = ()


def reading_of(values: Numbers, *, side: Side, field: str, any_step: bool = False) -> Reading:
    """The reading of these numbers, or every fault in them."""
    faults: list[Fault] = []
    _check_powers(values, field, any_step, faults)
    _check_axis(values, field, faults)
    prism = _prism(values.prism, side, field, faults)
    if faults:
        raise InputError(field, faults)
    return Reading(
        side=side,
        sphere_d=_no_minus_zero(values.sphere),
        cylinder_d=_no_minus_zero(values.cylinder),
        axis_deg=(float(values.axis) or 180.0) if values.cylinder and values.axis is not None else None,
        add_d=values.add,
        prism_in_pd=prism.in_pd or 0.0,
        prism_up_pd=prism.up_pd or 0.0,
    )


def _check_powers(values: Numbers, field: str, any_step: bool, faults: list[Fault]) -> None:
    if values.sphere is None:
        faults.append(Fault(f"{field}.sphere", "nothing", "the sphere, 0 if it is plano"))
    for name, value in (("sphere", values.sphere), ("cylinder", values.cylinder), ("add", values.add)):
        if value is None:
            continue
        if name == "add" and not 0 < value <= MOST_ADD_D:
            faults.append(Fault(f"{field}.add", f"{value:g}", f"an addition above 0 and up to {MOST_ADD_D:g} D"))
        elif abs(value) > MOST_POWER_D:
            faults.append(Fault(f"{field}.{name}", f"{value:g}", f"a power of at most {MOST_POWER_D:g} D"))
        elif not (any_step or is_step(value)):
            faults.append(Fault(f"{field}.{name}", f"{value:g}", f"a power {_STEPS}"))


def _check_axis(values: Numbers, field: str, faults: list[Fault]) -> None:
    axis = values.axis
    if axis is not None and not (0 <= axis <= 180 and float(axis * 2).is_integer()):
        faults.append(Fault(f"{field}.axis", f"{axis:g}", "an axis of 0 to 180 in whole or half degrees"))
    elif values.cylinder and axis is None:
        faults.append(Fault(f"{field}.axis", "nothing", "the axis of the cylinder"))
    elif not values.cylinder and axis is not None and not (values.cylinder == 0 and axis in (0, 180)):
        faults.append(Fault(f"{field}.axis", f"{axis:g}", "a cylinder with this axis, or no axis"))


def _prism(prisms: tuple[PrismField, ...], side: Side, field: str, faults: list[Fault]) -> Prism:
    together = Prism(None, None)
    for i, (amount, base) in enumerate(prisms):
        if not 0 < amount <= MOST_PRISM_PD:
            accepted = f"above 0 and up to {MOST_PRISM_PD:g} prism dioptres; the base gives the direction"
            faults.append(Fault(f"{field}.prism[{i}].amount", f"{amount:g}", accepted))
            continue
        found = from_word(amount, base) if isinstance(base, str) else from_angle(amount, base, side)
        both = joined(together, found)
        if both is None:
            accepted = "at most one horizontal and one vertical prism for an eye"
            faults.append(Fault(f"{field}.prism[{i}].base", "the same direction again", accepted))
        else:
            together = both
    return together


def _no_minus_zero(value: float | None) -> float | None:
    return None if value is None else float(value) + 0.0
