"""Both lenses from in front as the bench needs them: boxes, reference points, optical centres, axes; in millimetres.

Seen by someone facing the wearer: the wearer's right lens is on the left. Plain lines, no words.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from explainer.optics.claims import ClaimSet
from explainer.optics.spectacles import SIDES, Frame, Side

_MARGIN_MM = 3.0
_AXIS_MM = 26.0


def front_svg(claims: ClaimSet, frame: Frame) -> bytes:
    """The drawing; an empty one where the box is not known. 1 unit is 1 mm."""
    a, b, dbl = frame.a_mm, frame.b_mm, frame.dbl_mm
    if a is None or b is None or dbl is None:
        return _svg(10, 1, ())
    half = dbl / 2 + a + _MARGIN_MM
    return _svg(2 * half, b + 2 * _MARGIN_MM, _shapes(claims, a, b, dbl))


def _svg(width: float, height: float, shapes: Iterator[str] | tuple[str, ...]) -> bytes:
    box = f"{-width / 2:.2f} {-height / 2:.2f} {width:.2f} {height:.2f}"
    return f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}">{"".join(shapes)}</svg>'.encode()


def _shapes(claims: ClaimSet, a: float, b: float, dbl: float) -> Iterator[str]:
    yield _line(0, -b / 2 - 2, 0, b / 2 + 2, dashed=True)
    yield _line(-dbl / 2 - a, 0, dbl / 2 + a, 0, dashed=True)
    for side in SIDES:
        sign = -1 if side == "right" else 1
        left = sign * (dbl / 2 + a / 2) - a / 2
        yield f'<rect x="{left:.2f}" y="{-b / 2:.2f}" width="{a:.2f}" height="{b:.2f}" rx="9" {_PEN}/>'
        yield from _points(claims, side, sign, b)


def _points(claims: ClaimSet, side: Side, sign: int, b: float) -> Iterator[str]:
    """The reference point as a ring, the optical centre as a dot where it is another place, the axis as a line."""
    distance = claims.value(f"{side}.pd")
    if not isinstance(distance, float | int):
        pair = claims.value("pair.pd")
        distance = pair / 2 if isinstance(pair, float | int) else None
    if distance is None:
        return
    height = claims.value(f"{side}.height")
    x, y = sign * float(distance), -(float(height) - b / 2) if isinstance(height, float | int) else 0.0
    axis = claims.value(f"{side}.made.axis")
    if isinstance(axis, float | int):
        dx, dy = (_AXIS_MM / 2 * part for part in (math.cos(math.radians(axis)), math.sin(math.radians(axis))))
        yield _line(x - dx, y + dy, x + dx, y - dy)
    yield f'<circle cx="{x:.2f}" cy="{y:.2f}" r="1.5" fill="#fff" stroke="#000" stroke-width="0.6"/>'
    inward, upward = claims.value(f"{side}.centre.in"), claims.value(f"{side}.centre.up")
    if isinstance(inward, float) and isinstance(upward, float) and math.hypot(inward, upward) >= 0.1:
        yield f'<circle cx="{x - sign * inward:.2f}" cy="{y - upward:.2f}" r="1" fill="#000"/>'


_PEN = 'fill="none" stroke="#000" stroke-width="0.5"'


def _line(x1: float, y1: float, x2: float, y2: float, *, dashed: bool = False) -> str:
    dash = ' stroke-dasharray="3 1.2 0.6 1.2" stroke-width="0.25"' if dashed else ' stroke-width="0.4"'
    return f'<line x1="{x1:.2f}" y1="{y1:.2f}" x2="{x2:.2f}" y2="{y2:.2f}" stroke="#000"{dash}/>'
