"""The dial as it is printed: its lines and its scale, read from the drawing operations of the page."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from scoring import eyes
from scoring.leaflet import Made
from scoring.source import name_of
from scoring.tagged import Node

from explainer.optics.spectacles import SIDES

LARGEST_FAULT_DEG = 0.5


class Half(NamedTuple):
    """One eye's half of the figure: page, and its box [pt]."""

    page: int
    left: float
    low: float
    right: float
    high: float


class Scale(NamedTuple):
    """One eye's scale: centre and radius of its numbers [pt], read from the numbers themselves."""

    x: float
    y: float
    radius: float


def figure(made: Made, name: str) -> Node | None:
    """The figure of that name in the finished page, found by its alternative text."""
    said = [
        image.get("alt")
        for each in made.source.all("figure", of=name)
        for image in each.iter()
        if name_of(image) == "img"
    ]
    return next((node for node in made.tags.all("/Figure") if said and node.alt == said[0]), None)


def faults(made: Made) -> Iterator[str]:
    """What is wrong with the dial, against the order."""
    node = figure(made, "dial")
    if node is None:
        yield "there is no dial on the page"
        return
    box = [float(side) for side in node.attribute("/BBox")]
    page = node.letters[0].page
    middle = (box[0] + box[2]) / 2
    for side in SIDES:
        half = (box[0], middle) if side == "right" else (middle, box[2])
        power = eyes.made(
            made.order.spectacles.prescription.eye(side), for_near=eyes.is_for_near(made.order.spectacles)
        )
        where = Half(page, half[0], box[1], half[1], box[3])
        yield from (f"{side}: {fault}" for fault in _side_faults(made, power.axis_deg, where))
    if not _has_caption(made):
        yield "the dial has no caption that says whose view it is"


def _side_faults(made: Made, axis: float | None, half: Half) -> Iterator[str]:
    scale = _scale(made, half)
    if scale is None:
        yield "the scale from 0 at the observer's right over 90 at the top to 180 is not on the page"
        return
    drawn = _axis_line(made, half, scale)
    if axis is None:
        if drawn is not None:
            yield f"an axis line stands at {drawn:.1f}° where there is no cylinder"
    elif drawn is None:
        yield "no axis line"
    elif abs((drawn - axis + 90) % 180 - 90) > LARGEST_FAULT_DEG:
        yield f"the axis line stands at {drawn:.1f}°, the order says {axis:g}°"


def _scale(made: Made, half: Half) -> Scale | None:
    """The numbers 0, 90 and 180 must lie right, above and left of one centre."""
    words = _words(made, half)
    places = {text: place for text, place in words if text in ("0", "90", "180")}
    if len(places) < 3:
        return None
    (x0, y0), (x90, y90), (x180, y180) = places["0"], places["90"], places["180"]
    centre_x, centre_y = (x0 + x180) / 2, (y0 + y180) / 2
    upright = abs(y0 - y180) < 3 and x0 > centre_x > x180 and y90 > centre_y and abs(x90 - centre_x) < 0.2 * (x0 - x180)
    return Scale(centre_x, centre_y, y90 - centre_y) if upright else None


def _words(made: Made, half: Half) -> list[tuple[str, tuple[float, float]]]:
    """Numbers in the box with the middle of each [pt]."""
    inside = [glyph for glyph in made.glyphs if glyph.page == half.page and half.low <= glyph.y <= half.high]
    runs: list[list[object]] = []
    for glyph in inside:
        last = runs[-1] if runs else None
        if last and abs(last[2] - glyph.y) < 0.5 and abs(last[4] - glyph.x) < 0.15 * glyph.size:  # type: ignore[operator]
            last[0], last[4] = f"{last[0]}{glyph.text}", glyph.x + glyph.advance
        else:
            runs.append([glyph.text, glyph.x, glyph.y, glyph.size, glyph.x + glyph.advance])
    placed = [(str(t).strip(), ((x + end) / 2, y + 0.36 * size)) for t, x, y, size, end in runs]  # type: ignore[operator]
    return [(text, (x, y)) for text, (x, y) in placed if half.left <= x <= half.right]


def _axis_line(made: Made, half: Half, scale: Scale) -> float | None:
    """The direction of the heaviest straight line through the centre."""
    through = []
    for shape in made.shapes:
        if shape.page != half.page or shape.kind != "stroke" or not shape.straight or len(shape.points) < 2:
            continue
        ends = (min(shape.points), max(shape.points))
        length = math.dist(*ends)
        near = math.dist(((ends[0][0] + ends[1][0]) / 2, (ends[0][1] + ends[1][1]) / 2), (scale.x, scale.y))
        if (
            half.left <= ends[0][0]
            and ends[1][0] <= half.right
            and length > scale.radius
            and near < 0.25 * scale.radius
        ):
            through.append((shape.width, length, ends))
    if not through:
        return None
    heaviest = max(width for width, _, _ in through)
    thinnest = min(width for width, _, _ in through)
    lines = [(length, ends) for width, length, ends in through if width == heaviest]
    if heaviest < 1.2 * thinnest or heaviest < 1.2:  # only the thin cross of the scale
        return None
    _, ((x1, y1), (x2, y2)) = max(lines)
    return math.degrees(math.atan2(y2 - y1, x2 - x1)) % 180


def _has_caption(made: Made) -> bool:
    for each in made.source.all("figure", of="dial"):
        captions = [kid for kid in each.iter() if name_of(kid) == "figcaption"]
        return any("".join(caption.itertext()).strip() for caption in captions)
    return False
