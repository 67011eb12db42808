"""Pictures read back from a finished page, in a language of either direction: nothing is mirrored, sizes are true."""

from __future__ import annotations

import io
import math
from datetime import date
from functools import cache

import pikepdf
import pytest
from figures.pictures.orders import explained, order, picture
from figures.pictures.shapes import luminance_percent
from render.shapes import Point, Shape, shapes

from explainer.optics.claim import Interval
from explainer.render.figures import drawing_html
from explainer.render.language import language
from explainer.render.press.pdf import write_pdf

MM = 72 / 25.4
DIRECTIONS = pytest.mark.parametrize("spoken", ["en", "ar"])
AXIS_WIDTH_PT = 3.4


@cache
def on_the_page(name: str, key: str, spoken: str) -> tuple[Shape, ...]:
    """What the page paints for one picture that stands alone on it, in the order of painting."""
    said, drawing = language(spoken), picture(name, key)
    html = (
        f'<html lang="{spoken}" dir="{said.direction}"><head><title>t</title></head>'
        f"<body>{drawing_html(drawing, 'a picture', '', said)}</body></html>"
    )
    pdf = write_pdf(
        html,
        assets={f"figure:{key}": drawing.svg},
        stylesheets=["@page { size: 210mm 120mm; margin: 10mm } figure { margin: 0 } .canvas { position: relative }"],
        title="t",
        language=spoken,
        direction=str(said.direction),
        created=date(2026, 11, 20),
        identifier="t",
        strict=False,
    )
    with pikepdf.open(io.BytesIO(pdf.data)) as opened:
        return tuple(shapes(opened))


def along(points: tuple[Point, ...]) -> list[Point]:
    """Points along a path of cubic curves."""
    found = [points[0]]
    for i in range(1, len(points) - 2, 3):
        a, (b, c, d) = found[-1], points[i : i + 3]
        for t in (0.1 * step for step in range(1, 11)):
            s = 1 - t
            found.append(tuple(s**3 * a[k] + 3 * s * s * t * b[k] + 3 * s * t * t * c[k] + t**3 * d[k] for k in (0, 1)))
    return found


def extent_mm(shape: Shape) -> tuple[float, float]:
    xs, ys = zip(*along(shape.points), strict=True)
    return (max(xs) - min(xs)) / MM, (max(ys) - min(ys)) / MM


def painted_percent(shape: Shape) -> float:
    return luminance_percent("#" + "".join(f"{round(255 * part):02X}" for part in shape.colour))


@DIRECTIONS
@pytest.mark.parametrize("name", ["strong-minus-astigmat", "titanium-plus-cylinder", "upright-axis-one-eye"])
def test_the_axis_on_the_page_is_the_ordered_one(name: str, spoken: str) -> None:
    """Anticlockwise from the reader's right, for both eyes (ISO 8429): the page's y runs upward here."""
    prescription, seen = order(name).spectacles.prescription, 0
    for side in ("right", "left"):
        eye = prescription.right if side == "right" else prescription.left
        if not eye.cylinder_d or eye.axis_deg is None:
            continue
        as_made = eye.axis_deg if eye.cylinder_d < 0 else (eye.axis_deg + 90 - 1) % 180 + 1
        strokes = on_the_page(name, f"dial_{side}", spoken)
        lines = [s for s in strokes if s.kind == "stroke" and s.width == pytest.approx(AXIS_WIDTH_PT, abs=0.1)]
        assert len(lines) == 1
        (x1, y1), (x2, y2) = lines[0].points[0], lines[0].points[-1]
        drawn = math.degrees(math.atan2(y2 - y1, x2 - x1))
        assert (drawn - as_made + 90) % 180 - 90 == pytest.approx(0, abs=0.3)
        seen += 1
    assert seen


@DIRECTIONS
def test_the_pair_on_the_page_is_life_size(spoken: str) -> None:
    frame = order("strong-minus-astigmat").spectacles.frame
    painted = on_the_page("strong-minus-astigmat", "pair", spoken)
    lenses = [each for each in painted if each.kind == "fill"][:2]  # they are painted first: right, then left
    for lens in lenses:
        wide, high = extent_mm(lens)
        assert wide == pytest.approx(frame.a_mm, abs=0.1)
        assert high == pytest.approx(frame.b_mm, abs=0.1)
    right, left = ([x for x, _ in along(lens.points)] for lens in lenses)
    assert (min(left) - max(right)) / MM == pytest.approx(frame.dbl_mm, abs=0.1)


@DIRECTIONS
def test_the_rule_on_the_page_is_fifty_millimetres(spoken: str) -> None:
    lines = [each for each in on_the_page("strong-minus-astigmat", "rule", spoken) if each.kind == "stroke"]
    left, _, right, _ = max(lines, key=lambda each: each.box[2] - each.box[0]).box
    assert (right - left) / MM == pytest.approx(50, abs=0.05)


@DIRECTIONS
def test_greys_on_the_page_are_the_light_that_the_lens_lets_through(spoken: str) -> None:
    """Left of the slant the palest, right of it the darkest, in either direction of reading."""
    band = explained("photochromic-driver").claims.value("shade.cloudy.light")
    assert isinstance(band, Interval)
    fills = [each for each in on_the_page("photochromic-driver", "shade_cloudy", spoken) if each.kind == "fill"]
    assert [round(painted_percent(each)) for each in fills[:4]] == [round(band.high), round(band.low)] * 2
    for pale, dark in (fills[:2], fills[2:4]):
        assert sum(pale.box[::2]) / 2 < sum(dark.box[::2]) / 2


def test_nothing_prints_darker_than_sixty_per_cent_black_but_small_bars() -> None:
    """Of the pair: its rims are filled with a grey-blue of less than 60 per cent black; lines may be darker."""
    for each in on_the_page("strong-minus-astigmat", "pair", "en"):
        if each.kind == "fill" and 1 - max(each.colour) > 0.6:
            left, low, right, high = each.box
            assert (right - left) * (high - low) / MM**2 < 40
