"""Which lens is called the stronger one: of the lenses as made, so reading glasses by their reading power."""

from __future__ import annotations

from dataclasses import replace

import pytest

from explainer.compose.plan import compose
from explainer.optics.claims import explain
from explainer.optics.spectacles import Design, Eye, LensChoice, Prescription, Spectacles

# worked by hand: far +2.00 and +1.75, near +4.00 and +4.50; the lens with the greater power is the stronger (common
# practice)
UNEQUAL = Spectacles(prescription=Prescription(right=Eye(sphere_d=2.0, add_d=2.0), left=Eye(sphere_d=1.75, add_d=2.75)))
CROSSED = Spectacles(
    prescription=Prescription(right=Eye(sphere_d=-2.5, add_d=1.0), left=Eye(sphere_d=-2.25, add_d=0.5))
)


@pytest.mark.parametrize(("design", "stronger"), [("progressive", "right"), ("reading", "left")])
@pytest.mark.parametrize("order", [UNEQUAL, CROSSED], ids=["plus", "minus"])
def test_the_stronger_lens_is_that_of_the_lenses_as_made(order: Spectacles, design: Design, stronger: str):
    made = replace(order, lens=LensChoice(design=design))
    assert explain(made).claims.value("pair.stronger") == stronger


# worked by hand: greatest powers alike in the first three; mean powers 0.125, 1.00 and 0 apart; the last has no power
@pytest.mark.parametrize(
    ("right", "left", "alike"),
    [
        (
            Eye(sphere_d=-2.75, cylinder_d=-0.5, axis_deg=20.0),
            Eye(sphere_d=-2.5, cylinder_d=-0.75, axis_deg=158.0),
            True,
        ),
        (Eye(sphere_d=-2.0), Eye(sphere_d=0.0, cylinder_d=-2.0, axis_deg=90.0), False),
        (Eye(sphere_d=1.5), Eye(sphere_d=1.5), True),
        (Eye(sphere_d=0.0), Eye(sphere_d=0.0), False),
    ],
)
def test_lenses_are_called_alike_only_if_their_mean_powers_are_too(right: Eye, left: Eye, alike: bool):
    spectacles = Spectacles(prescription=Prescription(right=right, left=left))
    explanation = explain(spectacles)
    assert explanation.claims.value("pair.stronger") == "equal"
    assert ("alike" in compose(spectacles, explanation).flags) is alike
