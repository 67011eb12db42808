"""Near: where print is clear, where it ends, and who loses near in distance lenses."""

from __future__ import annotations

from explainer.optics.claims.ledger import FACT, Asked, Ledger
from explainer.optics.claims.situations.asking import MULTIFOCAL, design, fact, numbers, told
from explainer.optics.formulas import accommodation, near_range
from explainer.optics.spectacles import SIDES

_SHARE = f"{FACT}situations.near.reserve"


def issue(ledger: Ledger) -> None:
    """Distances for near, as far as addition and age are known."""
    if "wearer.accommodation" in ledger:
        ledger.compute("wearer.accommodation.mean", accommodation.mean_amplitude, age_years="wearer.age")
    adds = [f"{side}.add" for side in SIDES if f"{side}.add" in ledger]
    if adds and "lens.design" in ledger and ledger.value("lens.design") in (*MULTIFOCAL, "reading"):
        strongest = max(adds, key=ledger.number)
        ledger.compute("near.far_end", near_range.far_end_cm, add_d=strongest)
        if "wearer.accommodation" in ledger:
            _near_end(ledger, strongest)
    elif "wearer.accommodation.mean" in ledger and ledger.number("wearer.accommodation.mean") > 0:
        _begins(ledger)


def _near_end(ledger: Ledger, add: str) -> None:
    """Only where the range is wide enough to tell one end from the other."""
    least = ledger.work(accommodation.least_amplitude, age_years="wearer.age")
    working = ledger.work(near_range.comfortable_near_end_cm, add_d=add, amplitude_d=least, share_in_reserve=_SHARE)
    shorter = ledger.number("near.far_end") - float(working.result)
    if shorter >= ledger.number(f"{FACT}situations.near.tells_apart"):
        ledger.part("near.range.near_end", working)


def _begins(ledger: Ledger) -> None:
    """Where near begins to blur through distance lenses, from the mean and the least amplitude of that age."""
    least = ledger.work(accommodation.least_amplitude, age_years="wearer.age")
    if least.result <= 0:
        return
    no_add = f"{FACT}situations.near.no_addition"
    ends = [
        ledger.work(near_range.comfortable_near_end_cm, add_d=no_add, amplitude_d=amplitude, share_in_reserve=_SHARE)
        for amplitude in ("wearer.accommodation.mean", least)
    ]
    if float(ends[1].result) <= ledger.number(f"{FACT}situations.near.arm"):
        ledger.part("near.begins.usual", ends[0])
        ledger.part("near.begins", ends[1])


def presbyope_far_only(ask: Asked) -> bool:
    """Single-vision distance lenses for an eye that no longer reads through them in comfort."""
    mean = ask.number("wearer.accommodation.mean")
    if design(ask) != "single-vision" or mean is None:
        return False
    return mean * (1 - fact(ask, "near.reserve") / 100) < fact(ask, "near.reading_needs")


def loses_near(ask: Asked) -> bool:
    """A short-sighted presbyope whose bare eyes read, both alike and with little cylinder."""
    if not presbyope_far_only(ask) or any(ask.value(f"{side}.prism.horizontal") is not None for side in SIDES):
        return False  # without a prescribed prism the page may be seen double
    bare = list(numbers(ask, "vertex.power_at_eye").values())
    cylinders = [abs(c) for c in numbers(ask, "cylinder").values()]
    low, high = fact(ask, "near.bare_from"), fact(ask, "near.bare_to")
    alike = abs(bare[0] - bare[1]) <= fact(ask, "near.bare_alike")
    return alike and all(low <= -k <= high for k in bare) and max(cylinders) <= fact(ask, "near.bare_cylinder")


def near_only(ask: Asked) -> bool:
    """Reading glasses."""
    return design(ask) == "reading"


def find_distance(ask: Asked) -> bool:
    """Reading glasses are sharp at one distance."""
    return design(ask) == "reading" and told(ask, "near.find")


def small_print(ask: Asked) -> bool:
    """Lenses with a near power."""
    return design(ask) in (*MULTIFOCAL, "reading")


def reading_glasses(ask: Asked) -> bool:
    """Who must wear other glasses to read, and does not read with bare eyes."""
    return presbyope_far_only(ask) and not loses_near(ask)


RULES = {
    "say.near_blurred": presbyope_far_only,
    "know.near_blurred": reading_glasses,
    "know.loses_near": loses_near,
    "know.near_only": near_only,
    "know.find_distance": find_distance,
    "check.small_print": small_print,
}
