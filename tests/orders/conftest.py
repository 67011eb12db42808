"""An order as plain data, and a way to have it read from disk."""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from plain_order import PLAIN, Data

from explainer.errors import Fault, InputError
from explainer.orders import Order, read_order


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
