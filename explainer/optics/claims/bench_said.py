"""What may be said of the bench: quantity by quantity read or not read, inside or outside, and to whom.

`bench.<eye>.<quantity>.status` is for every quantity of every lens. `bench.read.<quantity>` and
`bench.not_read.<quantity>` put both lenses together: "all", or the one lens it holds for. `bench.said` opens the
customer's page for them. A verdict is for the workshop; it is the customer's only where the limits are those of their
country, or of the workshop's own copy (`bench.said.inside`), and never for what was not read.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any, Literal

from explainer.optics import facts
from explainer.optics.claims.bench_lens import NEAR_PART
from explainer.optics.claims.ledger import FACT, Asked, Ledger
from explainer.optics.claims.limits import OWN
from explainer.optics.rules import BenchRules
from explainer.optics.spectacles import SIDES, Side, Spectacles

Status = Literal["read", "not-read", "not-applicable"]

_RULE = f"{FACT}rules.bench.read"
QUANTITIES = ("power", "axis", "addition", "prism", "centring", "height", "thickness", "tint", "weight")
"""In the order in which they are named."""

_PARTS: dict[str, tuple[str, ...]] = {
    "power": ("stronger", "weaker", "cylinder", "sphere"),
    "axis": ("axis",),
    "addition": ("add",),
    "prism": ("prism",),
    "centring": ("reference_point",),
    "height": ("height",),
}
_PAIR_PARTS: dict[str, tuple[str, ...]] = {
    "prism": ("horizontal", "vertical"),
    "centring": ("reference_points", "optical_centres"),
    "height": ("heights",),
}


def issue(ledger: Ledger, spectacles: Spectacles, rules: BenchRules, country: str | None) -> None:
    """Statuses first, then what they and the verdicts add up to."""
    tinted = spectacles.lens.tint not in (None, "clear")
    for quantity in QUANTITIES:
        for side in SIDES:
            rule = _NEVER[side] if quantity == "tint" and not tinted else _STATUS[quantity, side]
            ledger.part(f"bench.{side}.{quantity}.status", ledger.decide(rule))
        for name, where in (("read", _READ_WHERE), ("not_read", _UNREAD_WHERE)):
            found = ledger.decide(where[quantity])
            if found.result is not None:
                ledger.part(f"bench.{name}.{quantity}", found)
        for name, judged in (("inside", _INSIDE), ("outside", _OUTSIDE)):
            if quantity in judged and ledger.decide(judged[quantity]).result:
                ledger.part(f"bench.{name}.{quantity}", ledger.decide(judged[quantity]))
    if any(ledger.value(name) != "not-checked" for name in ledger.names("bench.") if name.endswith(".verdict")):
        _standard(ledger, rules, country)
    if "bench.read.power" in ledger:
        ledger.part("bench.said", ledger.decide(powers_were_read))
        if "bench.standard.at_home" in ledger and ledger.decide(all_inside).result:
            ledger.part("bench.said.inside", ledger.decide(all_inside))


def _standard(ledger: Ledger, rules: BenchRules, country: str | None) -> None:
    """By which limits the verdicts were given, and whether they are at home where the workshop sells."""
    if rules.own is not None:
        ledger.supplied("bench.standard", OWN)
        ledger.supplied("bench.standard.at_home", True)
        return
    ledger.fact("bench.standard", f"tolerance.{rules.standard}.axis.row_2.allowed", value=rules.standard)
    home = f"{rules.standard}.home.country"
    if home in facts.topic_facts("tolerance") and country == facts.get(f"tolerance.{home}").value:
        ledger.fact("bench.standard.at_home", f"tolerance.{home}", value=True)


def status(asked: Asked, quantity: str, side: Side) -> Status:
    """Whether a quantity of one lens was read, was not, or does not apply to it."""
    asked.value(_RULE)
    if not _APPLIES.get(quantity, _always)(asked, side):
        return "not-applicable"
    ways = [[name.format(side=side) for name in way] for way in _READ[quantity]]
    done = any(all(asked.value(name) is not None for name in way) for way in ways)
    return "read" if done else "not-read"


def never_applies(asked: Asked, side: Side) -> Status:
    """The status of what this pair has not at all."""
    asked.value(_RULE)
    return "not-applicable"


def where(asked: Asked, quantity: str, wanted: Status) -> str | None:
    """Which lenses a status holds for: all to which the quantity applies, one of two, or none."""
    found = {side: asked.value(f"bench.{side}.{quantity}.status") for side in SIDES}
    applies = [side for side in SIDES if found[side] != "not-applicable"]
    having = [side for side in applies if found[side] == wanted]
    return None if not having else "all" if having == applies else having[0]


def each_inside(asked: Asked, quantity: str) -> bool:
    """Whether the quantity was read, and each verdict on it is inside; one that was not judged is not."""
    read = asked.value(f"bench.read.{quantity}") is not None
    return read and set(_verdicts(asked, quantity)) == {"inside"}


def any_outside(asked: Asked, quantity: str) -> bool:
    """Whether any verdict on the quantity is outside."""
    return "outside" in _verdicts(asked, quantity)


def all_inside(asked: Asked) -> bool:
    """Whether everything that was read, and that has limits at all, is inside them."""
    read = [quantity for quantity in QUANTITIES if asked.value(f"bench.read.{quantity}")]
    limited = [quantity for quantity in read if quantity in _PARTS]
    outside = [quantity for quantity in _PARTS if asked.value(f"bench.outside.{quantity}")]
    return bool(limited) and not outside and all(asked.value(f"bench.inside.{quantity}") for quantity in limited)


def powers_were_read(asked: Asked) -> bool:
    """A page may speak of measuring only if a lens was put on the lensmeter: a distance alone certifies no lens."""
    return asked.value("bench.read.power") is not None


def _verdicts(asked: Asked, quantity: str) -> list[str]:
    names = [f"bench.{side}.{part}.verdict" for side in SIDES for part in _PARTS[quantity]]
    names += [f"bench.{part}.verdict" for part in _PAIR_PARTS.get(quantity, ())]
    return [value for name in names if (value := asked.value(name)) is not None]


def _always(asked: Asked, side: Side) -> bool:
    return True


def _has_axis(asked: Asked, side: Side) -> bool:
    """A lens has an axis where a cylinder was ordered; one that was found without an order has its axis read too."""
    return bool(asked.value(f"{side}.made.cylinder")) or asked.value(f"bench.{side}.axis.reading") is not None


def _has_addition(asked: Asked, side: Side) -> bool:
    return asked.value("lens.design") in (None, *NEAR_PART) and asked.value(f"{side}.add") is not None


def _has_place(asked: Asked, side: Side) -> bool:
    """A pair without any power or prism looks the same wherever it stands, unless it has a near part."""
    if asked.value("lens.design") in NEAR_PART:
        return True
    powers = [asked.value(f"{each}.made.{part}") for each in SIDES for part in ("sphere", "cylinder")]
    prisms = [asked.value(f"{each}.prism.{way}") for each in SIDES for way in ("horizontal", "vertical")]
    return any(powers) or any(prisms)


def _has_height(asked: Asked, side: Side) -> bool:
    return asked.value("lens.design") in NEAR_PART or asked.value(f"{side}.height") is not None


_APPLIES: dict[str, Callable[[Asked, Side], bool]] = {
    "axis": _has_axis,
    "addition": _has_addition,
    "centring": _has_place,
    "height": _has_height,
}
# the readings that together make a quantity read; several ways where there are several
_READ: dict[str, tuple[tuple[str, ...], ...]] = {
    "power": (("bench.{side}.sphere.reading", "bench.{side}.cylinder.reading"),),
    "axis": (("bench.{side}.axis.reading",),),
    "addition": (("bench.{side}.add.reading",),),
    "prism": (("bench.{side}.prism.horizontal.reading", "bench.{side}.prism.vertical.reading"),),
    "centring": (
        ("bench.reference_points.reading",),
        ("bench.optical_centres.reading",),
        ("bench.{side}.reference_point.reading",),
    ),
    "height": (("bench.{side}.height.reading",),),
    "thickness": (("bench.{side}.thickness.reading",),),
    "tint": (),  # no field of an order holds it
    "weight": (),
}


def _asking(rule: Callable[..., Any], *about: str) -> Callable[[Asked], Any]:
    """The rule about this quantity or lens, under the rule's own name; made once, since names are kept."""

    @wraps(rule)
    def asked_about(asked: Asked) -> Any:
        return rule(asked, *about)

    return asked_about


_STATUS = {(quantity, side): _asking(status, quantity, side) for quantity in QUANTITIES for side in SIDES}
_NEVER = {side: _asking(never_applies, side) for side in SIDES}
_READ_WHERE = {quantity: _asking(where, quantity, "read") for quantity in QUANTITIES}
_UNREAD_WHERE = {quantity: _asking(where, quantity, "not-read") for quantity in QUANTITIES}
_INSIDE = {quantity: _asking(each_inside, quantity) for quantity in _PARTS}
_OUTSIDE = {quantity: _asking(any_outside, quantity) for quantity in _PARTS}
