"""Where claims are made and kept: the ledger writes down, for each one, how it came about.

`compute` and `work` take their arguments from claims and facts by id and call the formula themselves, so that the
inputs written in the evidence are the inputs that were used.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from itertools import product
from typing import Any

from explainer.errors import FactError
from explainer.optics import facts
from explainer.optics.claim import Basis, Citation, Claim, Interval, Value
from explainer.optics.claims.statements import statement
from explainer.optics.claims.working import FACT, End, Plain, Ref, Refs, Working, formula_name

__all__ = ["FACT", "Asked", "ClaimSet", "Ledger", "formula_name"]


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

    def names(self, beginning: str) -> tuple[str, ...]:
        """The ids of the claims so far that begin like that."""
        return tuple(name for name in self._claims if name.startswith(beginning))

    def digits(self, claim_id: str) -> int:
        """How many decimals a claim shows."""
        return self._claims[claim_id].digits

    def show(self, claim_id: str, *, digits: int) -> None:
        """Lets a claim show that many decimals, where its statement's own would hide what was judged."""
        self._claims[claim_id] = replace(self._claims[claim_id], digits=digits)

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

    def work(self, formula: Callable[..., Any], shared: Refs | None = None, **named: Ref) -> Working:
        """Calls `formula` with the values behind what `shared` and the keywords name; issues no claim.

        Where an input is an Interval the formula is evaluated at the ends of every interval: the extent of the
        results is exact for formulas that rise or fall steadily in that input, as all used here do.
        """
        refs = {**shared, **named} if shared else named
        inputs: list[str] = []
        choices = {word: self._open(ref, inputs) for word, ref in refs.items()}
        if all(len(values) == 1 for values in choices.values()):
            results: tuple[Any, ...] = (formula(**{word: values[0] for word, values in choices.items()}),)
        else:
            every = product(*choices.values())
            results = tuple(formula(**dict(zip(choices, values, strict=True))) for values in every)
        return Working(results, formula_name(formula), tuple(dict.fromkeys(inputs)))

    def compute(
        self,
        claim_id: str,
        formula: Callable[..., Any],
        shared: Refs | None = None,
        *,
        pick: str | None = None,
        scale: float = 1,
        **named: Ref,
    ) -> Claim:
        """The claim of what `work` gives. `pick` names a field of the result, `scale` makes a fraction percent."""
        working = self.work(formula, shared, **named)
        if pick:
            working = working.of(pick)
        return self.part(claim_id, working.scaled(scale) if scale != 1 else working)

    def part(self, claim_id: str, working: Working) -> Claim:
        """The claim of a result, or of a part of it, that was worked out before."""
        return self._issue(claim_id, working.value, Basis.COMPUTED, formula=working.formula, inputs=working.inputs)

    def carry(self, claim_id: str, data: Any) -> Working:
        """Data too large for a claim, such as a traced outline, under the name of the claim that tells of them."""
        if claim_id not in self._claims:
            raise FactError(f"there is no claim {claim_id} to tell of data")
        return Working((data,), "", (claim_id,))

    def decide(self, rule: Callable[[Asked], Any]) -> Working:
        """What a rule answers that asks for claims and facts itself; what it asked for is what it rests on."""
        asked = Asked(self)
        answer = rule(asked)
        return Working((answer,), formula_name(rule), tuple(dict.fromkeys(asked.inputs)))

    def _open(self, ref: Ref, inputs: list[str]) -> tuple[Any, ...]:
        """The values that one argument may take; adds the ids behind it to `inputs`."""
        if isinstance(ref, str):
            inputs.append(ref)
            value = self.value(ref)
            return _ends(value) if isinstance(value, Interval) else (value,)
        if isinstance(ref, Working):
            inputs.extend(ref.inputs)
            return ref.results
        if isinstance(ref, End):
            inputs.append(ref.ref)
            return (ref.take(self.value(ref.ref)),)
        if isinstance(ref, Plain):
            return (ref.value,)
        return tuple(product(*(self._open(each, inputs) for each in ref)))

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
            inputs=inputs,
            weakest=self._weakest(basis, inputs),
        )
        self._claims[claim_id] = claim
        return claim

    def _weakest(self, basis: Basis, inputs: tuple[str, ...]) -> Basis:
        """The weakest basis among a claim's own and those of what it rests on."""
        if not inputs:
            return basis
        known, claims = _BASIS_OF_FACT, self._claims
        below = {claims[ref].weakest if ref in claims else known.get(ref) or _basis_of_fact(ref) for ref in inputs}
        below.add(basis)
        return basis if len(below) == 1 else max(below, key=_strength)


class Asked:
    """The ledger as a rule sees it: whatever the rule asks for is written down."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger
        self.inputs: list[str] = []

    def value(self, ref: str) -> Any:
        """The value of a claim or fact; None for a claim that was not issued."""
        if not ref.startswith(FACT) and ref not in self._ledger:
            return None
        self.inputs.append(ref)
        return self._ledger.value(ref)

    def number(self, ref: str) -> float | None:
        """The same as a number; the middle of an interval."""
        value = self.value(ref)
        return None if value is None else _middle(value)


_BASIS_OF_FACT: dict[str, Basis] = {}


def _basis_of_fact(ref: str) -> Basis:
    found = _BASIS_OF_FACT[ref] = facts.get(ref.removeprefix(FACT)).basis
    return found


def _strength(basis: Basis) -> int:
    return basis.strength


def _ends(value: Interval) -> tuple[float, ...]:
    return (value.low, value.high) if value.low != value.high else (value.low,)


def _middle(value: Value) -> float:
    if isinstance(value, Interval):
        return value.middle
    if isinstance(value, str):
        raise FactError(f"the word {value!r} is not a number")
    return float(value)
