"""Every line and area that the pages of a PDF draw, with place, colour and width as printed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Literal

from render.structure import operations

Point = tuple[float, float]
Matrix = tuple[float, float, float, float, float, float]
_STROKING, _FILLING = frozenset("S s B B* b b*".split()), frozenset("f F f* B B* b b*".split())


@dataclass(frozen=True)
class Shape:
    """One painted path: its points on the page [pt, from the lower left], colour 0 to 1, line width as printed."""

    page: int
    kind: Literal["stroke", "fill"]
    points: tuple[Point, ...]
    straight: bool
    colour: tuple[float, ...]
    width: float
    step: int

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, low, right, high."""
        across, upward = [x for x, _ in self.points], [y for _, y in self.points]
        return min(across), min(upward), max(across), max(upward)


class _Painter:
    """Follows one page's drawing operations and hands out what is painted."""

    def __init__(self, number: int) -> None:
        self.number = number
        self.ctm: Matrix = (1, 0, 0, 1, 0, 0)
        self.fill: tuple[float, ...] = (0.0, 0.0, 0.0)
        self.stroke: tuple[float, ...] = (0.0, 0.0, 0.0)
        self.width = 1.0
        self.stack: list[tuple[Any, ...]] = []
        self.points: list[Point] = []
        self.straight = True
        self.begun = False  # the last operation was the start of a path

    def paint(self, page: Any) -> Iterator[Shape]:
        for step, (given, name) in enumerate(operations(page)):
            if name in _STROKING and self.points:
                yield self._shape("stroke", self.stroke, step)
            if name in _FILLING and self.points:
                yield self._shape("fill", self.fill, step)
            if name in _STROKING or name in _FILLING or name == "n":
                self.points, self.straight, self.begun = [], True, False
            else:
                self._state(name, given)

    def _shape(self, kind: Literal["stroke", "fill"], colour: tuple[float, ...], step: int) -> Shape:
        scale = abs(self.ctm[0] * self.ctm[3] - self.ctm[1] * self.ctm[2]) ** 0.5
        return Shape(self.number, kind, tuple(self.points), self.straight, colour, self.width * scale, step)

    def _state(self, name: str, given: list[Any]) -> None:
        if name == "q":
            self.stack.append((self.ctm, self.fill, self.stroke, self.width))
        elif name == "Q":
            self.ctm, self.fill, self.stroke, self.width = self.stack.pop()
        elif name == "cm":
            self.ctm = _times(tuple(float(each) for each in given), self.ctm)
        elif name in ("rg", "RG", "g", "G"):
            self._colour(name, tuple(float(each) for each in given))
        elif name == "w":
            self.width = float(given[0])
        elif name in ("m", "l", "c", "v", "y", "re"):
            self._path(name, [float(each) for each in given])

    def _colour(self, name: str, given: tuple[float, ...]) -> None:
        colour = given * 3 if len(given) == 1 else given
        if name.isupper():
            self.stroke = colour
        else:
            self.fill = colour

    def _path(self, name: str, given: list[float]) -> None:
        if name == "re":
            x, y, width, height = given
            given = [x, y, x + width, y, x + width, y + height, x, y + height]
        self.straight = self.straight and name not in "cvy"
        if name == "m" and self.begun:
            self.points.pop()  # a start from which nothing was drawn
        self.begun = name == "m"
        a, b, c, d, e, f = self.ctm
        self.points += [(x * a + y * c + e, x * b + y * d + f) for x, y in zip(given[::2], given[1::2], strict=True)]


def shapes(pdf: Any) -> list[Shape]:
    """Everything painted on the pages of an opened PDF, in the order of painting. Clipping is not looked at."""
    return [shape for number, page in enumerate(pdf.pages) for shape in _Painter(number).paint(page)]


def _times(left: tuple[float, ...], right: Matrix) -> Matrix:
    a, b, c, d, e, f = left
    g, h, i, j, k, m = right
    return a * g + b * i, a * h + b * j, c * g + d * i, c * h + d * j, e * g + f * i + k, e * h + f * j + m
