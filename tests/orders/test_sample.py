"""A sample shows the work and hides the people."""

from __future__ import annotations

from dataclasses import replace

from many import EXAMPLES

from explainer.orders import read_order
from explainer.orders.assembly.normal import normal_form
from explainer.orders.sample import as_sample


def test_nothing_that_leads_to_a_person_is_left():
    order = read_order(EXAMPLES / "FL-3125.toml")
    assert order.workshop
    order = replace(order, workshop=replace(order.workshop, returns="Post it to 4 Harbour Row, or call 01632 960714."))
    text = normal_form(as_sample(order))

    for private in ("Quillon", "Bartholomew", "Harbour", "TW9", "960714", "bench@", "A. Fernlight", "trial frame"):
        assert private in normal_form(order)
        assert private not in text
    assert "Fernlight Spectacle Workshop" in text
    assert as_sample(order).spectacles.wearer.age_years is None


def test_the_prescription_and_the_number_stay():
    order = read_order(EXAMPLES / "FL-3125.toml")
    sample = as_sample(order)

    assert sample.spectacles.prescription == order.spectacles.prescription
    assert sample.number == order.number


def test_an_order_without_people_is_its_own_sample():
    order = read_order(EXAMPLES / "FL-3125.toml")
    bare = as_sample(replace(order, release=None, workshop=None))

    assert as_sample(bare) == bare
