"""Evidence: every claim of an order as a table a person reads, or as JSON; and the list of sources with their use."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from typing import Any

from explainer.optics import facts
from explainer.optics.claim import Basis, Claim, Interval
from explainer.optics.claims.ledger import FACT
from explainer.optics.claims.statements import sentence
from explainer.optics.facts import spectra
from explainer.optics.formulas.reactive import is_reactive
from explainer.optics.spectacles import LensChoice


def evidence_json(number: str, language: str, claims: Mapping[str, Claim]) -> str:
    """The public form: one object with order, language and all claims in a stable order."""
    data = {"order": number, "language": language, "claims": [claim.as_json() for claim in claims.values()]}
    return json.dumps(data, ensure_ascii=False, indent=2)


def evidence_rows(claims: Mapping[str, Claim]) -> list[tuple[str, ...]]:
    """Statement, value, how computed, from what, basis, source: one row a claim."""
    return [
        (
            sentence(claim.id),
            _value(claim),
            claim.formula or "",
            ", ".join(claim.inputs),
            _basis(claim),
            "; ".join(f"{c.source} ({c.locator})" for c in claim.sources),
        )
        for claim in claims.values()
    ]


HEAD = ("statement", "value", "how", "from", "basis", "source")


def evidence_text(claims: Mapping[str, Claim]) -> str:
    """The table as plain text: a block a claim, so that long lines stay readable in a terminal."""
    blocks = []
    for claim, row in zip(claims.values(), evidence_rows(claims), strict=True):
        lines = [f"{claim.id} = {row[1]}", f"    {row[0]}"]
        lines += [f"    {name}: {cell}" for name, cell in zip(HEAD[2:], row[2:], strict=True) if cell]
        blocks.append("\n".join(lines))
    return "\n\n".join(blocks)


def source_uses() -> dict[str, list[str]]:
    """For every citation the ids of the facts and the names of the spectra that rest on it."""
    uses: dict[str, list[str]] = {key: [] for key in facts.sources()}
    for fact in facts.every_fact():
        for citation in fact.sources:
            uses[citation.source].append(fact.id)
    for file, column in spectra.names():
        uses[spectra.about(file)["source"]].append(f"spectrum {file}.{column}")
    return uses


def sources_text() -> str:
    """Every citation, where to find it, what uses it."""
    blocks = []
    for key, used in source_uses().items():
        source = facts.sources()[key]
        weak = " (weak as an authority: its arithmetic was checked)" if source.weak else ""
        blocks.append(f"{key}{weak}\n    {source.title}\n    {source.where}\n    used by: {', '.join(used) or 'tests'}")
    return "\n\n".join(blocks)


def sources_json() -> str:
    """The same as JSON."""
    uses = source_uses()
    data = [
        {"key": key, "title": s.title, "where": s.where, "weak": s.weak, "used_by": uses[key]}
        for key, s in facts.sources().items()
    ]
    return json.dumps(data, ensure_ascii=False, indent=2)


def bases_used(claims: Iterable[Claim]) -> dict[Basis, list[Claim]]:
    """The claims by basis, strongest basis first."""
    found: dict[Basis, list[Claim]] = {}
    for claim in sorted(claims, key=lambda each: each.basis.strength):
        found.setdefault(claim.basis, []).append(claim)
    return found


def fact_chain(claims: Mapping[str, Claim], claim_id: str) -> set[str]:
    """The ids of all facts that a claim rests on, however deep."""
    found: set[str] = set()
    for ref in claims[claim_id].inputs:
        found |= {ref.removeprefix(FACT)} if ref.startswith(FACT) else fact_chain(claims, ref)
    return found


def _value(claim: Claim) -> str:
    value: Any = claim.value
    if isinstance(value, Interval):
        text = f"{_plain(value.low, claim.digits)} to {_plain(value.high, claim.digits)}"
    elif isinstance(value, bool):
        return "yes" if value else "no"
    else:
        text = _plain(value, claim.digits)
    return text if claim.unit in ("word", "yes-no", "ratio", "count", "category") else f"{text} {claim.unit}"


def _plain(value: float | str, digits: int) -> str:
    return value if isinstance(value, str) else f"{value + 0.0:.{max(digits, 2)}f}"


def _basis(claim: Claim) -> str:
    return str(claim.basis) if claim.weakest is claim.basis else f"{claim.basis}, resting on {claim.weakest}"


def sensitivity_text(lens: LensChoice) -> str:
    """Which assumption moves which tint band by how much: a line a row, the strongest of each band first."""
    from explainer.optics.light.views import sensitivity

    if not is_reactive(lens.tint):
        return "The tint of this lens does not change: there is nothing to vary."
    lines = []
    for row in sensitivity(lens):
        usual = "never" if row.central is None else f"{row.central:.1f}"
        ends = f"{row.move.at_low:.1f} … {row.move.at_high:.1f}"
        span = f"{row.move.low_end:g} … {row.move.high_end:g}"
        lines.append(f"{row.band}: usually {usual} {row.unit}; {row.move.assumption} {span} gives {ends}")
    return "\n".join(lines)


_CITED = frozenset({Basis.STANDARD, Basis.REGULATION, Basis.PUBLISHED})
_MOST_TITLES = 12


def cited_titles(claims: Mapping[str, Claim]) -> list[str]:
    """The short titles of the sources of what is stated as it stands, each once, in the order of the claims."""
    keys = dict.fromkeys(
        citation.source for claim in claims.values() if claim.basis in _CITED for citation in claim.sources
    )
    return [facts.sources()[key].short for key in keys][:_MOST_TITLES]
