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
    *("strong-minus-astigmat", "strong-plus-reading", "progressive-changed", "bifocal-plus-add", "traced-half-rim"),
    *("rimless-high-index", "photochromic-driver", "dark-tint-three", "titanium-plus-cylinder", "plano-one-eye"),
    *("child", "bare", "eyes-far-apart", "deep-curve-unequal"),
)


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
    """Each picture of each of those orders; the signs, alike for all, once."""
    found = [(name, key) for name in VERY_DIFFERENT for key in requests(name) if not key.startswith("icon_")]
    return found + [(VERY_DIFFERENT[0], key) for key in requests(VERY_DIFFERENT[0]) if key.startswith("icon_")]
