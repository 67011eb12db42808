"""From an order and its claims to the plan of a document."""

from __future__ import annotations

from explainer.compose.document import Document
from explainer.compose.figures import figure_requests, moved_in
from explainer.optics.claim import Basis, Interval
from explainer.optics.claims import Explanation
from explainer.optics.claims.ledger import ClaimSet
from explainer.optics.formulas.reactive import is_reactive
from explainer.optics.spectacles import SIDES, Side, Spectacles

_TURN_SHOWS_D = 1.0  # turned by ten degrees, less cylinder than this blurs signs too little for our picture
_ANTI_REFLECTION = "anti-reflection"


def compose(spectacles: Spectacles, explanation: Explanation) -> Document:
    """Which sections, under which conditions, with which figures."""
    claims = explanation.claims
    flags = _flags(spectacles, claims)
    stronger = _stronger_side(claims)
    sight_side = _cylinder_side(claims) or stronger
    figures = figure_requests(spectacles, explanation, flags=flags, sight_side=sight_side, section_side=stronger)
    return Document(
        sections=_sections(spectacles, claims, flags),
        flags=flags,
        figures=figures,
        sight_side=sight_side,
        section_side=stronger,
    )


def _sections(spectacles: Spectacles, claims: ClaimSet, flags: frozenset[str]) -> tuple[str, ...]:
    tinted = spectacles.lens.tint not in (None, "clear")
    wanted = {
        "cautions": True,
        "numbers": True,
        "bench": "bench.said" in claims,
        "direction": "cylinder" in flags,
        "sight": "sight" in flags,
        "lens": spectacles.lens.material is not None,
        "tint": tinted and "tint.class" in claims,
        "car": tinted and "drive.night" in claims,
        "settling-in": True,
        "fit": True,
        "care": True,
        "sources": True,
    }
    return tuple(name for name, applies in wanted.items() if applies)


def _flags(spectacles: Spectacles, claims: ClaimSet) -> frozenset[str]:
    made = [(f"{side}.{part}", f"{side}.made.{part}") for side in SIDES for part in ("sphere", "cylinder", "axis")]
    reading = spectacles.lens.design == "reading"
    adds = [spectacles.prescription.eye(side).add_d for side in SIDES]
    changed = any(claims.value(received) != claims.value(done) for received, done in made)
    powered = any(claims.number(f"{side}.strongest") > 0 for side in SIDES)
    conditions = {
        "alike": claims.value("pair.alike") is True,
        "cylinder": any(f"{side}.axis" in claims for side in SIDES),
        # signs far off are no picture of reading glasses, which blur them
        "sight": not reading and powered,
        "turn_shows": max(abs(claims.number(f"{side}.cylinder")) for side in SIDES) >= _TURN_SHOWS_D,
        "add": any(add is not None for add in adds),
        "prism": any(f"{side}.prism.horizontal" in claims for side in SIDES),
        "prism_sideways": any(spectacles.prescription.eye(side).prism_in_pd for side in SIDES),
        "prism_upright": any(spectacles.prescription.eye(side).prism_up_pd for side in SIDES),
        "near_part": spectacles.lens.design in (None, "bifocal", "progressive"),
        "form_changed": any(spectacles.prescription.eye(side).cylinder_d > 0 for side in SIDES),
        "made_for_near": reading and changed and any(add is not None for add in adds),
        "anti_reflection": _ANTI_REFLECTION in spectacles.lens.coatings,
        "changed": any((claims.value(f"{side}.change") or 0) != 0 for side in SIDES),
        "photochromic": is_reactive(spectacles.lens.tint),
        "motorcycle": "motorcycle" in spectacles.wearer.uses,
        "snow": "snow" in spectacles.wearer.uses,
        "supplied_tint": bool(spectacles.lens.supplied.dark_percent_by_celsius),
        "moved_in": moved_in(claims),
        "focus_help": any(_surely_some(claims, f"{side}.focus_help") for side in SIDES),
        "typical_thickness": _rests_on_memory(claims, "thickness.thickest"),
        "comparison": _comparison(spectacles, claims),
    }
    return frozenset(name for name, holds in conditions.items() if holds)


def _comparison(spectacles: Spectacles, claims: ClaimSet) -> bool:
    """A comparison never rests on memory alone, and hard resin is not compared with itself."""
    return (
        spectacles.lens.material not in (None, "hard-resin")
        and all(f"{side}.reference.thickest" in claims for side in SIDES)
        and not _rests_on_memory(claims, "reference.thickest")
        and not _rests_on_memory(claims, "thickness.thickest")
    )


def _surely_some(claims: ClaimSet, claim_id: str) -> bool:
    """Whether even the low end of a range is above zero: an old eye may have nothing left to focus with."""
    value = claims.value(claim_id)
    low = value.low if isinstance(value, Interval) else value
    return isinstance(low, int | float) and low > 0


def _rests_on_memory(claims: ClaimSet, part: str) -> bool:
    found = [claims[f"{side}.{part}"] for side in SIDES if f"{side}.{part}" in claims]
    return any(claim.weakest is Basis.MEMORY for claim in found)


def _stronger_side(claims: ClaimSet) -> Side:
    return "left" if claims.value("pair.stronger") == "left" else "right"


def _cylinder_side(claims: ClaimSet) -> Side | None:
    """The side with the greater cylinder, where there is any."""
    sizes = {side: abs(claims.number(f"{side}.cylinder")) for side in SIDES}
    if max(sizes.values()) == 0:
        return None
    return "left" if sizes["left"] > sizes["right"] else "right"
