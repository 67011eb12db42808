"""The plan of a document: sections, conditions, figures. Pure values, still no words."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from explainer.optics.spectacles import Side


@dataclass(frozen=True, slots=True)
class FigureRequest:
    """A figure by name (one of explainer.figures) and the numbers it is drawn from."""

    name: str
    values: Mapping[str, object]


@dataclass(frozen=True, slots=True, kw_only=True)
class Document:
    """What a leaflet holds. `flags` are the conditions that templates ask for by `flag('…')`."""

    sections: tuple[str, ...]
    flags: frozenset[str]
    figures: Mapping[str, FigureRequest]
    sight_side: Side
    section_side: Side

    def without(self, figures: Iterable[str]) -> Document:
        """The same document with these figures left out."""
        left_out = set(figures)
        kept = {name: request for name, request in self.figures.items() if name not in left_out}
        return replace(self, figures=kept)
