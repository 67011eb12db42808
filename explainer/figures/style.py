"""How all figures look, and the one place where matplotlib draws: a sheet measured in millimetres.

A figure collects marks and labels on a Canvas, in plain numbers. `Canvas.drawing` turns the marks into SVG.
There is no text in the SVG: words and numbers are labels, which the renderer sets over it.
"""

from __future__ import annotations

import io
import re
from math import isfinite
from typing import TYPE_CHECKING, Any, NamedTuple

from explainer.errors import OutOfRange, RenderError
from explainer.figures.drawing import Anchor, Drawing, Label
from explainer.figures.keys import KEYS, SLOTS
from explainer.figures.paths import Path, Point, arrow_head, joined, placed, polyline
from explainer.surroundings import plotter

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

INK, PAPER = "#000000", "#FFFFFF"
ACCENT = "#0B4A57"  # a dark teal, more than 9:1 on white
DARK, MIDDLE, LIGHT, FAINT = "#4D4D4D", "#767676", "#D2D2D2", "#ECECEC"

HAIR_PT, THIN_PT, LINE_PT, BOLD_PT, HEAVY_PT = 0.6, 0.8, 1.1, 1.8, 2.8
DASHED, DOTTED, LONG = (3.0, 2.0), (0.8, 1.8), (7.0, 2.0)

_PLACES = re.compile(rb' d="[^"]*"')
_LONG_NUMBER = re.compile(rb"-?[0-9]+\.[0-9]+(?:e-?[0-9]+)?")
_HEX = re.compile(r"#[0-9A-Fa-f]{6}")
_RC: dict[Any, Any] = {
    "svg.hashsalt": "explainer",
    "svg.fonttype": "none",
    "path.simplify": False,
    "path.snap": False,
}


class Pen(NamedTuple):
    """How a path is drawn: line colour or None, width [pt], dashes [pt], fill colour or None."""

    colour: str | None = INK
    width_pt: float = THIN_PT
    dash: tuple[float, ...] = ()
    fill: str | None = None


class Mark(NamedTuple):
    """One path on the sheet and its pen; `name` becomes the SVG group's id."""

    path: Path
    pen: Pen
    name: str | None
    clip: Path | None = None  # nothing of the mark is seen outside this path


class Picture(NamedTuple):
    """A grey raster on the sheet: rows from the top, 0 black to 255 white; its top left corner and size [mm]."""

    pixels: npt.NDArray[np.uint8]
    x_mm: float
    y_mm: float
    width_mm: float
    height_mm: float


HAIRLINE = Pen(width_pt=HAIR_PT)
THIN = Pen()
LINE = Pen(width_pt=LINE_PT)
BOLD = Pen(width_pt=BOLD_PT)
GUIDE = Pen(MIDDLE, HAIR_PT, DASHED)


def solid(colour: str) -> Pen:
    """A filled area without an outline."""
    return Pen(colour=None, fill=colour)


class Canvas:
    """A sheet of exact size: x to the right and y downward from the top left corner [mm]."""

    def __init__(self, name: str, width_mm: float, height_mm: float, accent: str = ACCENT) -> None:
        if not _HEX.fullmatch(accent):
            raise RenderError(f"the accent of a figure is #rrggbb, not {accent!r}")
        self.name, self.width_mm, self.height_mm, self.accent = name, width_mm, height_mm, accent
        self.marks: list[Mark | Picture] = []
        self.labels: list[Label] = []

    def add(self, path: Path, pen: Pen = THIN, name: str | None = None, *, clip: Path | None = None) -> None:
        """Draw a path over what is there; of it only what lies inside `clip`."""
        if not all(isfinite(x) and isfinite(y) for x, y in path.points):
            raise RenderError(f"the figure {self.name} has a point that is not finite")
        self.marks.append(Mark(path, pen, name, clip))

    def line(self, *points: Point, pen: Pen = THIN, name: str | None = None) -> None:
        """Draw straight pieces."""
        self.add(polyline(points), pen, name)

    def arrow(self, tail: Point, tip: Point, pen: Pen = THIN, size: float = 1.8) -> None:
        """Draw a straight arrow whose line ends inside its head."""
        head = arrow_head(tip, tail, size)
        neck = ((head.points[1][0] + head.points[2][0]) / 2, (head.points[1][1] + head.points[2][1]) / 2)
        self.line(tail, neck, pen=pen)
        self.add(head, Pen(colour=None, fill=pen.colour))

    def paste(self, other: Canvas, scale: float, left_mm: float, top_mm: float) -> None:
        """Put another canvas's paths on this one, larger or smaller; lines keep their widths."""
        for mark in other.marks:
            if isinstance(mark, Mark):
                self.add(placed(mark.path, scale, left_mm, top_mm), mark.pen, mark.name)

    def picture(self, picture: Picture) -> None:
        """Put a grey raster on the sheet."""
        self.marks.append(picture)

    def label(
        self,
        place: Point,
        key: str,
        value: float | None = None,
        *,
        unit: str = "",
        digits: int = 0,
        anchor: Anchor = "middle",
        strong: bool = False,
        width_mm: float | None = None,
    ) -> None:
        """Say what stands where; negative zero is written as zero."""
        if key not in KEYS:
            raise RenderError(f"the figure {self.name} has a label {key!r} for which there are no words")
        self.labels.append(
            Label(
                x_mm=round(place[0], 3),
                y_mm=round(place[1], 3),
                key=key,
                value=None if value is None else value + 0.0,
                unit=unit,
                digits=digits,
                anchor=anchor,
                strong=strong,
                width_mm=width_mm,
            )
        )

    def slot(self, place: Point, key: str, *, anchor: Anchor = "middle", width_mm: float) -> None:
        """Leave a place for what the page writes there; y is the top of its first line."""
        if key not in SLOTS:
            raise RenderError(f"the figure {self.name} has a slot {key!r} that no page knows")
        x, y = round(place[0], 3), round(place[1], 3)
        self.labels.append(Label(x_mm=x, y_mm=y, key=key, anchor=anchor, width_mm=round(width_mm, 3)))

    def drawing(self) -> Drawing:
        """The finished figure."""
        return Drawing(
            name=self.name,
            width_mm=self.width_mm,
            height_mm=self.height_mm,
            svg=to_svg(self),
            labels=tuple(self.labels),
        )


def to_svg(canvas: Canvas) -> bytes:
    """The marks as SVG: exact size, no text, no date, the same bytes each time."""
    mpl = plotter()
    from matplotlib.figure import Figure
    from matplotlib.transforms import Affine2D

    with mpl.rc_context():
        mpl.rcdefaults()  # a user's own settings must not reach the page
        mpl.rcParams.update(_RC)
        figure = Figure(figsize=(canvas.width_mm / 25.4, canvas.height_mm / 25.4))
        figure.patch.set_visible(False)
        from_top = Affine2D().scale(1, -1).translate(0, canvas.height_mm).scale(1 / 25.4)
        for order, mark in enumerate(_gathered(canvas.marks)):
            if isinstance(mark, Picture):
                figure.add_artist(_raster(mark, order), clip=False)
            else:
                transform = from_top + figure.dpi_scale_trans
                patch = figure.add_artist(_patch(mark, order, transform), clip=False)
                if mark.clip is not None:
                    patch.set_clip_path(_outline(mark.clip), transform)
        written = io.BytesIO()
        figure.savefig(written, format="svg", metadata={"Date": None, "Creator": None, "Format": None, "Type": None})
    return _compact(written.getvalue())


def _compact(svg: bytes) -> bytes:
    """The same shapes in fewer bytes: places to a hundredth of a point, inline data on one line."""
    shorter = _PLACES.sub(lambda found: _LONG_NUMBER.sub(_hundredths, found[0]).replace(b" \n", b"\n"), svg)
    return shorter.replace(b"base64,\n", b"base64,")


def _hundredths(number: re.Match[bytes]) -> bytes:
    return f"{float(number[0]):.2f}".rstrip("0").rstrip(".").encode()


def _gathered(marks: list[Mark | Picture]) -> list[Mark | Picture]:
    """Neighbouring nameless lines of one pen as one mark: the page engine pays for every path it meets."""
    found: list[Mark | Picture] = []
    for mark in marks:
        last = found[-1] if found else None
        alike = isinstance(mark, Mark) and isinstance(last, Mark) and mark.pen == last.pen and mark.pen.fill is None
        if alike and isinstance(mark, Mark) and isinstance(last, Mark) and _joins(mark, last):
            found[-1] = last._replace(path=joined((last.path, mark.path)))
        else:
            found.append(mark)
    return found


def _joins(mark: Mark, last: Mark) -> bool:
    return mark.name is None and last.name is None and mark.clip == last.clip


def _raster(picture: Picture, order: int) -> Any:
    """A picture of grey values as an artist of its own: axes, which could show it too, take longer than the rest."""
    from matplotlib.artist import Artist
    from matplotlib.transforms import Affine2D

    class Raster(Artist):
        def draw(self, renderer: Any) -> None:
            pt = 72 / 25.4
            size = Affine2D().scale(picture.width_mm * pt, -picture.height_mm * pt)
            left, top = picture.x_mm * pt, renderer.height - picture.y_mm * pt
            renderer.draw_image(renderer.new_gc(), left, top, picture.pixels, size)

    made = Raster()
    made.set_zorder(order)
    return made


def _patch(mark: Mark, order: int, transform: Any) -> Any:
    from matplotlib.patches import PathPatch

    return PathPatch(
        _outline(mark.path),
        facecolor=mark.pen.fill or "none",
        edgecolor=mark.pen.colour or "none",
        linewidth=mark.pen.width_pt if mark.pen.colour else 0,
        linestyle=(0, mark.pen.dash) if mark.pen.dash else "-",
        capstyle="butt" if mark.pen.dash else "round",
        joinstyle="round",
        zorder=order,
        gid=mark.name,
        transform=transform,
    )


def _outline(path: Path) -> Any:
    from matplotlib.path import Path as Outline

    return Outline(path.points, path.codes)


def within(name: str, value: float, low: float, high: float, unit: str) -> float:
    """The value, or OutOfRange: a figure never draws what its frame cannot hold."""
    if not low <= value <= high:
        raise OutOfRange(name, value, low, high, unit)
    return value
