"""The reader's country: whom to call, which law and which driving rules hold. Each line is a fact with its mark."""

from __future__ import annotations

from explainer.errors import FactError
from explainer.optics import facts
from explainer.optics.claims.ledger import Ledger

_LINES = ("help", "emergency", "health_line", "plate", "double", "authority", "law")


def issue(ledger: Ledger, code: str | None) -> None:
    """What is known of a country; nothing of one without an entry, for which words stay neutral."""
    if code is None or code not in known():
        return
    ledger.fact("country.code", f"countries.{code}.help", value=code)
    for name in _LINES:
        if line(code, name) is not None:
            ledger.fact(f"country.{name}", f"countries.{code}.{name}")


def known() -> tuple[str, ...]:
    """Codes of the countries that have an entry."""
    return tuple(sorted({name.partition(".")[0] for name in facts.topic_facts("countries")}))


def line(code: str, name: str) -> str | None:
    """One line of a country's entry, as it stands; None where the entry has none."""
    try:
        return str(facts.get(f"countries.{code}.{name}").value)
    except FactError:
        return None
