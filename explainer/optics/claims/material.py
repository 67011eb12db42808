"""Claims about the lens material: index, colour spread, weight, ultraviolet, reflections, knocks, scratches."""

from __future__ import annotations

from explainer.optics.claims.ledger import FACT, Ledger
from explainer.optics.claims.working import high
from explainer.optics.formulas import chromatic, comparison, reflection
from explainer.optics.spectacles import SIDES, Spectacles

REFERENCE = "hard-resin"


def issue(ledger: Ledger, spectacles: Spectacles) -> None:
    """The coatings; of the material nothing when it was not given."""
    for name in sorted(spectacles.lens.coatings):
        ledger.ordered(f"lens.coating.{name}", True)
    material = spectacles.lens.material
    if material is None:
        return
    ledger.ordered("lens.material", material)
    own = f"material.{material}"
    for name, fact in (
        ("index", "index_d"),
        ("abbe", "abbe"),
        ("density", "density"),
        ("uv_edge", "uv_edge"),
    ):
        ledger.fact(f"lens.{name}", f"{own}.{fact}")
    _ultraviolet(ledger)
    for side in SIDES:
        _light(ledger, side)
    ledger.compute(
        "lens.fringes",
        comparison.spreads_more,
        abbe="lens.abbe",
        reference_abbe=f"{FACT}material.{REFERENCE}.abbe",
    )
    _strength(ledger, material)


def _ultraviolet(ledger: Ledger) -> None:
    """Whether even the best sample on record leaves some ultraviolet through."""
    ledger.compute(
        "lens.uv_passes",
        comparison.lets_ultraviolet_pass,
        edge_nm=high("lens.uv_edge"),
        band_end_nm=f"{FACT}light.uv.band_end.spectacles",
    )


def _light(ledger: Ledger, side: str) -> None:
    ledger.compute(f"{side}.reflection.per_surface", reflection.surface_reflectance, scale=100, index="lens.index")
    ledger.compute(f"{side}.transmission.uncoated", reflection.transmittance, scale=100, index="lens.index")
    ledger.compute(
        f"{side}.colour_fringe.at_10mm",
        chromatic.fringe_at_distance_pd,
        power_d=f"{side}.strongest",
        distance_mm=f"{FACT}rules.side_look",
        abbe="lens.abbe",
    )


def _strength(ledger: Ledger, material: str) -> None:
    """What studies say of knocks and scratches, for the materials that they speak of."""
    if material == "polycarbonate":
        ledger.fact("lens.impact.best", "reference.impact.best", value=True)
        ledger.fact("lens.scratch.softer", "reference.scratch.coated_polycarbonate", value=True)
    elif material == "crown-glass":
        ledger.fact("lens.impact.glass", "reference.impact.glass", value=True)
    else:
        ledger.fact("lens.impact.limited", "reference.drop_ball.meaning", value=True)
