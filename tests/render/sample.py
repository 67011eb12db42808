"""Whole leaflets of an invented order, in every language and edition, for the tests of the page."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from functools import cache
from pathlib import Path
from typing import NamedTuple

from explainer.orders import Order, read_order
from explainer.render.leaflet import Leaflet, make_leaflet

GALLERY = Path(__file__).parents[1] / "gallery"
ORDER = "prism-both-directions"


class Choice(NamedTuple):
    """A language, an edition, a paper."""

    language: str = "en"
    edition: str = "standard"
    paper: str = "A4"


def order(language: str = "en", name: str = ORDER) -> Order:
    """An order of the gallery in a language."""
    return read_order(GALLERY / f"{name}.toml", language=language)


@cache
def leaflet(language: str = "en", edition: str = "standard", paper: str = "A4", name: str = ORDER) -> Leaflet:
    """The leaflet of an order of the gallery, made once for all tests of a file."""
    return make_leaflet(order(language, name), edition=edition, paper=paper)  # type: ignore[arg-type]


def dated(day: date) -> bytes:
    """The English leaflet of another day."""
    return make_leaflet(replace(order(), date=day), paper="A4").pdf
