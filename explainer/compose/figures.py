"""Which figures a document needs, and the numbers each is drawn from: claims, and the shapes behind them."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from explainer.compose.document import FigureRequest
from explainer.optics import facts
from explainer.optics.claim import Interval
from explainer.optics.claims import Explanation, LensShape
from explainer.optics.claims.ledger import ClaimSet
from explainer.optics.claims.tint import temperatures
from explainer.optics.facts import spectra
from explainer.optics.formulas.power_vector import subtract
from explainer.optics.formulas.prescription import SpheroCylinder
from explainer.optics.formulas.thickness import CutLens
from explainer.optics.light.bands import changing
from explainer.optics.light.places import activation_spectrum, pane_spectrum
from explainer.optics.light.views import fading
from explainer.optics.spectacles import SIDES, LensChoice, Side, Spectacles

SPARE_FIGURES = (
    ("outline", "weight_bars"),
    ("care_steps", "fit_level", "fit_bend"),
    ("fit_table", "tint_spectrum"),
    ("tint_curves",),
    ("sight",),
)
"""Pictures of what the words say too: they give way, in this order, when a leaflet is too long for its sheet."""

ALWAYS = ("fit_table", "fit_folded", "fit_level", "fit_bend", "care_steps")
LETTER_HEIGHT_MRAD = 4 * 2.909  # forty minutes of arc: the large letters of a street sign a block away
CLEARING_S = tuple(float(second) for second in range(0, 1201, 40))
BAR_PLACES = ("summer_noon", "windscreen_low_sun", "side_window_clear", "side_window_green", "convertible")


def figure_requests(
    spectacles: Spectacles,
    explanation: Explanation,
    *,
    flags: frozenset[str],
    sight_side: Side,
    section_side: Side,
) -> Mapping[str, FigureRequest]:
    """Every figure of the document by name."""
    claims = explanation.claims
    found = [FigureRequest(name, {}) for name in ALWAYS]
    found.append(_ladder(claims))
    if spectacles.frame.material in ("metal", "titanium", "half-rim", "rimless"):
        found.append(FigureRequest("fit_pads", {}))
    if "cylinder" in flags:
        found.append(_dial(claims))
    if "photochromic" not in flags:  # tint and car take the room; to find that out by setting the page costs a second
        found += _spare(spectacles, explanation, section_side, compared="comparison" in flags)
    if section_side in explanation.shapes:
        found.append(_section(explanation.shapes[section_side], section_side, compared="comparison" in flags))
    if "photochromic" in flags:
        found += [_tint_bars(claims), _spectrum(spectacles.lens), _clearing(spectacles.lens)]
    elif "tint.windscreen.light.with_glass" in claims:
        found.append(_fixed_bars(claims))
    if "sight" in flags:
        found.append(_sight(claims, sight_side, turned="turn_shows" in flags))
    return {request.name: request for request in found}


def _dial(claims: ClaimSet) -> FigureRequest:
    values: dict[str, object] = {}
    for side in SIDES:
        values[f"{side}_axis_deg"] = claims.value(f"{side}.made.axis")
    return FigureRequest("dial", values)


def _ladder(claims: ClaimSet) -> FigureRequest:
    values: dict[str, object] = {}
    for side in SIDES:
        sphere, cylinder = claims.number(f"{side}.made.sphere"), claims.number(f"{side}.made.cylinder")
        values[f"{side}_along_d"] = sphere
        values[f"{side}_across_d"] = sphere + cylinder
    return FigureRequest("ladder", values)


def _spare(spectacles: Spectacles, explanation: Explanation, side: Side, *, compared: bool) -> list[FigureRequest]:
    """Pictures for leaflets that have room for them."""
    found = [_weights(explanation.claims, side)] if compared else []
    if _centred(spectacles, explanation):
        found.append(_pair(explanation.claims, explanation.shapes))
    return found


def _centred(spectacles: Spectacles, explanation: Explanation) -> bool:
    """Whether the optical centres stand level with the middles of the boxes, as far as the order says."""
    measured, claims = spectacles.measurements, explanation.claims
    level = measured.height_right_mm is None and measured.height_left_mm is None
    single = spectacles.lens.design in (None, "single-vision", "reading")
    shaped = all(side in explanation.shapes for side in SIDES)
    return level and single and shaped and moved_in(claims) and "pair.centres" in claims


def moved_in(claims: ClaimSet) -> bool:
    """Whether both optical centres stand nearer the nose than the middles of the lenses."""
    shifts = [claims.value(f"{side}.decentration") for side in SIDES]
    return all(isinstance(shift, int | float) and shift > 0 for shift in shifts)


def _pair(claims: ClaimSet, shapes: Mapping[Side, LensShape]) -> FigureRequest:
    values: dict[str, object] = {"dbl_mm": claims.number("frame.dbl")}
    for side in SIDES:
        points = tuple(
            (round(x, 2), round(y, 2))
            for x, y in zip(shapes[side].outline.x_mm, shapes[side].outline.y_mm, strict=True)
        )
        own_pd = claims.number(f"{side}.pd") if f"{side}.pd" in claims else None
        values[side] = (points, claims.number(f"{side}.decentration"), 0.0, own_pd)
    return FigureRequest("outline", values)


def _weights(claims: ClaimSet, side: Side) -> FigureRequest:
    """The lens beside the same in hard resin."""
    bars = (
        ("this_lens", claims.number(f"{side}.weight"), True),
        ("hard_resin_lens", claims.number(f"{side}.reference_weight"), False),
    )
    return FigureRequest("weight_bars", {"bars": bars, "unit": "g", "digits": 0})


def _section(shape: LensShape, side: Side, *, compared: bool) -> FigureRequest:
    values: dict[str, object] = {"lens": _profile(shape.made), "side": side}
    if compared and shape.reference is not None:
        values["reference"] = _profile(shape.reference)
    return FigureRequest("lens_section", values)


def _profile(lens: CutLens) -> tuple[tuple[float, ...], ...]:
    return (lens.section.x_mm, lens.section.front_mm, lens.section.back_mm)


def _tint_bars(claims: ClaimSet) -> FigureRequest:
    rows = []
    for place in BAR_PLACES:
        value = claims.value(f"tint.{place}.23.transmittance")
        if isinstance(value, Interval):
            rows.append((place, value.low, value.high, None))
    return FigureRequest("tint_bars", {"rows": tuple(rows), "bands": _categories()})


def _fixed_bars(claims: ClaimSet) -> FigureRequest:
    """A fixed tint alone and behind a windscreen."""
    alone = claims.value("tint.category.light")
    known = claims.value("tint.transmittance")
    light = alone if isinstance(alone, Interval) else known
    low, high = (light.low, light.high) if isinstance(light, Interval) else (light, light)
    both = claims.value("tint.windscreen.light.with_glass")
    assert isinstance(both, Interval)
    rows = (("this_lens", low, high, None), ("with_windscreen", both.low, both.high, None))
    return FigureRequest("tint_bars", {"rows": rows, "bands": _categories()})


def _categories() -> tuple[tuple[str, float, float], ...]:
    bands = [facts.get(f"light.category.{number}").interval for number in range(5)]
    return tuple((f"category_{number}", band.low, band.high) for number, band in enumerate(bands))


def _spectrum(lens: LensChoice) -> FigureRequest:
    """Sun, windscreen and dye over the wavelengths at which they meet."""
    wavelengths = [float(nm) for nm in range(300, 461, 4)]
    sun = [float(value) for value in spectra.load("astm_g173", "global").at(np.array(wavelengths))]
    glass = pane_spectrum("windscreen").at(np.array(wavelengths))
    dye = activation_spectrum(changing(lens)).at(np.array(wavelengths))
    values = {
        "wavelength_nm": tuple(wavelengths),
        "sun": tuple(round(value / max(sun), 4) for value in sun),
        "glass": tuple(round(float(value), 4) for value in glass),
        "dye": tuple(round(min(float(value), 1.0), 4) for value in dye),
    }
    return FigureRequest("tint_spectrum", values)


def _clearing(lens: LensChoice) -> FigureRequest:
    """How the lens clears indoors, from dark, at the three temperatures of the leaflet."""
    courses = []
    for celsius in temperatures():
        curve = fading(lens, seconds=CLEARING_S, celsius=celsius)
        rows = ((round(float(value), 1) for value in row) for row in (curve.central, curve.low, curve.high))
        courses.append((celsius, CLEARING_S, *(tuple(row) for row in rows)))
    return FigureRequest("tint_curves", {"darkening": (), "fading": tuple(courses)})


def _sight(claims: ClaimSet, side: Side, *, turned: bool) -> FigureRequest:
    """What remains uncorrected with nothing, with the sphere, with both, and with the lens turned if that shows."""
    lens = SpheroCylinder(
        claims.number(f"{side}.sphere"),
        claims.number(f"{side}.cylinder"),
        claims.number(f"{side}.axis") if f"{side}.axis" in claims else 180.0,
    )
    askew = lens._replace(axis_deg=(lens.axis_deg + claims.number("turn.angle.large") - 1) % 180 + 1)
    panels = {
        "nothing": lens,
        "sphere_only": lens._replace(sphere_d=0.0),
        "both": SpheroCylinder(0.0, 0.0, 180.0),
        "turned": subtract(lens, askew),
    }
    if not turned:  # a picture just like the one before it would say that turning does no harm
        del panels["turned"]
    if lens.cylinder_d == 0:
        del panels["sphere_only"]
    return FigureRequest(
        "sight",
        {
            "panels": tuple(
                (key, *residual, *((claims.number("turn.angle.large"), "deg") if key == "turned" else ()))
                for key, residual in panels.items()
            ),
            "pupil_mm": claims.number("sight.pupil"),
            "letter_height_mrad": LETTER_HEIGHT_MRAD,
        },
    )
