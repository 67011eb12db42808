"""An order as plain data, and a way to have it read from disk."""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from explainer.errors import Fault, InputError
from explainer.orders import Order, read_order

Data = dict[str, Any]

PLAIN: Data = {
    "order": "TK-0417",
    "date": "2026-10-05",
    "language": "en-GB",
    "wearer": {"name": "Odalys Brackenwhistle", "birth_year": 1971, "uses": ["driving"]},
    "prescription": {"written": "2026-09-21", "right": "+1.75 -0.50 x 63", "left": "+2.25 DS", "vertex_mm": 12.5},
    "measurements": {"pd_right_mm": 32.0, "pd_left_mm": 31.5},
    "frame": {"a_mm": 51.0, "b_mm": 36.0, "dbl_mm": 18.0, "ed_mm": 54.0, "material": "metal"},
    "lens": {"design": "single-vision", "material": "urethane-1.53", "tint": "clear", "coatings": ["hard"]},
    "bench": {"right": "+1.78 -0.52 x 62", "left": "+2.24 DS", "pd_mm": 63.5},
    "previous": {"right": "+1.25 -0.50 x 60", "left": "+1.75 DS"},
}


@pytest.fixture
def plain() -> Data:
    """An order without a fault, to be changed by the test."""
    return copy.deepcopy(PLAIN)


@pytest.fixture
def read(tmp_path: Path) -> Callable[..., Order]:
    """Writes an order as JSON and reads it."""

    def reader(data: Data, **options: Any) -> Order:
        path = tmp_path / "order.json"
        path.write_text(json.dumps(data), encoding="utf-8")
        return read_order(path, **options)

    return reader


@pytest.fixture
def faults(read: Callable[..., Order]) -> Callable[..., list[Fault]]:
    """The faults for which an order is refused."""

    def reader(data: Data, **options: Any) -> list[Fault]:
        with pytest.raises(InputError) as refusal:
            read(data, **options)
        return list(refusal.value.faults)

    return reader
