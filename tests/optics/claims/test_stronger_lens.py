"""Which lens is called the stronger one: of the lenses as made, so reading glasses by their reading power."""

from __future__ import annotations

from dataclasses import replace

import pytest

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
