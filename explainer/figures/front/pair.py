"""A pair of spectacles as measures: both lens outlines in their places, and what the kind of frame adds to them.

Millimetres: x to the right of someone facing the wearer, y up; x = 0 is the middle of the nose, y = 0 the level of
the box's middle. The lens outlines and the bridge are the order's own. How wide a rim is, where a temple is hinged and
how a bridge is bent are ordinary measures of that kind of frame (common practice), not the order's.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from explainer.errors import RenderError
from explainer.figures.curving import PIECES, reach_at
from explainer.figures.paths import Point
from explainer.figures.style import within

Outline = tuple[Point, ...]


class Kind(NamedTuple):
    """Ordinary measures of one kind of frame [mm]; a rim of 0 is none."""

    rim_mm: float  # round the whole lens
    top_mm: float  # how much wider at the top
    lug_mm: float  # from the lens to the hinge
    temple_mm: float  # height of the temple
    plastic: bool = False
    pads: bool = False
    thread: bool = False  # a nylon thread holds the lens from below
    screws: bool = False  # the lens is drilled


KINDS: dict[str, Kind] = {
    "acetate": Kind(2.9, 1.2, 5.8, 5.0, plastic=True),
    "nylon": Kind(2.3, 0.8, 5.2, 4.2, plastic=True),
    "metal": Kind(1.5, 0.0, 5.6, 2.4, pads=True),
    "titanium": Kind(1.1, 0.0, 5.6, 1.8, pads=True),
    "half-rim": Kind(1.5, 0.5, 5.6, 2.4, pads=True, thread=True),
    "rimless": Kind(0.0, 0.0, 6.0, 1.8, pads=True, screws=True),
}
USUAL_KIND, SMALL = "metal", 12


class Pair(NamedTuple):
    """Both lenses in their places, and the measures of the frame."""

    right: Outline
    left: Outline
    dbl_mm: float
    kind: Kind
    pieces: int = PIECES  # cubic curves of one outline

    @property
    def half_width_mm(self) -> float:
        """From the middle of the nose to the outer end of the hinge."""
        return max(self.temple_x_mm(-1), self.temple_x_mm(1)) + 0.5

    @property
    def top_mm(self) -> float:
        """The highest point of the frame."""
        highest = max(y for _, y in (*self.right, *self.left))
        return highest + self.kind.rim_mm + self.kind.top_mm

    @property
    def bottom_mm(self) -> float:
        """The lowest point of the frame, as a height (negative)."""
        return min(y for _, y in (*self.right, *self.left)) - self.kind.rim_mm

    def lens(self, turn: int) -> Outline:
        """The lens on the observer's left (-1, the wearer's right) or right (1)."""
        return self.right if turn < 0 else self.left

    def hinge_y_mm(self) -> float:
        """The height of both hinges."""
        return 0.52 * min(max(y for _, y in self.right), max(y for _, y in self.left))

    def temple_x_mm(self, turn: int) -> float:
        """How far from the middle of the nose the temple begins on that side."""
        edge = abs(reach_at(self.lens(turn), self.hinge_y_mm(), rightmost=turn > 0))
        return edge + self.kind.lug_mm

    def nose_x_mm(self, turn: int, y: float) -> float:
        """How far from the middle of the nose that side's lens begins at a height."""
        return abs(reach_at(self.lens(turn), y, rightmost=turn < 0))


def pair_of(
    right: Sequence[Point], left: Sequence[Point], dbl_mm: float, kind: str | None, *, pieces: int = PIECES
) -> Pair:
    """The pair from its outlines (from any point each), the distance between the lenses and the kind of frame.

    `pieces` is how many curves an outline is drawn with: fewer, SMALL, do where the pair is small.
    RenderError for an outline of fewer than eight points, OutOfRange for a bridge that no nose has.
    """
    within("dbl_mm", dbl_mm, 5, 40, "mm")
    return Pair(_placed(right, -1, dbl_mm), _placed(left, 1, dbl_mm), dbl_mm, KINDS[kind or USUAL_KIND], pieces)


def _placed(points: Sequence[Point], turn: int, dbl_mm: float) -> Outline:
    if len(points) < 8:
        raise RenderError("a lens outline needs at least eight points")
    xs, ys = [x for x, _ in points], [y for _, y in points]
    away = turn * (dbl_mm + max(xs) - min(xs)) / 2 - (max(xs) + min(xs)) / 2
    up = -(max(ys) + min(ys)) / 2
    return tuple((x + away, y + up) for x, y in points)
