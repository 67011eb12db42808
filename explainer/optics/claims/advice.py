"""Claims behind the advice on fitting, care and settling in: which statements hold for this frame and lens."""

from __future__ import annotations

from explainer.optics.claims.ledger import Ledger
from explainer.optics.spectacles import SIDES, Spectacles

# frame material: the fitting facts that apply to it
_FITTING = {
    None: ("bend",),
    "acetate": ("warm",),
    "nylon": ("warm",),
    "metal": ("bend",),
    "titanium": ("titanium",),
    "half-rim": ("bend",),
    "rimless": ("rimless",),
}
# statements that only replies print, by the fact behind each
_REPLIES = {
    "care.clean": "reference.care.clean",
    "care.cleaners": "reference.care.avoid_chemicals",
    "care.smear": "advice.care.smear",
    "care.polish": "advice.care.polish",
    "fit.lens_out": "advice.fit.lens_out",
    "fit.glue": "advice.fit.glue",
    "fit.slides": "advice.fit.slides",
    "settling.size": "advice.settling.size",
    "glare.dirt": "advice.glare.dirt",
    "glare.pupil": "advice.glare.pupil",
    "help.measure": "advice.help.measure",
}


def issue(ledger: Ledger, spectacles: Spectacles) -> None:
    """Wearer, settling in, fitting, care."""
    if spectacles.wearer.age_years is not None:
        ledger.ordered("wearer.age", spectacles.wearer.age_years)
    if spectacles.wearer.only_seeing_eye is not None:
        ledger.ordered("wearer.only_seeing_eye", spectacles.wearer.only_seeing_eye)
    if spectacles.wearer.first_pair:
        ledger.ordered("wearer.first_pair", True)
    ledger.fact("settling.usual", "reference.adaptation.usual")
    ledger.fact("settling.cause", "reference.adaptation.true_failures", value=True)
    ledger.fact("duty.device", "advice.duty.device", value=True)
    for where in ("eu", "uk", "us"):
        ledger.fact(f"duty.rules.{where}", f"advice.duty.{where}", value=True)
    _fitting(ledger, spectacles)
    _care(ledger, spectacles)
    _replies(ledger, spectacles)


def _fitting(ledger: Ledger, spectacles: Spectacles) -> None:
    frame = spectacles.frame.material
    ledger.fact("fit.ears", "advice.fit.ears")
    ledger.fact("fit.ears.of", "advice.fit.ears_of")
    ledger.fact("fit.table", "advice.fit.table", value=True)
    ledger.fact("fit.face", "advice.fit.face", value=True)
    ledger.fact("fit.free", "advice.fit.free", value=True)
    for name in _FITTING[frame]:
        ledger.fact(f"fit.{name}", f"advice.fit.{name}", value=True)


def _care(ledger: Ledger, spectacles: Spectacles) -> None:
    polycarbonate = spectacles.lens.material == "polycarbonate"
    acetate = spectacles.frame.material == "acetate"
    if polycarbonate:
        ledger.fact("care.solvents.lens", "reference.solvent.polycarbonate.acetone", value=True)
    if acetate:
        ledger.fact("care.solvents.frame", "reference.solvent.cellulose_frame.acetone", value=True)
    if not (polycarbonate or acetate):
        ledger.fact("care.solvents.coating", "reference.care.avoid_chemicals", value=True)
    ledger.fact("care.heat", "reference.care.avoid_heat", value=True)


def _replies(ledger: Ledger, spectacles: Spectacles) -> None:
    for claim_id, fact_id in _REPLIES.items():
        ledger.fact(claim_id, fact_id, value=True)
    if spectacles.lens.material == "polycarbonate":
        ledger.fact("care.dry", "advice.care.dry", value=True)
    if spectacles.lens.coatings:
        ledger.fact("care.crazing", "advice.care.crazing", value=True)
    if any(spectacles.prescription.eye(side).cylinder_d for side in SIDES):
        ledger.fact("settling.tilt", "advice.settling.tilt", value=True)
