"""Gallery orders for the pictures, and drawings made from their own requests."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from explainer.compose.document import FigureRequest
from explainer.compose.pictures import picture_requests
from explainer.figures import draw
from explainer.figures.drawing import Drawing
from explainer.optics.claims import Explanation, explain
from explainer.orders import Order, read_order

GALLERY = Path(__file__).parents[2] / "gallery"
VERY_DIFFERENT = (
    *("strong-minus-astigmat", "photochromic-driver", "progressive-changed", "bifocal-plus-add", "traced-half-rim"),
    *("strong-plus-reading", "dark-tint-three", "rimless-high-index", "progressive-first", "bare"),
)
ALIKE = ("icon_", "check_", "clean_", "category_", "state_")


@cache
def order(name: str) -> Order:
    return read_order(GALLERY / f"{name}.toml")


@cache
def explained(name: str) -> Explanation:
    return explain(order(name).spectacles)


@cache
def requests(name: str) -> dict[str, FigureRequest]:
    return dict(picture_requests(order(name).spectacles, explained(name)))


@cache
def picture(name: str, key: str) -> Drawing:
    request = requests(name)[key]
    return draw(request.name, request.values)


def every() -> list[tuple[str, str]]:
    """Each picture of each of those orders; what is alike for all but the shape of a lens, for two of them."""
    found = []
    for i, name in enumerate(VERY_DIFFERENT):
        found += [(name, key) for key in requests(name) if i < 2 or not key.startswith(ALIKE)]
    return found
