"""The gallery itself: accepted, invented, no two orders alike, and the cases that the sheet names among them."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner
from scoring.leaflet import gallery
from scoring.marks import ALL_ITEMS, CHECKS, READERS_ONLY
from scoring.sheet import BLOCKS

from explainer.cli import main
from explainer.optics.spectacles import SIDES, Spectacles
from explainer.orders import read_order

ORDERS = gallery()


def spectacles() -> list[Spectacles]:
    return [read_order(path).spectacles for path in ORDERS]


@pytest.mark.parametrize("path", ORDERS, ids=lambda path: path.stem)
def test_every_order_is_accepted(path: Path):
    told = CliRunner().invoke(main, ["check", str(path)])

    assert told.exit_code == 0, told.output


def test_no_two_orders_are_alike():
    assert len(ORDERS) >= 16
    assert len({read_order(path).number for path in ORDERS}) == len(ORDERS)
    assert len({repr(each.prescription) for each in spectacles()}) == len(ORDERS)
    assert len({read_order(path).wearer_name for path in ORDERS}) == len(ORDERS)


def test_the_cases_that_the_sheet_names_are_there():
    every = spectacles()
    eyes = [eye for each in every for eye in (each.prescription.right, each.prescription.left)]
    axes = {eye.axis_deg for eye in eyes}

    assert {5, 90, 175} <= axes
    assert not any(all(each.prescription.eye(side).axis_deg == 90 for side in SIDES) for each in every)
    assert any(eye.add_d and eye.sphere_d > 0 for eye in eyes)
    assert any(eye.prism_in_pd and eye.prism_up_pd for eye in eyes)
    assert {"clear", "fixed", "photochromic", "photochromic-visible", None} <= {each.lens.tint for each in every}
    assert {3, 4} <= {each.lens.tint_category for each in every}
    assert {"single-vision", "reading", "bifocal", "progressive"} <= {each.lens.design for each in every}
    assert {"acetate", "nylon", "metal", "titanium", "half-rim", "rimless", None} == {f.frame.material for f in every}
    assert any(each.frame.outline_right_mm for each in every)
    assert any((each.wearer.age_years or 99) < 16 for each in every)
    assert any(each.wearer.only_seeing_eye for each in every)
    assert any(read_order(path).release for path in ORDERS)


def test_every_item_of_the_sheet_is_checked_or_left_to_readers():
    assert len(BLOCKS) == 6
    assert len(ALL_ITEMS) == 35
    assert set(CHECKS) | set(READERS_ONLY) == set(ALL_ITEMS)
    assert not set(CHECKS) & set(READERS_ONLY)
