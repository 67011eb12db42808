"""Claims about the finished pair: what was read at the bench, what may differ, the verdicts, and what may be said.

Every quantity of every lens is read, not read, or does not apply: nothing is taken to be right because nobody looked.

`claims/bench.py` states what was read, quantity by quantity (`bench.<eye>.<quantity>.status`), each deviation, each
limit and each verdict; a verdict follows from the deviation and the limit that stand beside it, and nothing that
was not read has one. A sphere without a word on the cylinder is half a reading: it can fail and never pass. Limits
are rounded down and deviations away from zero, with as many decimals as it takes for print and verdict to agree
(`claims/rounding.py`). Powers are judged in the principal meridians, prism at each lens's own reference point and
for the pair, with the shift of both points added where it was read. A reference point shows the prescribed prism
and belongs before the pupil; the optical centre stands 10 F⁻¹P away, or nowhere (`claims/centre.py`).

Limits are the workshop's choice (`[rules]`): a table of the facts, or a file of its own copy, whose form stands in
the head of `orders/shop/limits.py`. Tables of the facts belong to the United States. Elsewhere they still hold back
a pair that is beyond them, since a gate of another country is better than none, but only the workshop hears of it:
`bench.standard.at_home` opens limits and verdicts to the customer, `bench.said` the list of what was read (a
distance alone certifies no lens). Fitting crosses of weak progressive lenses are held to the millimetre that the
text of 1999 gives for strong ones.

What an order must answer is a claim too (`claims/holds.py`, words and fields in `compose/asked.py`): by the field
that was missing, or by a word in `[answers]`; an answer to what was not asked is refused, so no table of answers
can stand under every order. `claims/warnings.py` holds nothing back. `tests/optics/claims/test_asked.py` works both
out again from the order alone, and `tests/published/pairs.toml` holds whole pairs against the standards' text.
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
