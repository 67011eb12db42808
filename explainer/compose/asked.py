"""What an order is asked before it is posted, in the optician's words: holds with their answers, and warnings.

The claims decide; here stand only the words, and which field answers. An answer to what was not asked is refused too,
so that no table of answers can be copied under every order.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields

from explainer.errors import Fault
from explainer.optics.claims.ledger import ClaimSet
from explainer.orders import Order
from explainer.orders.assembly.order import Answers


@dataclass(frozen=True, slots=True)
class Question:
    """A hold in words: the field that is in doubt, what was found, what is accepted; the answer that lets it pass."""

    field: str
    found: str
    accepted: str
    answer: str | None = None


HOLDS: Mapping[str, Question] = {
    "no-heights": Question(
        "measurements.height_right_mm",
        "a progressive lens without both fitting heights",
        "height_right_mm and height_left_mm, measured on the face",
    ),
    "one-distance": Question(
        "measurements.pd_right_mm",
        "a progressive lens without the distance of each eye from the nose",
        "pd_right_mm and pd_left_mm, measured on the face",
    ),
    "addition-in-one-power": Question(
        "lens.design",
        "single-vision beside a reading addition",
        'bifocal, progressive or reading; or answers.addition = "left-out" if this pair is for one distance',
        "addition",
    ),
    "driver-and-darkest-tint": Question(
        "lens.tint_category",
        "a tint for no road, for somebody who drives",
        'a lighter tint; or answers.category_four = "never-for-driving" if the wearer was told',
        "category_four",
    ),
    "driver-and-unknown-tint": Question(
        "lens.tint_category",
        "a fixed tint of unknown darkness, for somebody who drives",
        "tint_category, or tint_percent: the light let through",
    ),
    "glass-and-one-eye": Question(
        "lens.material",
        "glass before the only seeing eye",
        'a plastic; or answers.glass = "advised" if the advice against it is on record',
        "glass",
    ),
    "glass-and-child": Question(
        "lens.material",
        "glass for a child",
        'a plastic; or answers.glass = "advised" if the advice against it is on record',
        "glass",
    ),
    "not-read": Question(
        "bench",
        "readings are missing, and this workshop demands them",
        "powers, axes, additions and centring of both lenses, and prism where it is prescribed",
    ),
}
WARNINGS: Mapping[str, str] = {
    "prism-moves-centres": "prism is prescribed: the optical centres do not stand before the pupils; "
    "centre by the point that shows the prism",
    "prism-without-centre": "prism is prescribed and a lens has no optical centre on it: "
    "only the reference points can be measured",
    "imbalance-at-reading-level": "unequal lenses: their vertical prism at reading level is one that many cannot bear "
    "for long; was it talked over?",
    "unequal-picture-size": "unequal lenses: the eyes' pictures differ in size; vertex distance and form may help",
    "one-power-at-reading-age": "lenses of one power at an age at which near print blurs through them: "
    "agreed what they are for?",
    "high-minus": "strong minus: check vertex distance and tilt against the prescription's",
    "high-plus": "strong plus: check vertex distance and tilt against the prescription's",
    "changed-power": "the prescription changed by what the wearer will notice; ring in a week",
    "oblique-change": "an oblique cylinder changed: floors may seem to tilt; ring in a week",
    "rough-use": "ordered for sport, water or the workshop, but these are everyday glasses: is the advice on record?",
    "under-sixteen": "the wearer is under sixteen: supervised supply, and the fit wants checking every few months",
    "no-lens-read": "neither lens was read on the lensmeter: the leaflet says nothing of measuring",
    "one-lens-not-read": "one lens was not read on the lensmeter: the leaflet says so",
    "lenses-exchanged": "the readings fit the order with the lenses exchanged: check which is which",
}


def hold_faults(order: Order, claims: ClaimSet) -> list[Fault]:
    """One fault for each hold that the order does not answer, and for each answer that nothing asked for."""
    names = [name for name in claims if name.startswith("hold.") and name.endswith(".reason")]
    raised = [HOLDS[str(claims.value(name))] for name in names]
    asked = {question.answer for question in raised}
    open_ones = [each for each in raised if each.answer is None or getattr(order.answers, each.answer) is None]
    given = [field.name for field in fields(Answers) if getattr(order.answers, field.name) is not None]
    return [
        *(Fault(each.field, each.found, each.accepted) for each in open_ones),
        *(
            Fault(f"answers.{name}", "an answer to what this order does not ask", "no such answer")
            for name in given
            if name not in asked
        ),
    ]


def warning_lines(claims: ClaimSet) -> list[str]:
    """One line for each warning, in the order of the claims."""
    reasons = [claims.value(name) for name in claims if name.startswith("warn.") and name.endswith(".reason")]
    return [WARNINGS[str(reason)] for reason in reasons]
