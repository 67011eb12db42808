"""FHIR Bundles of R4, R4B and R5: every VisionPrescription in one is an order of its own, other resources are left.

Source of the fields and of the types: HL7 FHIR, resource Bundle. Of a patient or prescriber nothing is read.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from explainer.errors import Fault, InputError
from explainer.orders.values.validate import described

_READ = ("document", "message", "transaction", "batch", "searchset", "collection")
_WRITES = ("POST", "PUT")
_ACCEPTED = "a Bundle that brings resources as they stand now: " + ", ".join(_READ)


def is_bundle(data: Mapping[str, Any]) -> bool:
    """Whether a JSON object is a FHIR Bundle."""
    return data.get("resourceType") == "Bundle"


def prescriptions(data: Mapping[str, Any], *, source: str) -> Iterator[tuple[str, dict[str, Any] | Fault]]:
    """Each VisionPrescription with its place, or what is wrong with its entry; a Bundle without any is refused."""
    faults: list[Fault] = []
    kind, listed = data.get("type"), data.get("entry")
    if kind not in _READ:
        faults.append(Fault("type", described(kind), _ACCEPTED))
    if "implicitRules" in data:
        faults.append(Fault("implicitRules", "an element that changes the meaning", "a Bundle without it"))
    if not isinstance(listed, list) or not listed:
        faults.append(Fault("entry", described(listed), "a list with at least one VisionPrescription"))
    elif not any(_is_prescription(item) for item in listed):
        faults.append(Fault("entry", "no VisionPrescription", "at least one VisionPrescription"))
    if faults or not isinstance(listed, list):
        raise InputError(source, faults)
    return _found(listed)


def warnings(data: Mapping[str, Any]) -> tuple[str, ...]:
    """What to look at for every order of the Bundle: whether it is one page of a longer answer."""
    links = data.get("link")
    relations = [link.get("relation") for link in links if isinstance(link, Mapping)] if isinstance(links, list) else []
    return ("this Bundle is one page of a longer answer; orders may stand on the next",) if "next" in relations else ()


def _found(listed: list[Any]) -> Iterator[tuple[str, dict[str, Any] | Fault]]:
    for index, item in enumerate(listed):
        place = f"entry[{index}]"
        if not isinstance(item, Mapping):
            yield place, Fault("entry", described(item), "an object with a resource")
            continue
        resource = item.get("resource")
        request = item.get("request")
        method = request.get("method") if isinstance(request, Mapping) else None
        kind = resource.get("resourceType") if isinstance(resource, Mapping) else None
        if kind == "Bundle":
            yield place, Fault("resource", "a Bundle inside the Bundle", "resources side by side")
        elif kind != "VisionPrescription" or not isinstance(resource, dict):
            continue
        elif "modifierExtension" in item:
            yield place, Fault("modifierExtension", "an extension that changes the meaning", "an entry without it")
        elif method is not None and method not in _WRITES:
            yield place, Fault("request.method", described(method), "POST or PUT, or no request")
        else:
            yield place, resource


def _is_prescription(item: object) -> bool:
    resource = item.get("resource") if isinstance(item, Mapping) else None
    return isinstance(resource, Mapping) and resource.get("resourceType") in ("VisionPrescription", "Bundle")
