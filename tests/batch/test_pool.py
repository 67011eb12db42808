"""Worker processes: every order comes back once, whatever becomes of the workers."""

from __future__ import annotations

import multiprocessing
import os
import subprocess
import sys
from collections import Counter
from dataclasses import replace

import pytest
from many import EXAMPLES, HOME

from explainer.batch.alone import workers_for
from explainer.batch.documents import Settings
from explainer.batch.pool import made_by_workers
from explainer.batch.work import Made, Refused, make_one
from explainer.orders import Order, read_order


class Poison:
    """Ends the process that unpacks it, as a process ends that the system kills for want of memory."""

    def __reduce__(self):
        return os._exit, (9,)


def numbered(count: int) -> list[Order]:
    order = read_order(EXAMPLES / "FL-3118.toml")
    return [replace(order, number=f"P-{number}", source=f"P-{number}") for number in range(count)]


@pytest.mark.slow
def test_workers_give_the_same_bytes_as_this_process():
    orders = numbered(3)

    made = {order.number: result for order, result in made_by_workers(orders, Settings(), 2)}

    assert set(made) == {order.number for order in orders}
    for order in orders:
        here, there = make_one(order, Settings()), made[order.number]
        assert isinstance(here, Made)
        assert isinstance(there, Made)
        assert here.data == there.data


@pytest.mark.slow
def test_an_order_that_ends_its_worker_is_refused_and_the_others_are_made():
    orders = numbered(5)
    orders[1] = replace(orders[1], notes=(Poison(),))

    results = [(order.number, result) for order, result in made_by_workers(orders, Settings(), 2)]

    assert Counter(number for number, _ in results) == Counter(f"P-{number}" for number in range(5))
    for number, result in results:
        assert isinstance(result, Refused if number == "P-1" else Made), number
    refusal = dict(results)["P-1"]
    assert isinstance(refusal, Refused)
    assert "ended from outside" in refusal.message


@pytest.mark.slow
def test_a_worker_killed_once_loses_nothing():
    results = []
    for order, result in made_by_workers(numbered(6), Settings(), 2):
        if not results:
            multiprocessing.active_children()[0].kill()
        results.append((order.number, result))

    assert Counter(number for number, _ in results) == Counter(f"P-{number}" for number in range(6))
    assert all(isinstance(result, Made) for _, result in results)


@pytest.mark.slow
def test_no_worker_is_left_behind():
    results = made_by_workers(numbered(4), Settings(), 2)
    next(results)
    results.close()

    assert not multiprocessing.active_children()


@pytest.mark.parametrize(
    ("orders", "wanted", "workers"), [(1, None, 1), (1, 8, 1), (2, None, 1), (2, 2, 2), (1000, 1, 1), (1000, 3, 3)]
)
def test_one_order_never_starts_a_pool(orders: int, wanted: int | None, workers: int):
    assert workers_for(orders, wanted) == workers


def test_for_a_single_leaflet_the_machinery_of_pools_is_not_even_imported(tmp_path):
    code = f"""
import sys
from explainer.cli import main
try:
    main(["make", {str(EXAMPLES / "FL-3118.toml")!r}, "-o", {str(tmp_path)!r}])
except SystemExit as end:
    print(end.code, "concurrent.futures.process" in sys.modules, "explainer.batch.pool" in sys.modules)
"""
    shown = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=HOME)

    assert shown.stdout.splitlines()[-1] == "0 False False"


def test_a_failure_that_nobody_foresaw_is_told_by_its_place_and_not_by_its_text(monkeypatch: pytest.MonkeyPatch):
    from explainer.render import leaflet

    def fail(*_: object, **__: object) -> None:
        raise KeyError("Zyxquil -4.25")

    monkeypatch.setattr(leaflet, "explained", fail)
    result = make_one(numbered(1)[0], Settings())

    assert isinstance(result, Refused)
    assert "KeyError in test_pool.py" in result.message
    assert "Zyxquil" not in result.message
