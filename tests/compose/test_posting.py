"""What keeps a pair from being posted: readings outside, questions, and answers to questions that nobody asked."""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from plain_order import PLAIN

from explainer.compose.explained import explained
from explainer.compose.release import bench_lines, posting_faults
from explainer.errors import InputError
from explainer.orders import Order, read_order
from explainer.render.leaflet import make_leaflet

Data = dict[str, Any]


@pytest.fixture
def ordered(tmp_path: Path) -> Callable[..., Order]:
    """The plain order with changes in its tables; `shop` is a workshop file beside it."""

    def reader(changes: Data, shop: str = "") -> Order:
        data = copy.deepcopy(PLAIN)
        for table, fields in changes.items():
            data[table] = data.get(table, {}) | fields
        (tmp_path / "order.json").write_text(json.dumps(data), encoding="utf-8")
        if shop:
            (tmp_path / "workshop.toml").write_text(shop, encoding="utf-8")
        return read_order(tmp_path / "order.json")

    return reader


def fields(order: Order) -> list[str]:
    return [fault.field for fault in posting_faults(order, explained(order).claims)]


LIMITS = {"power": 0.12, "cylinder": 0.12, "axis": 9}
GLASS = {"lens": {"material": "crown-glass"}, "wearer": {"only_seeing_eye": "right"}}


@pytest.mark.parametrize(
    ("changes", "field", "answer"),
    [
        (GLASS, "lens.material", {"glass": "advised"}),
        ({"prescription": {"add": "+2.00"}}, "lens.design", {"addition": "left-out"}),
        ({"lens": {"tint": "fixed", "tint_category": 4}}, "lens.tint_category", {"category_four": "never-for-driving"}),
    ],
)
def test_a_question_holds_the_leaflet_until_the_order_answers(
    changes: Data, field: str, answer: Data, ordered: Callable[..., Order]
):
    order = ordered(changes)
    assert fields(order) == [field]
    with pytest.raises(InputError) as refused:
        make_leaflet(order)
    assert [fault.field for fault in refused.value.faults] == [field]

    assert fields(ordered(changes | {"answers": answer})) == []


@pytest.mark.parametrize("answer", [{"glass": "advised"}, {"addition": "left-out"}])
def test_an_answer_to_no_question_is_refused(answer: Data, ordered: Callable[..., Order]):
    assert fields(ordered({"answers": answer})) == [f"answers.{next(iter(answer))}"]


def test_what_is_missing_is_answered_by_the_field_itself(ordered: Callable[..., Order]):
    progressive = {"lens": {"design": "progressive"}, "prescription": {"add": "+2.00"}}
    assert fields(ordered(progressive)) == ["measurements.height_right_mm"]

    heights = {"height_right_mm": 20.0, "height_left_mm": 20.0}
    assert fields(ordered(progressive | {"measurements": heights})) == []


def test_a_workshop_may_demand_readings(ordered: Callable[..., Order]):
    shop = 'name = "Weir"\n[rules]\nbench = "required"\n'
    assert fields(ordered({}, shop)) == []
    assert fields(ordered({"bench": {"left": "+2.24"}}, shop)) == ["bench"]  # nobody looked for a cylinder


def test_limits_of_another_country_are_named_for_the_workshop_alone(ordered: Callable[..., Order]):
    abroad = ordered({}, 'name = "Weir"\ncountry = "GB"\n')
    at_home = ordered({}, 'name = "Weir"\ncountry = "US"\n')
    first, second = (bench_lines(order, explained(order).claims)[0] for order in (abroad, at_home))

    assert "ANSI Z80.1-2015" in first
    assert "workshop alone" in first
    assert "workshop alone" not in second


def test_a_reading_far_from_the_order_is_held_in_every_country(ordered: Callable[..., Order]):
    order = ordered({"bench": {"left": "+3.25 DS"}}, 'name = "Weir"\ncountry = "GB"\n')
    assert fields(order) == ["bench.left.stronger"]

    release = {"release": {"by": "A. N. Other", "date": "2026-10-06", "reason": "tried and kept"}}
    assert fields(ordered({"bench": {"left": "+3.25 DS"} | release})) == []


def test_own_limits_are_named_by_their_own_name(ordered: Callable[..., Order], tmp_path: Path):
    rows = "".join(f"[[{name}]]\nallowed = {limit}\n" for name, limit in LIMITS.items())
    (tmp_path / "limits.toml").write_text(f'name = "ISO 21987, our copy"\n{rows}', encoding="utf-8")
    order = ordered({}, 'name = "Weir"\ncountry = "GB"\n[rules]\nlimits = "limits.toml"\n')
    lines = bench_lines(order, explained(order).claims)

    assert lines[0] == "limits: ISO 21987, our copy"
    assert "bench.right.weaker: +1.26 D, off by +0.01 D, limit 0.12 D: inside" in lines
