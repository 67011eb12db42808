"""The rows of the bench table: for each quantity what was ordered, may differ, was read, differs, and the verdict.

Every cell is a claim or empty. An empty cell under "read" is a box to write in.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from explainer.optics.claims.ledger import ClaimSet
from explainer.optics.spectacles import SIDES, Side
from explainer.render.voice import Voice


@dataclass(frozen=True, slots=True)
class Cells:
    """One lens's cells of a row, None where nothing is known yet. `applies`: whether the lens has such a thing."""

    ordered: Markup | None = None
    limit: Markup | None = None
    read: Markup | None = None
    deviation: Markup | None = None
    verdict: str | None = None
    applies: bool = True


@dataclass(frozen=True, slots=True)
class Row:
    """One row: a name of the closed set that the template words, and the cells of each lens."""

    name: str
    lenses: tuple[Cells, ...]


@dataclass(frozen=True, slots=True)
class _Part:
    """Where a row's claims stand below `bench.<eye>.`, and the claims of the order for it, first that exists."""

    name: str
    part: str
    ordered: tuple[str, ...]
    reading: str | None = None


_PARTS = (
    _Part("stronger", "stronger", ("bench.{side}.stronger.ordered",)),
    _Part("weaker", "weaker", ("bench.{side}.weaker.ordered",)),
    _Part("cylinder", "cylinder", ("{side}.made.cylinder",)),
    _Part("axis", "axis", ("{side}.made.axis",)),
    _Part("addition", "add", ("{side}.add",)),
    _Part("prism_in", "prism", ("{side}.prism.horizontal",), reading="prism.horizontal"),
    _Part("prism_up", "prism", ("{side}.prism.vertical",), reading="prism.vertical"),
    _Part("point", "reference_point", ("{side}.pd",)),
    _Part("height", "height", ("{side}.height",)),
    _Part("thickness", "thickness", ("{side}.thickness.centre",)),
)
_PAIR = ("reference_points", "optical_centres", "horizontal", "vertical")
_PAIR_ORDERED = {"reference_points": "pair.reference_points", "optical_centres": "bench.optical_centres.ordered"}


def lens_rows(voice: Voice) -> list[Row]:
    """The rows of both lenses, in the order of bench practice; a row that neither lens has is left out."""
    rows = (Row(part.name, tuple(_cells(voice, side, part) for side in SIDES)) for part in _PARTS)
    return [row for row in rows if any(cells.applies for cells in row.lenses)]


def pair_rows(voice: Voice) -> Iterator[Row]:
    """The rows of the pair: distances and prism taken together."""
    claims = voice.claims
    for name in _PAIR:
        base = f"bench.{name}"
        ordered = _PAIR_ORDERED.get(name)
        found = Cells(
            ordered=_said(voice, ordered) if ordered else None,
            limit=_said(voice, f"{base}.allowed_mm") or _said(voice, f"{base}.allowed", bare=False),
            read=_said(voice, f"{base}.reading"),
            deviation=_first(voice, f"{base}.deviation", f"{base}.prism"),
            verdict=_word(claims, f"{base}.verdict"),
        )
        if found.read or found.verdict or name == "reference_points":
            yield Row(name, (found,))


def _cells(voice: Voice, side: Side, part: _Part) -> Cells:
    claims = voice.claims
    base = f"bench.{side}.{part.part}"
    status = claims.value(f"bench.{side}.{_STATUS.get(part.name, part.name)}.status")
    ordered = _first(voice, *(name.format(side=side) for name in part.ordered))
    if ordered is None and part.part == "prism":
        ordered = voice.words("none")
    if status == "not-applicable" or (part.name in _ONLY_ORDERED and ordered is None):
        return Cells(applies=False)
    reading = f"bench.{side}.{part.reading}.reading" if part.reading else f"{base}.reading"
    return Cells(
        ordered=ordered,
        limit=_first(voice, f"{base}.allowed", f"{base}.allowed_mm"),
        read=_said(voice, reading),
        deviation=_first(voice, f"{base}.deviation", f"{base}.deviation_mm"),
        verdict=_word(claims, f"{base}.verdict") if reading in claims else None,
    )


_STATUS = {
    "stronger": "power",
    "weaker": "power",
    "cylinder": "power",
    "prism_in": "prism",
    "prism_up": "prism",
    "point": "centring",
}
_ONLY_ORDERED = frozenset({"axis", "addition", "height"})


def _first(voice: Voice, *claim_ids: str) -> Markup | None:
    return next((said for claim_id in claim_ids if (said := _said(voice, claim_id)) is not None), None)


def _said(voice: Voice, claim_id: str, *, bare: bool = True) -> Markup | None:
    """The claim's number; a prism keeps its base, everything else leaves its unit to the row's head."""
    if claim_id not in voice.claims:
        return None
    base = claim_id.removesuffix(".reading").endswith((".prism.horizontal", ".prism.vertical"))
    return voice.say(claim_id, bare=bare and not base, mark_typical=False)


def _word(claims: ClaimSet, claim_id: str) -> str | None:
    value = claims.value(claim_id)
    return None if value is None else str(value)
