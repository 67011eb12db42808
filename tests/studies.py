"""Published values that the program is checked against and does not use: tests/data/studies.toml.

The entries have the form of facts, with unit, basis, source and place in that source.
"""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path

from explainer.optics.facts import Fact, _entries, _fact

FILE = Path(__file__).parent / "data" / "studies.toml"


@cache
def studies() -> dict[str, Fact]:
    with FILE.open("rb") as file:
        found = {".".join(path): entry for path, entry in _entries(tomllib.load(file), ())}
    return {name: _fact(name, entry) for name, entry in found.items()}


def study(name: str) -> Fact:
    return studies()[name]
