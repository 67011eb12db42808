"""Claims about the finished pair: what was read at the bench, what may differ, and the verdicts."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from explainer.optics.claims.ledger import FACT, Ledger
from explainer.optics.claims.lens import centres
from explainer.optics.facts import tolerance_tables as tables
from explainer.optics.formulas import centring_check, imbalance, tolerance
from explainer.optics.formulas.power_vector import power_matrix
from explainer.optics.formulas.prescription import SpheroCylinder, minus_cylinder_form, sphero_cylinder, strongest_power
from explainer.optics.formulas.prism import Prism, decentration_for_prism, prentice
from explainer.optics.spectacles import SIDES, Eye, Readings, Side, Spectacles

STANDARD = "ansi-z80-1-2015"


@dataclass(frozen=True, slots=True)
class _Table:
    """A quantity's table of one standard, at the size that chooses the row."""

    standard: str
    quantity: str
    size: float

    @property
    def bands(self) -> tuple[tolerance.Band, ...]:
        """The rows; none where the standard has no table for the quantity, so that nothing is judged by it."""
        return tables.bands(self.standard, self.quantity) if tables.has(self.standard, self.quantity) else ()

    @property
    def allowed(self) -> float | None:
        return tolerance.allowed(self.bands, size=self.size)

    @property
    def rows(self) -> tuple[str, ...]:
        if not self.bands:
            return ()
        return tuple(FACT + name for name in tables.fact_ids(self.standard, self.quantity, size=self.size))


def issue(ledger: Ledger, spectacles: Spectacles, *, standard: str = STANDARD) -> None:
    """The axis tolerance always; verdicts only on readings. What was not read is not checked, and says so."""
    for side in SIDES:
        if f"{side}.made.axis" in ledger:
            _axis_tolerance(ledger, side, standard)
    readings = spectacles.readings
    if readings is None:
        return
    ledger.fact("bench.standard", f"tolerance.{standard}.axis.row_2.allowed", value=standard)
    progressive = spectacles.lens.design == "progressive"
    for side in SIDES:
        eye = readings.eye(side)
        if eye is not None:
            _lens(ledger, side, eye, standard, "progressive-" if progressive else "")
    if readings.pd_mm is not None:
        _centres(ledger, spectacles, readings.pd_mm, standard)
    _prism(ledger, spectacles, readings, standard)


def made_lens(ledger: Ledger, side: Side) -> SpheroCylinder:
    """The lens as it should have been made, from its claims."""
    axis = f"{side}.made.axis"
    return sphero_cylinder(
        sphere_d=ledger.number(f"{side}.made.sphere"),
        cylinder_d=ledger.number(f"{side}.made.cylinder"),
        axis_deg=ledger.number(axis) if axis in ledger else 180.0,
    )


def _lens(ledger: Ledger, side: Side, eye: Eye, standard: str, prefix: str) -> None:
    ordered = made_lens(ledger, side)
    read = sphero_cylinder(sphere_d=eye.sphere_d, cylinder_d=eye.cylinder_d, axis_deg=eye.axis_deg or 180.0)
    in_minus_form = minus_cylinder_form(**read._asdict())
    ledger.measured(f"bench.{side}.sphere.reading", in_minus_form.sphere_d)
    ledger.measured(f"bench.{side}.cylinder.reading", in_minus_form.cylinder_d)
    if read.cylinder_d:
        ledger.measured(f"bench.{side}.axis.reading", in_minus_form.axis_deg)
    strongest = abs(strongest_power(sphere_d=ordered.sphere_d, cylinder_d=ordered.cylinder_d))
    cylinder = abs(ordered.cylinder_d)
    prefix = prefix if tables.has(standard, f"{prefix}sphere") else ""
    sphere_table = _Table(standard, f"{prefix}sphere", strongest)
    cylinder_table = _Table(standard, f"{prefix}cylinder", cylinder)
    powers = {"ordered_cylinder_d": ordered.cylinder_d, "read_cylinder_d": read.cylinder_d}
    lenses = {"ordered": ordered, "read": read}
    _judge(ledger, f"{side}.sphere", sphere_table, tolerance.power_verdict, lenses)
    _judge(ledger, f"{side}.cylinder", cylinder_table, tolerance.cylinder_verdict, powers)
    if ordered.cylinder_d:
        _judge(ledger, f"{side}.axis", _Table(standard, "axis", cylinder), tolerance.axis_verdict, lenses)
    _addition(ledger, side, eye, standard)


def _addition(ledger: Ledger, side: Side, eye: Eye, standard: str) -> None:
    """The addition is checked where the lens has a near part of its own."""
    if f"{side}.add" not in ledger or ledger.value("lens.design") not in ("bifocal", "progressive"):
        return
    ordered = ledger.number(f"{side}.add")
    if eye.add_d is None:
        ledger.derived(f"bench.{side}.add.verdict", "not-checked", tolerance.addition_verdict, (f"{side}.add",))
        return
    ledger.measured(f"bench.{side}.add.reading", eye.add_d)
    table = _Table(standard, "addition", ordered)
    values = {"ordered_add_d": ordered, "read_add_d": eye.add_d}
    _judge(ledger, f"{side}.add", table, tolerance.addition_verdict, values)


def _axis_tolerance(ledger: Ledger, side: Side, standard: str) -> None:
    made = f"{side}.made.cylinder"
    table = _Table(standard, "axis", abs(ledger.number(made)))
    if table.allowed is not None:
        ledger.derived(f"{side}.axis_tolerance", table.allowed, tolerance.allowed, (made, *table.rows))


def _judge(
    ledger: Ledger,
    part: str,
    table: _Table,
    verdict: Callable[..., tolerance.Verdict],
    values: dict[str, Any],
) -> None:
    """One verdict, with the deviation allowed, from one table of the standard. `part` is such as right.axis."""
    side, _, quantity = part.partition(".")
    made = f"{side}.add" if quantity == "add" else f"{side}.made.{quantity}"
    reading = f"bench.{part}.reading"
    if table.allowed is not None:
        ledger.derived(f"bench.{part}.allowed", table.allowed, tolerance.allowed, (made, *table.rows))
    inputs = (made, *((reading,) if reading in ledger else ()), *table.rows)
    ledger.derived(f"bench.{part}.verdict", verdict(table.bands, **values), verdict, inputs)


def _centres(ledger: Ledger, spectacles: Spectacles, read_mm: float, standard: str) -> None:
    """The distance of the optical centres: a prism up to a power, a distance above it."""
    ledger.measured("bench.pd.reading", read_mm)
    ordered = centres(ledger, spectacles)
    if ordered is None:
        ledger.derived("bench.pd.verdict", "not-checked", centring_check.check_pd, ("bench.pd.reading",))
        return
    rule = tables.imbalance_rule(standard, "horizontal")
    right, left = (made_lens(ledger, side) for side in SIDES)
    found = centring_check.check_pd(rule, right=right, left=left, pd_error_mm=read_mm - ledger.number(ordered))
    rows = tuple(FACT + name for name in tables.imbalance_fact_ids(standard, "horizontal"))
    powers = tuple(f"{side}.made.{part}" for side in SIDES for part in ("sphere", "cylinder"))
    inputs = (ordered, "bench.pd.reading", *powers, *rows)
    ledger.derived("bench.pd.prism", found.prism_pd, centring_check.check_pd, inputs)
    if found.judged_by == "prism":
        ledger.derived("bench.pd.allowed", rule.prism_pd, tolerance.imbalance_verdict, rows)
    else:
        ledger.derived("bench.pd.allowed_mm", rule.distance_mm, tolerance.imbalance_verdict, rows)
    ledger.derived("bench.pd.verdict", found.verdict, centring_check.check_pd, inputs)


def _prism(ledger: Ledger, spectacles: Spectacles, readings: Readings, standard: str) -> None:
    """Prism read against prism ordered, the pair taken together, where there is any prism in either."""
    read = {side: readings.eye(side) for side in SIDES}
    ordered = {side: spectacles.prescription.eye(side) for side in SIDES}
    eyes = [eye for eye in (*read.values(), *ordered.values()) if eye is not None]
    if read["right"] is None or read["left"] is None or not any(e.prism_in_pd or e.prism_up_pd for e in eyes):
        return
    wrong = {
        side: Prism(eye.prism_in_pd - ordered[side].prism_in_pd, eye.prism_up_pd - ordered[side].prism_up_pd)
        for side, eye in read.items()
        if eye is not None
    }
    error = imbalance.pair_prism(right=wrong["right"], left=wrong["left"])
    inputs = _prism_readings(ledger, read)
    _pair_verdict(ledger, "horizontal", abs(error.total_in_pd), inputs, standard)
    _pair_verdict(ledger, "vertical", abs(error.right_up_pd), inputs, standard)


def _pair_verdict(
    ledger: Ledger, direction: tables.Direction, value: float, inputs: tuple[str, ...], standard: str
) -> None:
    """Prism of the pair against the rule. Above the rule's power the distance allowed is turned into prism."""
    rule = tables.imbalance_rule(standard, direction)
    rows = tuple(FACT + name for name in tables.imbalance_fact_ids(standard, direction))
    matrices = [power_matrix(**made_lens(ledger, side)._asdict()) for side in SIDES]
    strongest = max(abs(m.fxx_d if direction == "horizontal" else m.fyy_d) for m in matrices)
    by_prism = strongest <= rule.up_to_d
    allowed = rule.prism_pd if by_prism else prentice(power_d=strongest, distance_mm=rule.distance_mm)
    verdict = tolerance.imbalance_verdict(
        rule,
        strongest_power_d=strongest,
        prism_pd=value,
        distance_mm=0.0 if by_prism else decentration_for_prism(power_d=strongest, prism_pd=value),
    )
    ledger.derived(f"bench.{direction}.prism", value, imbalance.pair_prism, inputs)
    ledger.derived(f"bench.{direction}.allowed", allowed, tolerance.imbalance_verdict, rows)
    ledger.derived(f"bench.{direction}.verdict", verdict, tolerance.imbalance_verdict, (*inputs, *rows))


def _prism_readings(ledger: Ledger, read: dict[Side, Eye | None]) -> tuple[str, ...]:
    names = []
    for side, eye in read.items():
        assert eye is not None
        for direction, value in (("horizontal", eye.prism_in_pd), ("vertical", eye.prism_up_pd)):
            reading, ordered = f"bench.{side}.prism.{direction}.reading", f"{side}.prism.{direction}"
            ledger.measured(reading, value)
            names += [reading, *([ordered] if ordered in ledger else [])]
    return tuple(names)
