"""Claims about where the finished lenses stand: their reference points, their optical centres, their heights.

The reference point shows the prescribed prism and belongs before the pupil. Where prism is prescribed the optical
centre stands elsewhere, or nowhere on the lens. A pair may be measured by either; both are held against the same order.
"""

from __future__ import annotations

from explainer.optics.claims.bench_lens import ordered_prism
from explainer.optics.claims.centre import place_of
from explainer.optics.claims.judging import both_lenses, judge, unlimited
from explainer.optics.claims.ledger import Ledger
from explainer.optics.claims.lens import points_apart
from explainer.optics.claims.limits import Limits, PairLimit
from explainer.optics.claims.working import Plain, Ref, Working
from explainer.optics.facts.tolerance_tables import Direction
from explainer.optics.formulas import comparison, finished, imbalance, optical_centre, prism
from explainer.optics.spectacles import SIDES, Readings, Side, Spectacles

POINTS, CENTRES = "bench.reference_points", "bench.optical_centres"


def issue(ledger: Ledger, spectacles: Spectacles, readings: Readings, limits: Limits) -> None:
    """Distances and heights as far as they were read, and the prism of the pair that comes of all."""
    progressive = spectacles.lens.design == "progressive"
    for side in SIDES:
        _point(ledger, spectacles, readings, side, limits)
        _height(ledger, spectacles, readings, side, limits)
        thickness = readings.of("centre_thickness", side)
        if thickness is not None and f"bench.{side}.thickness.reading" not in ledger:
            ledger.measured(f"bench.{side}.thickness.reading", thickness)
    shift = _points(ledger, spectacles, readings, limits, progressive=progressive)
    shift = _centres(ledger, spectacles, readings, limits) or shift
    for direction in ("horizontal", "vertical"):
        _pair(ledger, direction, shift, limits, progressive=progressive)
    _heights(ledger, spectacles, limits)
    _before_reading(ledger, spectacles, limits)


def _before_reading(ledger: Ledger, spectacles: Spectacles, limits: Limits) -> None:
    """The limits of what was not read, where there is one that goes by the order alone."""
    progressive = spectacles.lens.design == "progressive"
    wanted = {}
    for side in SIDES:
        if spectacles.lens.design in ("progressive", "bifocal"):
            wanted[f"bench.{side}.height.allowed"] = limits.length("height")
        if progressive:
            wanted[f"bench.{side}.reference_point.allowed"] = limits.length("progressive_point")
    pair = None if progressive else _limit(ledger, "horizontal", limits, progressive=False)
    if pair is not None and f"{POINTS}.verdict" not in ledger:
        wanted[f"{POINTS}.allowed_mm" if pair.by_distance else f"{POINTS}.allowed"] = pair.limit
    for name, limit in wanted.items():
        if limit is not None and name not in ledger:
            limit.state(ledger, name)


def _point(ledger: Ledger, spectacles: Spectacles, readings: Readings, side: Side, limits: Limits) -> None:
    """The reference point of one lens from the middle of the bridge; only a progressive lens has a limit of its own."""
    read, part = readings.of("reference_point", side), f"bench.{side}.reference_point"
    if read is None:
        return
    ledger.measured(f"{part}.reading", read)
    if f"{side}.pd" not in ledger or points_apart(ledger, spectacles) == "pair.near_pd":
        return
    ledger.compute(f"{part}.deviation", finished.deviation, ordered=f"{side}.pd", read=f"{part}.reading")
    if spectacles.lens.design == "progressive":
        judge(ledger, part, limits.length("progressive_point"), deviation="deviation")


def _height(ledger: Ledger, spectacles: Spectacles, readings: Readings, side: Side, limits: Limits) -> None:
    """A fitting cross or the top of a segment has a limit of its own; other lenses are judged as a pair."""
    read, part = readings.of("height", side), f"bench.{side}.height"
    if read is None:
        return
    ledger.measured(f"{part}.reading", read)
    if f"{side}.height" not in ledger:
        return
    ledger.compute(f"{part}.deviation", finished.deviation, ordered=f"{side}.height", read=f"{part}.reading")
    if spectacles.lens.design in ("progressive", "bifocal"):
        judge(ledger, part, limits.length("height"), deviation="deviation")


def _points(
    ledger: Ledger, spectacles: Spectacles, readings: Readings, limits: Limits, *, progressive: bool
) -> Working | None:
    """The distance of the reference points; returns the prism that their places put before the pupils."""
    if not _read_points(ledger, readings):
        return None
    ordered = points_apart(ledger, spectacles)
    if ordered is None:
        ledger.compute(f"{POINTS}.verdict", unlimited, deviation=f"{POINTS}.reading")
        return None
    ledger.compute(f"{POINTS}.deviation", finished.deviation, ordered=ordered, read=f"{POINTS}.reading")
    shifted = _shift(ledger, f"{POINTS}.deviation")
    own = [f"bench.{side}.reference_point.deviation" for side in SIDES]
    if all(name in ledger for name in own):
        lenses = both_lenses(ledger)
        shifted = ledger.work(imbalance.prism_from_shifts, lenses, right_out_mm=own[0], left_out_mm=own[1])
    if not progressive:
        _distance(ledger, POINTS, shifted, limits)
    elif f"{own[0].removesuffix('deviation')}verdict" not in ledger:
        _both_points(ledger, limits)
    return shifted


def _read_points(ledger: Ledger, readings: Readings) -> bool:
    name = f"{POINTS}.reading"
    if readings.reference_points_mm is not None:
        ledger.measured(name, readings.reference_points_mm)
    elif readings.reference_point_right_mm is not None and readings.reference_point_left_mm is not None:
        one, other = (f"bench.{side}.reference_point.reading" for side in SIDES)
        ledger.compute(name, comparison.whole_pd, right_mm=one, left_mm=other)
    return name in ledger


def _both_points(ledger: Ledger, limits: Limits) -> None:
    """One distance for two fitting crosses: beyond twice the limit one of them is wrong; within, nobody knows."""
    limit = limits.length("progressive_point")
    if limit is None:
        judge(ledger, POINTS, None, deviation="deviation")
        return
    limit.state(ledger, "bench.point.allowed")
    ledger.compute(
        f"{POINTS}.allowed_mm", comparison.whole_pd, right_mm="bench.point.allowed", left_mm="bench.point.allowed"
    )
    judge(ledger, POINTS, None, deviation="deviation", allowed="allowed_mm", whole=False)


def _shift(ledger: Ledger, error: str) -> Working:
    lenses = both_lenses(ledger)
    return ledger.work(imbalance.prism_from_pd_error, lenses, pd_error_mm=error)


def _distance(ledger: Ledger, part: str, shifted: Working, limits: Limits) -> None:
    """A distance by the prism that it puts before the eyes, for strong lenses in millimetres."""
    ledger.compute(f"{part}.prism", imbalance.total_in, errors=shifted)
    limit = _limit(ledger, "horizontal", limits, progressive=False)
    if limit is None or not limit.by_distance:
        judge(ledger, part, limit.limit if limit else None, deviation="prism")
    else:
        judge(ledger, part, limit.limit, deviation="deviation", allowed="allowed_mm")


def _centres(ledger: Ledger, spectacles: Spectacles, readings: Readings, limits: Limits) -> Working | None:
    """The distance of the optical centres, from where they stand when the reference points stand before the pupils."""
    if readings.optical_centres_mm is None:
        return None
    ledger.measured(f"{CENTRES}.reading", readings.optical_centres_mm)
    points = points_apart(ledger, spectacles)
    if points is None or not all(f"{side}.centre.in" in ledger for side in SIDES):
        ledger.compute(f"{CENTRES}.verdict", unlimited, deviation=f"{CENTRES}.reading")
        return None
    places: dict[str, Ref] = {side: place_of(ledger, side) for side in SIDES}
    ledger.compute(f"{CENTRES}.ordered", optical_centre.centres_apart, places, points_mm=points)
    ledger.compute(f"{CENTRES}.deviation", finished.deviation, ordered=f"{CENTRES}.ordered", read=f"{CENTRES}.reading")
    shifted = _shift(ledger, f"{CENTRES}.deviation")
    _distance(ledger, CENTRES, shifted, limits)
    return shifted


def _pair(ledger: Ledger, direction: Direction, shift: Working | None, limits: Limits, *, progressive: bool) -> None:
    """What both pupils together get in one direction that was not ordered: as read, and by the places of the lenses."""
    readings = [f"bench.{side}.prism.{direction}.reading" for side in SIDES]
    if not all(name in ledger for name in readings):
        return
    limit = _limit(ledger, direction, limits, progressive=progressive)
    if limit is None and progressive:
        return  # each reference point has a limit of its own
    errors: dict[str, Ref] = {side: _error(ledger, side, direction) for side in SIDES}
    total = imbalance.total_in if direction == "horizontal" else imbalance.vertical_difference
    both: dict[str, Ref] = {"errors": ledger.work(imbalance.pair_prism, errors)}
    if shift is not None:
        both["more"] = shift
    part = f"bench.{direction}"
    ledger.compute(f"{part}.prism", total, both)
    if limit is None or not limit.by_distance:
        judge(ledger, part, limit.limit if limit else None, deviation="prism")
        return
    power = _power(ledger, direction)
    ledger.compute(f"{part}.deviation_mm", finished.distance_of, prism_pd=f"{part}.prism", power_d=power)
    judge(ledger, part, limit.limit, deviation="deviation_mm", allowed="allowed_mm")


def _error(ledger: Ledger, side: Side, direction: Direction) -> Working:
    """The prism of one lens off the order, in the one direction."""
    name = f"bench.{side}.prism.{direction}.reading"
    off = ledger.work(finished.deviation, ordered=ordered_prism(ledger, side, direction), read=name)
    fields = ("base_in_pd", "base_up_pd")
    one, other = fields if direction == "horizontal" else fields[::-1]
    return ledger.work(prism.Prism, {one: off, other: Plain(0.0)})


def _power(ledger: Ledger, direction: Direction) -> Working:
    lenses = both_lenses(ledger)
    return ledger.work(finished.greatest_power_towards, lenses, vertical=Plain(direction == "vertical"))


def _limit(ledger: Ledger, direction: Direction, limits: Limits, *, progressive: bool) -> PairLimit | None:
    power = _power(ledger, direction)
    names = [f"{side}.prism.{direction}" for side in SIDES]
    most = max([abs(ledger.number(name)) for name in names if name in ledger], default=0.0)
    return limits.pair(direction, power=power, amount=power.result, prism=most, progressive=progressive)


def _heights(ledger: Ledger, spectacles: Spectacles, limits: Limits) -> None:
    """Both heights together: the vertical prism of unequal ones; for segments the difference itself."""
    off = [f"bench.{side}.height.deviation" for side in SIDES]
    design, part = spectacles.lens.design, "bench.heights"
    if design == "progressive" or not all(name in ledger for name in off):
        return
    ledger.compute(f"{part}.deviation", finished.deviation, ordered=off[1], read=off[0])
    if design == "bifocal":
        judge(ledger, part, limits.length("height_difference"), deviation="deviation", allowed="allowed_mm")
        return
    lenses = both_lenses(ledger)
    errors = ledger.work(imbalance.prism_from_height_error, lenses, right_up_mm=off[0], left_up_mm=off[1])
    ledger.compute(f"{part}.prism", imbalance.vertical_difference, errors=errors)
    limit = _limit(ledger, "vertical", limits, progressive=False)
    if limit is None or not limit.by_distance:
        judge(ledger, part, limit.limit if limit else None, deviation="prism")
    else:
        judge(ledger, part, limit.limit, deviation="deviation", allowed="allowed_mm")
