"""Where claims are made and kept: the ledger writes down, for each one, how it came about.

`compute` takes its arguments from claims and facts by id and calls the formula itself, so that the inputs written in
the evidence are the inputs that were used.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import cache
from itertools import product
from typing import Any

from explainer.errors import FactError
from explainer.optics import facts
from explainer.optics.claim import Basis, Citation, Claim, Interval, Value
from explainer.optics.claims.statements import statement

FACT = "fact:"


class ClaimSet(Mapping[str, Claim]):
    """All claims about one pair, in the order in which they were made. Read-only."""

    def __init__(self, claims: Mapping[str, Claim]) -> None:
        self._claims = dict(claims)

    def __getitem__(self, claim_id: str) -> Claim:
        return self._claims[claim_id]

    def __iter__(self) -> Iterator[str]:
        return iter(self._claims)

    def __len__(self) -> int:
        return len(self._claims)

    def value(self, claim_id: str) -> Value | None:
        """The value of a claim, or None when it was not issued."""
        claim = self._claims.get(claim_id)
        return None if claim is None else claim.value

    def number(self, claim_id: str) -> float:
        """A claim's value as a number; the middle of an interval."""
        return _middle(self._claims[claim_id].value)


class Ledger:
    """Collects claims while they are made. Each id is issued once."""

    def __init__(self) -> None:
        self._claims: dict[str, Claim] = {}

    def __contains__(self, claim_id: str) -> bool:
        return claim_id in self._claims

    def close(self) -> ClaimSet:
        """The finished set."""
        return ClaimSet(self._claims)

    def value(self, ref: str) -> Any:
        """The value of a claim or of a fact (`fact:…`)."""
        return facts.get(ref.removeprefix(FACT)).value if ref.startswith(FACT) else self._claims[ref].value

    def number(self, ref: str) -> float:
        """The same as a number; the middle of an interval."""
        return _middle(self.value(ref))

    def ordered(self, claim_id: str, value: Value) -> Claim:
        """A value copied from the order."""
        return self._issue(claim_id, value, Basis.ORDERED)

    def measured(self, claim_id: str, value: Value) -> Claim:
        """A reading taken at the bench."""
        return self._issue(claim_id, value, Basis.MEASURED)

    def supplied(self, claim_id: str, value: Value) -> Claim:
        """The workshop's own data for its lens."""
        return self._issue(claim_id, value, Basis.SUPPLIED)

    def fact(self, claim_id: str, fact_id: str, value: Value | None = None) -> Claim:
        """States a fact as it stands, or (with `value`) the closed-set word that the fact supports."""
        fact = facts.get(fact_id)
        return self._issue(
            claim_id,
            fact.value if value is None else value,
            fact.basis,
            sources=fact.sources,
            inputs=(FACT + fact_id,),
        )

    def compute(
        self,
        claim_id: str,
        formula: Callable[..., Any],
        shared: Mapping[str, str] | None = None,
        *,
        pick: str | None = None,
        scale: float = 1,
        **named: str,
    ) -> Claim:
        """Calls `formula` with the values behind the ids that `shared` and the keywords name.

        `pick` names a field of its result, `scale` turns a fraction into percent.

        Where an input is an Interval the formula is evaluated at the ends of every interval, and the claim is the
        extent of the results: exact for formulas that rise or fall steadily in that input, as all used here do.
        """
        refs = {**shared, **named} if shared else named
        inputs = tuple(refs.values())
        choices = [_ends(self.value(ref)) for ref in inputs]
        results = []
        for values in product(*choices):
            result = formula(**dict(zip(refs, values, strict=True)))
            picked = getattr(result, pick) if pick else result
            results.append(picked if isinstance(picked, bool | str) else picked * scale)
        return self.derived(claim_id, _extent(results), formula, inputs)

    def derived(self, claim_id: str, value: Value, formula: Callable[..., Any], inputs: tuple[str, ...]) -> Claim:
        """A computed value whose formula was called by the caller, for results that many claims share."""
        return self._issue(claim_id, value, Basis.COMPUTED, formula=formula_name(formula), inputs=inputs)

    def _issue(
        self,
        claim_id: str,
        value: Value,
        basis: Basis,
        *,
        sources: tuple[Citation, ...] = (),
        formula: str | None = None,
        inputs: tuple[str, ...] = (),
    ) -> Claim:
        if claim_id in self._claims:
            raise FactError(f"claim {claim_id} is issued twice")
        about = statement(claim_id)
        about.check(claim_id, value)
        claim = Claim(
            id=claim_id,
            value=value,
            unit=about.unit,
            digits=about.digits,
            basis=basis,
            sources=sources,
            formula=formula,
            inputs=tuple(dict.fromkeys(inputs)),
            weakest=self._weakest(basis, inputs),
        )
        self._claims[claim_id] = claim
        return claim

    def _weakest(self, basis: Basis, inputs: tuple[str, ...]) -> Basis:
        weakest = basis
        for ref in inputs:
            below = _basis_of_fact(ref.removeprefix(FACT)) if ref.startswith(FACT) else self._claims[ref].weakest
            if below is not weakest and below.strength > weakest.strength:
                weakest = below
        return weakest


@cache
def _basis_of_fact(fact_id: str) -> Basis:
    return facts.get(fact_id).basis


@cache
def formula_name(formula: Callable[..., Any]) -> str:
    """The dotted name of a formula inside explainer.optics, e.g. `formulas.prism.prentice`."""
    return f"{formula.__module__.removeprefix('explainer.optics.')}.{formula.__qualname__}"


def _ends(value: Any) -> tuple[Any, ...]:
    if isinstance(value, Interval):
        return (value.low, value.high) if value.low != value.high else (value.low,)
    return (value,)


def _extent(results: list[Any]) -> Value:
    """The extent of several results; a yes only when every one says yes."""
    if isinstance(results[0], bool):
        return all(results)
    if isinstance(results[0], str) or len(results) == 1:
        return results[0]  # type: ignore[no-any-return]
    return Interval(min(results), max(results))


def _middle(value: Value) -> float:
    if isinstance(value, Interval):
        return value.middle
    if isinstance(value, str):
        raise FactError(f"the word {value!r} is not a number")
    return float(value)
