"""Claims about one finished lens: what was read, by how much it differs from the order, and the verdicts.

Powers are judged in the principal meridians, the axis by the size of the cylinder, prism at the lens's own reference
point. A quantity that was not read has no claim here; a lens of which only a part was read can fail, but not pass.
"""

from __future__ import annotations

from explainer.optics.claims.judging import judge, made_lens, round_lens, strongest
from explainer.optics.claims.ledger import Ledger
from explainer.optics.claims.limits import Limit, Limits, Quantity
from explainer.optics.claims.rounding import exact_digits
from explainer.optics.claims.working import Plain, Ref, Working
from explainer.optics.formulas import finished
from explainer.optics.formulas.dial import axis_difference
from explainer.optics.formulas.prescription import minus_cylinder_form
from explainer.optics.formulas.prism import decentration_for_prism
from explainer.optics.formulas.tolerance import ROUNDING
from explainer.optics.spectacles import LensReading, Side

NEAR_PART = ("bifocal", "progressive")


def issue(ledger: Ledger, side: Side, read: LensReading, limits: Limits, *, progressive: bool) -> None:
    """Everything that was read with the lensmeter."""
    if read.sphere_d is not None and read.cylinder_d is not None:
        _both_powers(ledger, side, read)
        _meridians(ledger, side, limits, "progressive_power" if progressive else "power")
    elif read.sphere_d is not None:
        _sphere_alone(ledger, side, read.sphere_d, limits, "progressive_power" if progressive else "power")
    if f"bench.{side}.cylinder.reading" in ledger:
        _cylinder(ledger, side, limits, "progressive_cylinder" if progressive else "cylinder")
    if f"bench.{side}.axis.reading" in ledger and f"{side}.made.axis" in ledger:
        _axis(ledger, side, limits)
    _addition(ledger, side, read, limits)
    _prism(ledger, side, read, limits)
    _before_reading(ledger, side, limits, progressive=progressive)


def _before_reading(ledger: Ledger, side: Side, limits: Limits, *, progressive: bool) -> None:
    """What was ordered and what may differ, of what was not read: the bench wants to know it before it reads."""
    if f"bench.{side}.stronger.ordered" not in ledger:
        lens = made_lens(ledger, side)
        both = ledger.work(finished.meridians, ordered=lens, read=lens)
        for name in ("stronger", "weaker"):
            ordered = f"bench.{side}.{name}.ordered"
            ledger.part(ordered, both.of(f"{name}_ordered_d"))
            ledger.show(ordered, digits=exact_digits(ledger.number(ordered), 2))
    strongest_d = strongest(ledger, side).result
    made, add = f"{side}.made.cylinder", f"{side}.add"
    cylinder = abs(ledger.number(made))
    size = f"bench.{side}.stronger.ordered"
    power: Quantity = "progressive_power" if progressive else "power"
    wanted = {
        "stronger": limits.of(power, size=size, amount=strongest_d, power=strongest_d),
        "cylinder": limits.of(
            "progressive_cylinder" if progressive else "cylinder", size=made, amount=cylinder, power=strongest_d
        ),
        "axis": limits.of("axis", size=made, amount=cylinder, power=strongest_d) if cylinder else None,
        "prism": limits.lens_prism(by_distance=False),
    }
    if limits.both_meridians:
        wanted["weaker"] = wanted["stronger"]
    if add in ledger and _design(ledger) in (None, *NEAR_PART):
        wanted["add"] = limits.of("addition", size=add, amount=ledger.number(add))
    for part, limit in wanted.items():
        name = f"bench.{side}.{part}.allowed"
        if limit is not None and name not in ledger and f"{name}_mm" not in ledger:
            limit.state(ledger, name)


def _both_powers(ledger: Ledger, side: Side, read: LensReading) -> None:
    """The reading in minus-cylinder form, as the lens as made is written; the same lens."""
    assert read.sphere_d is not None
    assert read.cylinder_d is not None
    form = minus_cylinder_form(sphere_d=read.sphere_d, cylinder_d=read.cylinder_d, axis_deg=read.axis_deg or 180.0)
    ledger.measured(f"bench.{side}.sphere.reading", form.sphere_d)
    ledger.measured(f"bench.{side}.cylinder.reading", form.cylinder_d)
    if read.cylinder_d and read.axis_deg is not None:
        ledger.measured(f"bench.{side}.axis.reading", form.axis_deg)


def _meridians(ledger: Ledger, side: Side, limits: Limits, quantity: Quantity) -> None:
    read = ledger.work(round_lens, sphere_d=f"bench.{side}.sphere.reading", cylinder_d=f"bench.{side}.cylinder.reading")
    both = ledger.work(finished.meridians, ordered=made_lens(ledger, side), read=read)
    for name in ("stronger", "weaker"):
        part = f"bench.{side}.{name}"
        ledger.part(f"{part}.ordered", both.of(f"{name}_ordered_d"))
        ledger.part(f"{part}.reading", both.of(f"{name}_read_d"))
        ledger.part(f"{part}.deviation", both.of(f"{name}_deviation_d"))
        for power in ("ordered", "reading"):  # these are sums of what was written: shown to the last decimal
            ledger.show(f"{part}.{power}", digits=exact_digits(ledger.number(f"{part}.{power}"), 2))
    size = f"bench.{side}.stronger.ordered"  # the row goes by the stronger meridian, whichever is judged
    amount = abs(ledger.number(size))
    limit = limits.of(quantity, size=size, amount=amount, power=amount)
    judge(ledger, f"bench.{side}.stronger", limit, deviation="deviation")
    if limits.both_meridians and limit is not None:
        judge(ledger, f"bench.{side}.weaker", limit, deviation="deviation")


def _sphere_alone(ledger: Ledger, side: Side, sphere_d: float, limits: Limits, quantity: Quantity) -> None:
    """One power that was read may belong to either meridian: it can show a wrong lens, but not a right one."""
    part = f"bench.{side}.sphere"
    ledger.measured(f"{part}.reading", sphere_d)
    ledger.compute(
        f"{part}.deviation", finished.nearest_meridian, ordered=made_lens(ledger, side), read_d=f"{part}.reading"
    )
    size = strongest(ledger, side)
    limit = limits.of(quantity, size=size, amount=size.result, power=size.result)
    judge(ledger, part, limit, deviation="deviation", whole=False)


def _cylinder(ledger: Ledger, side: Side, limits: Limits, quantity: Quantity) -> None:
    part, made = f"bench.{side}.cylinder", f"{side}.made.cylinder"
    ledger.compute(f"{part}.deviation", finished.size_deviation, ordered=made, read=f"{part}.reading")
    limit = limits.of(quantity, size=made, amount=abs(ledger.number(made)), power=strongest(ledger, side).result)
    judge(ledger, part, limit, deviation="deviation")


def _axis(ledger: Ledger, side: Side, limits: Limits) -> None:
    part, made = f"bench.{side}.axis", f"{side}.made.cylinder"
    ledger.compute(f"{part}.deviation", axis_difference, first_deg=f"{side}.made.axis", second_deg=f"{part}.reading")
    limit = limits.of("axis", size=made, amount=abs(ledger.number(made)), power=strongest(ledger, side).result)
    judge(ledger, part, limit, deviation="deviation")


def _addition(ledger: Ledger, side: Side, read: LensReading, limits: Limits) -> None:
    """The addition is judged where the lens has a near part of its own."""
    ordered = f"{side}.add"
    if read.add_d is None or ordered not in ledger or _design(ledger) not in (None, *NEAR_PART):
        return
    part = f"bench.{side}.add"
    ledger.measured(f"{part}.reading", read.add_d)
    ledger.compute(f"{part}.deviation", finished.deviation, ordered=ordered, read=f"{part}.reading")
    judge(ledger, part, limits.of("addition", size=ordered, amount=ledger.number(ordered)), deviation="deviation")


def _design(ledger: Ledger) -> object:
    return ledger.value("lens.design") if "lens.design" in ledger else None


def ordered_prism(ledger: Ledger, side: Side, direction: str) -> Ref:
    """The prism ordered in that direction; none stands for none ordered [prism dioptre]."""
    ordered = f"{side}.prism.{direction}"
    return ordered if ordered in ledger else Plain(0.0)


def _prism(ledger: Ledger, side: Side, read: LensReading, limits: Limits) -> None:
    off: dict[str, Working] = {}
    for direction, value in (("horizontal", read.prism_in_pd), ("vertical", read.prism_up_pd)):
        if value is None:
            continue
        name = f"bench.{side}.prism.{direction}.reading"
        ledger.measured(name, value)
        off[direction] = ledger.work(finished.deviation, ordered=ordered_prism(ledger, side, direction), read=name)
    if len(off) == 2:
        _prism_and_point(ledger, side, off, limits)
    elif off:
        _prism_in_one_direction(ledger, side, next(iter(off.values())), limits)


def _prism_and_point(ledger: Ledger, side: Side, off: dict[str, Working], limits: Limits) -> None:
    """By prism, or where that is too much by the distance of the reference point from where it belongs."""
    part = f"bench.{side}.prism"
    both = {"in_pd": off["horizontal"], "up_pd": off["vertical"]}
    ledger.compute(f"{part}.deviation", finished.size_of, both)
    by_prism, by_point = limits.lens_prism(by_distance=False), limits.lens_prism(by_distance=True)
    if by_prism is not None and by_point is not None:
        point = ledger.work(finished.point_off, {"lens": made_lens(ledger, side), "side": Plain(side), **both})
        if _beyond(ledger, f"{part}.deviation", by_prism) and not _beyond(ledger, point, by_point):
            ledger.part(f"{part}.deviation_mm", point)
            judge(ledger, part, by_point, deviation="deviation_mm", allowed="allowed_mm")
            return
    judge(ledger, part, by_prism, deviation="deviation")


def _prism_in_one_direction(ledger: Ledger, side: Side, off: Working, limits: Limits) -> None:
    """A strong lens shows much prism a little beside its point: then it only counts how far that is at least."""
    part = f"bench.{side}.prism"
    ledger.compute(f"{part}.deviation", finished.size, value=off)
    by_prism, by_point = limits.lens_prism(by_distance=False), limits.lens_prism(by_distance=True)
    power = strongest(ledger, side)
    strong = abs(power.result) >= 1 and abs(off.result) <= 20
    if by_prism is not None and by_point is not None and strong and _beyond(ledger, f"{part}.deviation", by_prism):
        least = ledger.work(decentration_for_prism, power_d=power, prism_pd=f"{part}.deviation")
        if not _beyond(ledger, least, by_point):
            ledger.part(f"{part}.deviation_mm", least)
            judge(ledger, part, by_point, deviation="deviation_mm", allowed="allowed_mm", whole=False)
            return
    judge(ledger, part, by_prism, deviation="deviation", whole=False)


def _beyond(ledger: Ledger, value: Ref, limit: Limit) -> bool:
    """Whether a size is beyond a limit, asked before it is decided which of two limits to state."""
    size = float(value.result) if isinstance(value, Working) else ledger.number(str(value))
    return size > limit.number(ledger) + ROUNDING
