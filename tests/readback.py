"""Reads a finished leaflet as a stranger would: words of the PDF and lines of the dial, held against an order."""

from __future__ import annotations

import math
import re
import subprocess
from pathlib import Path

from explainer.figures.drawing import Drawing
from explainer.optics.spectacles import Eye, Spectacles

NUMBER = r"([+−]?\d+(?:[.,]\d+)?)"
MINUS = "\u2212"


def pdf_text(path: Path) -> str:
    """The text of a PDF in the order in which it was written, in one string."""
    return subprocess.run(["pdftotext", "-raw", str(path), "-"], capture_output=True, text=True, check=True).stdout


def table_row(text: str, name: str, unit: str) -> list[float | None]:
    """The four cells of a row of the prescription table: right received, right ordered, left received, left ordered.

    Without any cylinder the table has neither its row nor that of the axis: four times nothing.
    """
    _, _, table = text.partition("received and ordered")
    table, _, _ = table.partition("What the words mean")
    if name != "Sphere" and name not in table:
        return [None] * 4
    cell = rf"(?:{NUMBER}{unit}|none)"
    found = re.search(rf"(?:^|\s){name}\s+{cell}\s+{cell}\s+{cell}\s+{cell}", table)
    assert found, f"no row {name!r} in the page"
    return [None if value is None else float(value.replace(MINUS, "-").replace(",", ".")) for value in found.groups()]


def received(text: str) -> dict[str, tuple[float | None, ...]]:
    """Sphere, cylinder and axis as received, by eye, as the page shows them."""
    rows = [table_row(text, "Sphere", " D"), table_row(text, "Cylinder", " D"), table_row(text, "Axis", "°")]
    return {"right": tuple(row[0] for row in rows), "left": tuple(row[2] for row in rows)}


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


def faults(text: str, dial: Drawing | None, order: Spectacles) -> list[str]:
    """Everything on the page that does not belong to this order."""
    found = []
    shown = received(text)
    for side in ("right", "left"):
        eye = order.prescription.eye(side)
        if shown[side] != expected(eye):
            found.append(f"{side}: the page shows {shown[side]}, the order says {expected(eye)}")
        axis = minus_axis(eye)
        drawn = drawn_axis(dial, side) if dial else None
        if (axis is None) != (drawn is None) or (
            axis is not None and drawn is not None and abs((axis - drawn + 90) % 180 - 90) > 0.5
        ):
            found.append(f"{side}: the dial shows {drawn}, the order says {axis}")
    return found
