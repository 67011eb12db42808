"""The frame of an order for those who draw it, and the pictures that are nothing but this very pair."""

from __future__ import annotations

from collections.abc import Mapping

from explainer.compose.document import FigureRequest
from explainer.optics.claim import Interval
from explainer.optics.claims.ledger import ClaimSet
from explainer.optics.formulas import shape
from explainer.optics.formulas.shape import Outline
from explainer.optics.spectacles import SIDES, Frame, Side, Spectacles

Values = dict[str, object]
Pictures = dict[str, FigureRequest]
_MOST_POINTS = 96
_USUAL_HEIGHT_MM = {"bifocal": -5.0, "progressive": 3.0}  # above the box's middle where none was measured
_USUAL_INSET_MM = 2.0  # of the near part, where no near distance was measured (common practice)


def frame_values(spectacles: Spectacles, claims: ClaimSet) -> Values | None:
    """What draws the front: outlines [mm], the distance between the lenses, the kind of frame; None if not known."""
    frame = spectacles.frame
    outlines = {side: _outline(frame, side) for side in SIDES}
    if frame.dbl_mm is None or None in outlines.values():
        return None
    values: Values = {side: _points(outline) for side, outline in outlines.items() if outline is not None}
    return values | {"dbl_mm": claims.number("frame.dbl"), "kind": frame.material}


def usual_frame(spectacles: Spectacles) -> Values:
    """A frame of a usual size (common practice), for small pictures of a pair whose measures are not known."""
    outline = _points(shape.outline_from_box(a_mm=50.0, b_mm=38.0, ed_mm=None))
    return {"right": outline, "left": outline, "dbl_mm": 18.0, "kind": spectacles.frame.material}


def pupil_distance(claims: ClaimSet) -> float | None:
    """The distance between the pupils [mm], where it is known."""
    return claims.number("pair.pd") if "pair.pd" in claims else None


def _outline(frame: Frame, side: Side) -> Outline | None:
    traced = frame.outline(side)
    if traced is not None:
        return shape.outline_from_radii(radii_mm=traced)
    if frame.a_mm is None or frame.b_mm is None:
        return None
    return shape.outline_from_box(a_mm=frame.a_mm, b_mm=frame.b_mm, ed_mm=frame.ed_mm)


def _points(outline: Outline) -> tuple[tuple[float, float], ...]:
    """The outline's points to a hundredth of a millimetre, no more than a picture needs."""
    every = list(zip(outline.x_mm, outline.y_mm, strict=True))
    step = -(-len(every) // _MOST_POINTS)
    return tuple((round(x, 2), round(y, 2)) for x, y in every[::step])


def pair_pictures(spectacles: Spectacles, claims: ClaimSet, frame: Values | None) -> Pictures:
    """The pair in life size, and its ruler."""
    if frame is None:
        return {}
    values = dict(frame)
    fixed = fixed_percent(claims)
    if fixed is not None:
        values |= {"percent": fixed, "colour": colour_of(spectacles)}
    zones = _zones(spectacles, claims, frame)
    if zones is not None:
        values["zones"] = zones
    found = {"pair": FigureRequest("pair", values), "rule": FigureRequest("rule", {})}
    return found | _pupils(spectacles, claims, frame)


def _pupils(spectacles: Spectacles, claims: ClaimSet, frame: Values) -> Pictures:
    """Where the lenses are centred: before each pupil where both were measured, else half the whole distance each."""
    each = all(f"{side}.pd" in claims for side in SIDES) and spectacles.lens.design != "reading"
    if not each and "pair.centres" not in claims:
        return {}
    away = tuple(claims.number(f"{side}.pd") if each else claims.number("pair.centres") / 2 for side in SIDES)
    heights = tuple(_above_middle(claims, side, frame) for side in SIDES)
    values = frame | {"centres_mm": away, "heights_mm": heights, "each": each}
    return {"pupils": FigureRequest("pupils", values)}


def colour_of(spectacles: Spectacles) -> str:
    """The hue of the tint; grey where the order names none."""
    return spectacles.lens.tint_colour or "grey"


def fixed_percent(claims: ClaimSet) -> float | None:
    """How much light a fixed tint lets through: the middle of its band, or what was ordered; None without a tint."""
    if claims.value("tint.class") != "fixed":
        return None
    for name in ("tint.transmittance", "tint.category.light"):
        value = claims.value(name)
        if isinstance(value, Interval):
            return round((value.low + value.high) / 2, 2)
        if isinstance(value, int | float):
            return float(value)
    return None


def _zones(spectacles: Spectacles, claims: ClaimSet, frame: Mapping[str, object]) -> tuple[object, ...] | None:
    design = spectacles.lens.design
    if design not in _USUAL_HEIGHT_MM:
        return None
    far = tuple(_pupil(spectacles, claims, side) for side in SIDES)
    if None in far:
        return None
    near_pd = spectacles.measurements.near_pd_mm
    near = tuple(near_pd / 2 if near_pd else float(x or 0) - _USUAL_INSET_MM for x in far)
    measured = [_above_middle(claims, side, frame) for side in SIDES]
    heights = tuple(_USUAL_HEIGHT_MM[design] if height is None else height for height in measured)
    return (design, far, near, heights)


def _pupil(spectacles: Spectacles, claims: ClaimSet, side: Side) -> float | None:
    """How far that pupil is from the middle of the nose [mm]: half the whole distance where only that is known."""
    if f"{side}.pd" in claims:
        return claims.number(f"{side}.pd")
    return claims.number("pair.pd") / 2 if "pair.pd" in claims else None


def _above_middle(claims: ClaimSet, side: Side, frame: Mapping[str, object]) -> float | None:
    """The measured fitting height above the box's middle [mm], if there is one."""
    if f"{side}.height" not in claims:
        return None
    points = frame[side]
    assert isinstance(points, tuple)
    ys = [float(y) for _, y in points]
    half = (max(ys) - min(ys)) / 2
    return round(claims.number(f"{side}.height") - half, 2)
