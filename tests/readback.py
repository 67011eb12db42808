"""Reads a finished leaflet as a stranger would: words of the PDF and lines of the dial, held against an order."""

from __future__ import annotations

import math
import re
import subprocess
from collections.abc import Mapping
from pathlib import Path

from explainer.figures.drawing import Drawing
from explainer.optics.spectacles import Eye, Spectacles

NUMBER = r"([+−]?\d+(?:[.,]\d+)?)"
MINUS = "\u2212"


def pdf_text(path: Path) -> str:
    """The text of a PDF in the order in which it was written, in one string."""
    return subprocess.run(["pdftotext", "-raw", str(path), "-"], capture_output=True, text=True, check=True).stdout


def received(text: str) -> dict[str, tuple[float | None, ...]]:
    """Sphere, cylinder and axis as received, by eye, as the table of numbers shows them."""
    return {side: _row(text, f"{side.capitalize()} eye") for side in ("right", "left")}


def below_the_lenses(text: str) -> dict[str, tuple[float | None, ...]]:
    """The same as written below each lens on the first page."""
    return {side: _line(text, f"{side.capitalize()} eye") for side in ("right", "left")}


def _row(text: str, eye: str) -> tuple[float | None, ...]:
    """A row of the table; a column that neither eye uses is not in it."""
    _, _, table = text.partition("You need none of this to wear them.")
    columns = re.search(r"Sphere((?: Cylinder)?)((?: Axis)?)", " ".join(table.split()))
    assert columns, "no table of numbers in the page"
    cell = rf"(?:{NUMBER}°?|none)"
    pattern = rf"{eye}\s+{NUMBER}" + (rf"\s+{cell}\s+{cell}" if columns[1] else "")
    found = re.search(pattern, table)
    assert found, f"no row {eye!r} in the page"
    return (*map(_number, found.groups()), *([] if columns[1] else [None, None]))


def _line(text: str, eye: str) -> tuple[float | None, ...]:
    found = re.search(rf"{eye}\s+{NUMBER}(?: {NUMBER} × {NUMBER})?", text)
    assert found, f"nothing below the lens of the {eye}"
    return tuple(map(_number, found.groups()))


def _number(value: str | None) -> float | None:
    return None if value is None else float(value.replace(MINUS, "-").replace(",", "."))


def drawn_axis(dial: Drawing, side: str) -> float | None:
    """The angle of the axis line in the dial's own drawing, anticlockwise from the observer's right."""
    svg = dial.svg.decode()
    group = re.search(rf'<g id="axis-{side}[^"]*">(.*?)</g>', svg, re.DOTALL)
    if group is None:
        return None
    points = [(float(x), float(y)) for x, y in re.findall(r"[ML] ([\d.]+) ([\d.]+)", group[1])]
    (x0, y0), (x1, y1) = min(points), max(points)
    return math.degrees(math.atan2(y0 - y1, x1 - x0)) % 180


def expected(eye: Eye) -> tuple[float | None, ...]:
    """What the page must show for an eye."""
    has_cylinder = eye.axis_deg is not None
    return (eye.sphere_d, eye.cylinder_d if has_cylinder else None, eye.axis_deg)


def minus_axis(eye: Eye) -> float | None:
    """The axis of the eye's lens in minus-cylinder form, worked out here and not by the program."""
    if eye.axis_deg is None:
        return None
    return eye.axis_deg % 180 if eye.cylinder_d < 0 else (eye.axis_deg + 90) % 180


def faults(text: str, dials: Mapping[str, Drawing], order: Spectacles) -> list[str]:
    """Everything on the page that does not belong to this order."""
    found = []
    for shown in (received(text), below_the_lenses(text)):
        for side in ("right", "left"):
            if shown[side] != (wanted := expected(order.prescription.eye(side))):
                found.append(f"{side}: the page shows {shown[side]}, the order says {wanted}")
    for side in ("right", "left"):
        eye = order.prescription.eye(side)
        axis = minus_axis(eye)
        drawn = drawn_axis(dials[side], side) if side in dials else None
        if (axis is None) != (drawn is None) or (
            axis is not None and drawn is not None and abs((axis - drawn + 90) % 180 - 90) > 0.5
        ):
            found.append(f"{side}: the dial shows {drawn}, the order says {axis}")
    return found
