"""One lensSpecification of a FHIR VisionPrescription, with value sets and sense checked here.

Source of the field list and its value sets: HL7 FHIR, resource VisionPrescription, releases R4, R4B and R5 (the
fields read here are the same in all three). FHIR itself has no rule that a cylinder needs an axis.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, NamedTuple

from explainer.errors import Fault, InputError
from explainer.optics.spectacles import Side
from explainer.orders.notation.fields import Numbers, PrismField, reading_of
from explainer.orders.notation.reading import Reading, written
from explainer.orders.values.validate import described

PRODUCTS = "http://terminology.hl7.org/CodeSystem/ex-visionprescriptionproduct"
_CONTACT_ONLY = ("power", "backCurve", "diameter", "duration", "color")
_READ = ("eye", "product", "sphere", "cylinder", "axis", "prism", "add")
_IGNORED = ("id", "extension", "brand", "note")


class Lens(NamedTuple):
    """One eye of a FHIR prescription, and what the optician should look at."""

    side: Side
    reading: Reading
    warnings: tuple[str, ...]


def lens(raw: object, *, field: str, any_step: bool = False, fragment: bool = False) -> Lens:
    """Read one lens. A `fragment` typed by hand may leave the product out."""
    faults: list[Fault] = []
    if not isinstance(raw, Mapping):
        raise InputError(field, [Fault(field, described(raw), "an object, one for each eye")])
    _check_product(raw, field, fragment, faults)
    _check_names(raw, field, faults)
    side = raw.get("eye")
    if side not in ("right", "left"):
        faults.append(Fault(f"{field}.eye", described(side), "right or left"))
    values, warnings = _values(raw, field, faults)
    if faults or side not in ("right", "left"):
        raise InputError(field, faults)
    eye: Side = "right" if side == "right" else "left"
    reading = reading_of(values, side=eye, field=field, any_step=any_step)
    if raw.get("note"):
        warnings.append(f"the note beside the {eye} lens is not read; look at it")
    return Lens(eye, replace(reading, received=written(replace(reading, side=None))), tuple(warnings))


def _check_names(raw: Mapping[str, Any], field: str, faults: list[Fault]) -> None:
    for name in raw:
        if name in _CONTACT_ONLY:
            faults.append(Fault(f"{field}.{name}", "a field of contact lenses", "a spectacle lens"))
        elif name == "modifierExtension":
            faults.append(Fault(f"{field}.{name}", "an extension that changes the meaning", "a lens without it"))
        elif name not in _READ and name not in _IGNORED:
            faults.append(Fault(f"{field}.{name}", "a field that is not known", f"only {' '.join(_READ)}"))


def _check_product(raw: Mapping[str, Any], field: str, fragment: bool, faults: list[Fault]) -> None:
    product = raw.get("product")
    if isinstance(product, str) and fragment:
        codes: list[object] = [product]
    elif isinstance(product, Mapping) and isinstance(product.get("coding"), list):
        codings = [coding for coding in product["coding"] if isinstance(coding, Mapping)]
        codes = [coding.get("code") for coding in codings if coding.get("system", PRODUCTS) == PRODUCTS]
    else:
        codes = []
    if fragment and product is None:
        return
    if "contact" in codes:  # nothing else of it matters then
        accepted = "a spectacle lens; contact lenses are not read"
        raise InputError(field, [Fault(f"{field}.product", "contact", accepted)])
    if codes != ["lens"]:
        found = described(codes[0]) if codes else "no product of the standard's example code system"
        faults.append(Fault(f"{field}.product", found, f"the code lens of {PRODUCTS}"))


def _values(raw: Mapping[str, Any], field: str, faults: list[Fault]) -> tuple[Numbers, list[str]]:
    warnings: list[str] = []
    axis = raw.get("axis")
    if axis is not None and (isinstance(axis, bool) or not isinstance(axis, int) or not -180 <= axis <= 180):
        faults.append(Fault(f"{field}.axis", described(axis), "whole degrees as a number, 0 to 180"))
        axis = None
    elif axis is not None and axis < 0:
        axis += 180  # the standard allows -180 to 180; half a turn further lies the same line
        warnings.append(f"{field}.axis was negative; the same line is axis {axis or 180}")
    numbers = {name: _number(raw.get(name), f"{field}.{name}", faults) for name in ("sphere", "cylinder", "add")}
    prism = _prisms(raw.get("prism"), f"{field}.prism", faults)
    return Numbers(numbers["sphere"], numbers["cylinder"], axis, numbers["add"], prism), warnings


def _number(value: object, field: str, faults: list[Fault]) -> float | None:
    if value is None:
        return None
    if isinstance(value, bool) or not isinstance(value, (int, float)) or abs(value) > 1e6:
        faults.append(Fault(field, described(value), "a number, not a text"))
        return None
    return float(value)


def _prisms(value: object, field: str, faults: list[Fault]) -> tuple[PrismField, ...]:
    if value is None:
        return ()
    if not isinstance(value, list):
        faults.append(Fault(field, described(value), "a list of prisms, each with amount and base"))
        return ()
    found = []
    for i, item in enumerate(value):
        place = f"{field}[{i}]"
        if not isinstance(item, Mapping) or set(item) - {"amount", "base", "id", "extension"}:
            faults.append(Fault(place, described(item), "an object with amount and base"))
            continue
        amount = _number(item.get("amount"), f"{place}.amount", faults)
        base = item.get("base")
        if base not in ("in", "out", "up", "down"):
            faults.append(Fault(f"{place}.base", described(base), "in, out, up or down"))
        elif amount is None:
            faults.append(Fault(f"{place}.amount", "no number", "the amount in prism dioptres"))
        else:
            found.append(PrismField(amount, str(base)))
    return tuple(found)
