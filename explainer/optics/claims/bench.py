"""Claims about the finished pair: what was read at the bench, what may differ, the verdicts, and what may be said.

Every quantity of every lens is read, not read, or does not apply: nothing is taken to be right because nobody looked.
"""

from __future__ import annotations

from explainer.optics.claims import bench_centring, bench_lens, bench_limits, bench_said
from explainer.optics.claims.ledger import Ledger
from explainer.optics.claims.limits import Limits
from explainer.optics.rules import BenchRules
from explainer.optics.spectacles import SIDES, LensReading, Spectacles

NOTHING_READ = LensReading()


def issue(ledger: Ledger, spectacles: Spectacles, rules: BenchRules, *, country: str | None = None) -> None:
    """The axis tolerance always; what was read, and verdicts on it, only where there are readings."""
    limits = Limits(rules)
    _axis_tolerance(ledger, limits)
    readings = spectacles.readings
    if readings is None:
        return
    for side in SIDES:
        read = readings.eye(side) or NOTHING_READ
        progressive = spectacles.lens.design == "progressive"
        bench_lens.issue(ledger, side, read, limits, progressive=progressive)
        bench_limits.issue(ledger, side, limits, progressive=progressive)
    bench_centring.issue(ledger, spectacles, readings, limits)
    bench_said.issue(ledger, spectacles, rules, country)


def _axis_tolerance(ledger: Ledger, limits: Limits) -> None:
    """How far the finished axis may be from the order's, by the size of the cylinder."""
    for side in SIDES:
        made = f"{side}.made.cylinder"
        if f"{side}.made.axis" not in ledger:
            continue
        limit = limits.of("axis", size=made, amount=abs(ledger.number(made)))
        if limit is not None:
            limit.state(ledger, f"{side}.axis_tolerance")
