"""The topics: what each says, which questions it answers, which template holds its words, what the order must have."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

FOLDER = Path(__file__).parent
URGENT = "urgent"
OTHER = "other"


@dataclass(frozen=True, slots=True)
class Topic:
    """One topic of a reply.

    `needs` is a condition on the order (compose/topics.py), or empty. `cautions` are those that belong to it, by name.
    A topic about how the wearer feels or sees is a `symptom`: the urgent signs always go with it. `section` is the
    leaflet's section on the same: where a workshop has words of its own for that, a reply says those.
    """

    name: str
    template: str
    says: str
    questions: tuple[str, ...]
    needs: str = ""
    cautions: tuple[str, ...] = ()
    symptom: bool = False
    section: str = ""


@cache
def topics() -> Mapping[str, Topic]:
    """All topics of the program by name, in the order in which they are listed."""
    with (FOLDER / "catalogue.toml").open("rb") as file:
        raw = tomllib.load(file)
    return {
        name: Topic(
            name=name,
            template=str(entry["template"]),
            says=str(entry["says"]),
            questions=tuple(entry["questions"]),
            needs=str(entry.get("needs", "")),
            cautions=tuple(entry.get("cautions", ())),
            symptom=bool(entry.get("symptom", False)),
            section=str(entry.get("section", "")),
        )
        for name, entry in raw.items()
    }
