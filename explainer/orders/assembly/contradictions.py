"""What an order says in two places that cannot both be true. Refused, with what was found and what is accepted."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from explainer.errors import Fault
from explainer.optics import facts
from explainer.optics.formulas.optical_centre import has_centre
from explainer.optics.spectacles import SIDES, LensChoice, Readings, Side
from explainer.orders.assembly.models import LensTable, OrderFile
from explainer.orders.notation.reading import Reading

_ONLY_ON_A_TINT = ("polarising", "mirror")
_NEAR_PART = ("bifocal", "progressive", None)


def tint_faults(table: LensTable) -> Iterator[Fault]:
    """A tint whose category and per cent disagree; a coating that needs a tint, on a lens without one."""
    if table.tint_category is not None and table.tint_percent is not None:
        band = facts.get(f"light.category.{table.tint_category}").interval
        if not band.low <= table.tint_percent <= band.high:
            found = f"{table.tint_percent:g} beside category {table.tint_category}"
            accepted = (
                f"the light let through, {band.low:g} to {band.high:g} in this category, not the light taken away"
            )
            yield Fault("lens.tint_percent", found, accepted)
    tinted = table.tint not in (None, "clear") or table.tint_category is not None or table.tint_percent is not None
    for coating in _ONLY_ON_A_TINT:
        if coating in table.coatings and not tinted:
            accepted = 'tint = "fixed" with its category or per cent, or another coating'
            yield Fault("lens.coatings", f"{coating} on a lens without a tint", accepted)


def contradictions(
    model: OrderFile,
    eyes: Mapping[Side, Reading],
    lens: LensChoice,
    readings: Readings | None,
    faults: list[Fault],
) -> None:
    """Readings of a lens that was not ordered."""
    if model.bench is None or readings is None:
        return
    for side in SIDES:
        read, ordered = readings.eye(side), eyes.get(side)
        if read is None or ordered is None or read.add_d is None:
            continue
        if lens.design not in _NEAR_PART or ordered.add_d is None:
            accepted = "no addition, or a bifocal or progressive lens with one"
            faults.append(Fault(f"bench.{side}", "an addition in a lens that was ordered without one", accepted))
    if readings.optical_centres_mm is not None:
        without = [side for side in SIDES if side in eyes and not _has_centre(eyes[side], lens)]
        if without:
            found = f"a distance of optical centres, but the {' and the '.join(without)} lens has none"
            faults.append(
                Fault("bench.optical_centres_mm", found, "reference_points_mm: a lens without power has no centre")
            )


def _has_centre(eye: Reading, lens: LensChoice) -> bool:
    near = (eye.add_d or 0.0) if lens.design == "reading" else 0.0
    return has_centre(sphere_d=(eye.sphere_d or 0.0) + near, cylinder_d=eye.cylinder_d or 0.0)
