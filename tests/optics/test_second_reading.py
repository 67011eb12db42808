"""A second reading of ten evidence sheets: every number again from the inputs that its row lists, and from no other.

The arithmetic is that of a pocket calculator and of textbooks, written here anew; nothing of the program's formulas is
imported. An input that is a range is taken at both ends, or in its middle where the sheet gives one number. Not read
here, because no calculator does it: the bands of the model of light (sums over spectra), and thickness, weight and
diameter (a search over the outline); other tests hold those against meshes, tables and studies.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from itertools import product
from typing import Any

import pytest
from wide_orders import wide_orders

from explainer.optics import facts
from explainer.optics.claim import Claim, Interval
from explainer.optics.claims import explain
from explainer.optics.claims.ledger import ClaimSet

SHEETS = (
    "all-read",
    "changed-prescription",
    "dark-tint-three",
    "prism-both-directions",
    "progressive-changed",
    "strong-minus-astigmat",
    "strong-plus-reading",
    "one-good-eye-night-driver",
    "tilted",
    "bifocal as read",
)
MODEL_OF_LIGHT = ("formulas.photochromic.", "formulas.extent.")
FROM_THE_OUTLINE = ("formulas.thickness.", "formulas.weight.", "formulas.shape.")


class Row:
    """The inputs of one row by the end of their names; `x("made.sphere")` is the only input that ends so."""

    def __init__(self, claim: Claim, values: dict[str, Any]) -> None:
        self.id, self.values = claim.id, values

    def __call__(self, *ends: str, side: str = "") -> Any:
        found = [v for ref, v in self.values.items() if ref.startswith(side) and ref.endswith(ends)]
        assert len(found) == 1, f"{self.id}: {ends} names {len(found)} of {list(self.values)}"
        return found[0]

    def maybe(self, *ends: str, side: str = "", otherwise: float = 0.0) -> Any:
        has = any(ref.startswith(side) and ref.endswith(ends) for ref in self.values)
        return self(*ends, side=side) if has else otherwise


def lens(x: Row, name: str = "", side: str = "") -> tuple[float, float, float]:
    start = f".{name}"
    return x(f"{start}sphere", side=side), x(f"{start}cylinder", side=side), x.maybe(f"{start}axis", side=side)


def minus_form(sphere: float, cylinder: float, axis: float) -> tuple[float, float, float]:
    if cylinder > 0:
        sphere, cylinder, axis = sphere + cylinder, -cylinder, axis + 90
    return sphere, cylinder, (axis % 180 or 180.0) if cylinder else 180.0


def matrix(sphere: float, cylinder: float, axis: float) -> tuple[float, float, float]:
    s, c = math.sin(math.radians(axis)), math.cos(math.radians(axis))
    return sphere + cylinder * s * s, sphere + cylinder * c * c, -cylinder * s * c


def vector(sphere: float, cylinder: float, axis: float) -> tuple[float, float, float]:
    double = math.radians(2 * axis)
    return sphere + cylinder / 2, -cylinder / 2 * math.cos(double), -cylinder / 2 * math.sin(double)


def made(x: Row) -> float:
    sphere, cylinder = x("near_sphere", ".sphere"), x(".cylinder")
    return minus_form(sphere, cylinder, x.maybe(".axis"))[("sphere", "cylinder", "axis").index(tail(x))]


def compared(x: Row) -> float:
    name = "previous." if x.id.split(".")[1] == "then" else ""
    return minus_form(*lens(x, name))[("sphere", "cylinder", "axis").index(tail(x))]


def tail(x: Row) -> str:
    return x.id.rpartition(".")[2]


def power(x: Row, which: str) -> float:
    return x(".sphere") + (x(".cylinder") if which == "across_axis" else 0.0)


def strongest(x: Row) -> float:
    return max(abs(x(".sphere")), abs(x(".sphere") + x(".cylinder")))


def in_meridian(x: Row) -> float:
    across, upright, _ = matrix(*lens(x, "made."))
    return across if tail(x) == "horizontal" else upright


def down(x: Row) -> float:
    return abs(matrix(*lens(x, side="right"))[1] - matrix(*lens(x, side="left"))[1]) * x("drop") / 10


def change(x: Row) -> float:
    return math.dist(vector(*lens(x, "previous.")), vector(*(v for v in received_now(x))))


def received_now(x: Row) -> tuple[float, float, float]:
    now = {ref.rpartition(".")[2]: v for ref, v in x.values.items() if ".previous." not in ref}
    return now["sphere"], now["cylinder"], now.get("axis", 0.0)


def centre(x: Row) -> float:
    xx, yy, xy = matrix(*lens(x, "made."))
    nose = 1 if x.id.startswith("right") else -1
    h, v = nose * x.maybe("prism.horizontal"), x.maybe("prism.vertical")
    area = xx * yy - xy * xy
    return nose * 10 * (yy * h - xy * v) / area if tail(x) == "in" else 10 * (xx * v - xy * h) / area


def front(x: Row) -> float:
    mean = x("made.mean_sphere")
    return x("front_curve.minus") + max(mean, -12) / 2 if mean < 0 else x("front_curve.plus") + min(mean, 8)


def thick(x: Row) -> float:
    f1, f2, t = x("front_curve"), x(f"back_curve.{tail(x)}"), x("thickness.centre") / 1000 / x("index_d")
    kind = x.id.split(".")[1]
    if kind == "back_vertex":
        return f1 / (1 - t * f1) + f2
    return f2 / (1 - t * f2) + f1 if kind == "front_vertex" else f1 + f2 - t * f1 * f2


def magnification(x: Row) -> float:
    shape = 1 - x("thickness.centre") / 1000 / x("index_d") * x("front_curve")
    return 1 / shape / (1 - x("pupil_distance") / 1000 * x("made.mean_sphere"))


def picture_sizes(x: Row) -> float:
    sizes = []
    for side in ("right", "left"):
        shape = 1 - x("thickness.centre", side=side) / 1000 / x("index_d") * x("front_curve", side=side)
        sizes.append(1 / shape / (1 - x("pupil_distance") / 1000 * x("made.mean_sphere", side=side)))
    return 100 * (max(sizes) / min(sizes) - 1)


def base(x: Row) -> float:
    nose = 1 if x.id.startswith("right") else -1
    return math.degrees(math.atan2(x("vertical"), nose * x("horizontal"))) % 360


def worn(x: Row) -> tuple[float, float, float]:
    """Martin's two factors on the power matrix, in the directions along and across the hinge."""
    forward, around = math.radians(x("pantoscopic_tilt")), math.radians(x("wrap"))
    nose = 1 if x.id.startswith("right") else -1
    across, up = -nose * math.sin(around) * math.cos(forward), -math.sin(forward)
    hinge, sine = math.degrees(math.atan2(up, across)) + 90, math.hypot(across, up)
    if tail(x) == "tilt":
        return (math.degrees(math.asin(sine)),) * 3
    sphere, cylinder, axis = lens(x, "made.")
    a, b, c = matrix(sphere, cylinder, axis - hinge)
    gain, cosine = 1 + sine**2 / (2 * x("index_d")), math.sqrt(1 - sine**2)
    a, b, c = a * gain, b * gain / cosine**2, c * gain / cosine
    size = math.sqrt((a - b) ** 2 + 4 * c**2)
    turned = math.degrees(math.atan2(c, (a - b) / 2)) / 2 + hinge
    return (a + b + size) / 2, -size, turned % 180 or 180.0


def stronger_and_weaker(x: Row) -> float:
    s, c, _ = lens(x, "made.")
    rs, rc, _ = minus_form(x("sphere.reading"), x("cylinder.reading"), 0)
    pairs = sorted([(s, rs), (s + c, rs + rc)], key=lambda p: (round(abs(p[0]), 9), abs(p[1] - p[0])), reverse=True)
    ordered, read = pairs[0 if ".stronger." in x.id else 1]
    return {"ordered": ordered, "reading": read, "deviation": read - ordered}[tail(x)]


def row_limit(x: Row) -> float:
    name = next(ref for ref in x.values if ref.endswith(".allowed"))
    size = abs(next(v for ref, v in x.values.items() if not ref.startswith("fact:")))
    share = facts.get(name.removeprefix("fact:")).unit == "percent"
    return x(".allowed") * size / 100 if share else x(".allowed")


def greatest(x: Row, upright: bool) -> float:
    return max(abs(matrix(*lens(x, "made.", side))[upright]) for side in ("right", "left"))


def shifted(x: Row) -> float:
    """Prism of the pair: read less ordered in both lenses, and what the points off their places add."""
    upright = ".vertical." in x.id or ".heights." in x.id
    total = 0.0
    for side, sign in (("right", 1), ("left", -1 if upright else 1)):
        way = "vertical" if upright else "horizontal"
        read = x.maybe(f".{side}.prism.{way}.reading")
        total += sign * (read - x.maybe(f"{side}.prism.{way}", side=side))
        xx, yy, xy = (
            matrix(*lens(x, "made.", side))
            if x.maybe("made.sphere", side=side, otherwise=None) is not None
            else (0,) * 3
        )
        nose = 1 if side == "right" else -1
        own = x.maybe(f".{side}.reference_point.deviation") / 10
        out = own or x.maybe("points.deviation", "centres.deviation") / 20
        high = x.maybe(f".{side}.height.deviation") / 10
        right_x = -nose * out
        total += sign * ((nose * (xx * right_x + xy * high)) if not upright else (xy * right_x + yy * high))
    return abs(total)


READERS: dict[str, Callable[[Row], float]] = {
    r"(right|left)\.made\.(sphere|cylinder|axis)": made,
    r"(right|left)\.made\.near_sphere": lambda x: (
        x("made.sphere") + x(".add") if x.maybe(".add") else minus_form(x("near_sphere"), x(".cylinder"), 0)[0]
    ),
    r"(right|left)\.near_sphere": lambda x: x(".sphere") + x(".add"),
    r"(right|left)\.(then|now)\..*": compared,
    r"(right|left)\.(made\.)?power\.along_axis": lambda x: power(x, "along_axis"),
    r"(right|left)\.(made\.)?power\.across_axis": lambda x: power(x, "across_axis"),
    r"(right|left)\.made\.power\.(horizontal|vertical)": in_meridian,
    r"(right|left)\.(made\.)?mean_sphere": lambda x: x(".sphere") + x(".cylinder") / 2,
    r"(right|left)\.(made\.)?strongest": strongest,
    r"(right|left)\.(steps\..*|made\.steps)": lambda x: round(next(iter(x.values.values())) * 4),
    r"(right|left)\.vector\.(M|J0|J45)": lambda x: vector(*lens(x))[("M", "J0", "J45").index(tail(x))],
    r"(right|left)\.far_point": lambda x: -100 / x("mean_sphere"),
    r"(right|left)\.sight\.far": lambda x: -100 / x("mean_sphere") + x("pair.vertex", "at_refraction") / 10,
    r"(right|left)\.turn\..*residual": lambda x: (
        2 * abs(x(".cylinder") * math.sin(math.radians(x("angle.small", "angle.large"))))
    ),
    r"(right|left)\.blur\..*": lambda x: x("pupil") * abs(x("_axis")),
    r"(right|left)\.change": change,
    r"pair\.anisometropia": lambda x: abs(x("mean_sphere", side="right") - x("mean_sphere", side="left")),
    r"pair\.prism\.vertical_at_10mm_down": down,
    r"(right|left)\.magnification\.eyes_seen": lambda x: (
        1 / (1 - x("pair.vertex", "at_refraction") / 1000 * x("mean_sphere"))
    ),
    r"(right|left)\.vertex\.power_at_eye": lambda x: (
        x("mean_sphere") / (1 - x("pair.vertex", "at_refraction") / 1000 * x("mean_sphere"))
    ),
    r"(right|left)\.reflection\.per_surface": lambda x: 100 * ((x("index") - 1) / (x("index") + 1)) ** 2,
    r"(right|left)\.transmission\.uncoated": lambda x: 100 * 2 * x("index") / (x("index") ** 2 + 1),
    r"(right|left)\.colour_fringe\.at_10mm": lambda x: x("strongest") * x("side_look") / 10 / x("abbe"),
    r"(right|left)\.colour_fringe\.seen_from": lambda x: 10 * x("threshold") * x("abbe") / x("strongest"),
    r"pair\.pd": lambda x: x("right.pd") + x("left.pd"),
    r"pair\.reference_points": lambda x: x("pd"),
    r"pair\.centres|bench\.optical_centres\.ordered": lambda x: (
        x("reference_points", "pair.pd", "near_pd") - x("centre.in", side="right") - x("centre.in", side="left")
    ),
    r"(right|left)\.decentration": lambda x: (
        (x("frame.a") + x("frame.dbl")) / 2 - (x.maybe("pair.pd", "near_pd") / 2 or x("t.pd"))
    ),
    r"(right|left)\.centre\.(in|up)": centre,
    r"(right|left)\.front_curve": front,
    r"(right|left)\.(back_vertex|front_vertex|equivalent)\..*": thick,
    r"(right|left)\.saving\.thickness": lambda x: 100 - 100 * x("thickness.thickest") / x("reference.thickest"),
    r"(right|left)\.saving\.weight": lambda x: 100 - 100 * x(".weight") / x("reference_weight"),
    r"(right|left)\.pupil_distance": lambda x: x("pair.vertex", "at_refraction") + x("behind_vertex"),
    r"(right|left)\.magnification\.spectacle": magnification,
    r"pair\.image_size": picture_sizes,
    r"(right|left)\.prism\.whole": lambda x: math.hypot(x("horizontal"), x("vertical")),
    r"(right|left)\.prism\.base": base,
    r"(right|left)\.prism\.moves": lambda x: math.hypot(x("horizontal"), x("vertical")) * x("metre") / 100,
    r"(right|left)\.fire_focus": lambda x: 1000 / x("made.sphere"),
    r"(right|left)\.focus_help": lambda x: max(0.0, min(x("mean_sphere"), x("accommodation"))),
    r"wearer\.accommodation\.mean": lambda x: max(0.0, 18.5 - 0.3 * x("wearer.age")),
    r"near\.begins\.usual": lambda x: 100 / (x("no_addition") + x("mean") * (1 - x("reserve") / 100)),
    r"near\.(begins|range\.near_end)": lambda x: (
        100 / (x("no_addition", ".add") + max(0.0, 15 - x("wearer.age") / 4) * (1 - x("reserve") / 100))
    ),
    r"near\.far_end": lambda x: 100 / x(".add"),
    r"pair\.near_inset": lambda x: (x("pair.pd") - x("near_pd")) / 2,
    r"pair\.near_inset\.whole": lambda x: (x("frame.a") + x("frame.dbl") - x("near_pd")) / 2,
    r"pair\.centre_drop": lambda x: x("tilt") / x("degrees_per_mm"),
    r"(right|left)\.worn\..*": lambda x: worn(x)[("sphere", "cylinder", "axis", "tilt").index(tail(x)) % 3],
    r"tint\.windscreen\.light\.with_glass": lambda x: (
        x("tint.transmittance", "category.light") * x("light.range") / 100
    ),
    r"(right|left)\.axis_tolerance|bench\..*\.(add|axis|cylinder|stronger|weaker)\.allowed": row_limit,
    r"bench\..*\.(stronger|weaker)\.(ordered|reading|deviation)": stronger_and_weaker,
    r"bench\..*\.cylinder\.deviation": lambda x: abs(x("reading")) - abs(x("made.cylinder")),
    r"bench\..*\.axis\.deviation": lambda x: min((d := abs(x("reading") - x("made.axis")) % 180), 180 - d),
    r"bench\..*\.(add|height|reference_point)\.deviation|bench\.[ro]\w+s\.deviation": lambda x: (
        x(".reading") - next(v for ref, v in x.values.items() if not ref.endswith(".reading"))
    ),
    r"bench\.heights\.deviation": lambda x: x("right.height.deviation") - x("left.height.deviation"),
    r"bench\..*\.prism\.deviation": lambda x: math.hypot(
        *(
            x(f"{way}.reading") - x.maybe(f"t.prism.{way}", side=x.id.split(".")[1])
            for way in ("horizontal", "vertical")
        )
    ),
    r"bench\.(horizontal|vertical|reference_points|optical_centres|heights)\.prism": shifted,
    r"bench\.(horizontal|vertical)\.deviation_mm": lambda x: 10 * x(".prism") / greatest(x, "vertical" in x.id),
    r"bench\..*\.(allowed|allowed_mm)": lambda x: next(
        v for ref, v in x.values.items() if ref.startswith("fact:") and not ref.endswith(("up_to", "above"))
    ),
}
RANGES: dict[str, Callable[[Row], tuple[float, float]]] = {
    r"wearer\.accommodation": lambda x: (max(0.0, 15 - x("wearer.age") / 4), max(0.0, 25 - 0.4 * x("wearer.age"))),
}


def again(claim: Claim, claims: ClaimSet) -> tuple[float, float] | None:
    """The extent of the number at all ends of its inputs; None where no reader stands for it."""
    reader = next((read for name, read in {**RANGES, **READERS}.items() if re.fullmatch(name, claim.id)), None)
    if reader is None:
        return None
    inputs = {ref: facts.get(ref[5:]).value if ref.startswith("fact:") else claims[ref].value for ref in claim.inputs}
    if not isinstance(claim.value, Interval):
        inputs = {ref: v.middle if isinstance(v, Interval) else v for ref, v in inputs.items()}
    choices = [(v.low, v.high) if isinstance(v, Interval) else (v,) for v in inputs.values()]
    found: list[float] = []
    for values in product(*choices):
        number = reader(Row(claim, dict(zip(inputs, values, strict=True))))
        found += number if isinstance(number, tuple) else [number]
    return min(found), max(found)


def numbers(claims: ClaimSet) -> list[Claim]:
    apart = (*MODEL_OF_LIGHT, *FROM_THE_OUTLINE)
    counted = [claim for claim in claims.values() if claim.formula and not isinstance(claim.value, bool | str)]
    return [claim for claim in counted if not str(claim.formula).startswith(apart)]


@pytest.mark.parametrize("sheet", SHEETS)
def test_every_number_of_the_sheet_follows_from_the_inputs_it_lists(sheet: str):
    claims = explain(wide_orders()[sheet]).claims
    read = numbers(claims)

    assert len(read) > 60
    for claim in read:
        found = again(claim, claims)
        assert found is not None, f"nobody reads {claim.id} again"
        value = claim.value
        low, high = (value.low, value.high) if isinstance(value, Interval) else (value, value)
        assert (low, high) == pytest.approx(found, rel=1e-9, abs=1e-9), f"{claim.id} = {value}, again {found}"
