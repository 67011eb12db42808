"""A leaflet that would never end is refused, in this process and in a worker, and the others are made."""

from __future__ import annotations

import time
from dataclasses import replace

import pytest
from many import EXAMPLES

from explainer.batch import limit
from explainer.batch.alone import made_here
from explainer.batch.documents import Settings
from explainer.batch.pool import made_by_workers
from explainer.batch.work import Made, Refused
from explainer.orders import Order, read_order

_MAKES_IT_HANG = """
import explainer.render.leaflet as leaflet
make = leaflet.make_leaflet
def hang(order, **more):
    {hang}
leaflet.make_leaflet = lambda order, **more: (hang if order.number == "P-1" else make)(order, **more)
"""
IN_PYTHON = "while True: pass"
IN_A_LIBRARY = "sum(range(10**13))"  # a loop that neither lets other threads run nor looks for signals


class Hanging:
    """Makes the leaflet of P-1 hang in the process that unpacks it."""

    def __init__(self, hang: str) -> None:
        self.hang = hang

    def __reduce__(self):
        return exec, (_MAKES_IT_HANG.format(hang=self.hang), {})


def numbered(count: int, hang: str) -> list[Order]:
    order = read_order(EXAMPLES / "FL-3118.toml")
    return [
        replace(order, number=f"P-{number}", source=f"P-{number}", notes=(Hanging(hang),) if number == 1 else ())  # type: ignore[arg-type]
        for number in range(count)
    ]


def _swallowing_the_first() -> None:
    try:
        time.sleep(30)
    except limit.TooLong:
        time.sleep(30)


def test_the_alarm_goes_off_again_until_the_block_is_left():
    begun = time.monotonic()
    with pytest.raises(limit.TooLong), limit.at_most(0.1):
        _swallowing_the_first()

    assert time.monotonic() - begun < 5
    time.sleep(0.05)


def test_what_ends_in_time_is_left_alone():
    with limit.at_most(0.2):
        pass
    time.sleep(0.3)


def test_no_library_that_catches_every_error_swallows_the_alarm():
    assert not issubclass(limit.TooLong, Exception)


@pytest.mark.slow
def test_one_that_never_ends_in_this_process_is_refused(monkeypatch: pytest.MonkeyPatch):
    from explainer.render import leaflet

    make = leaflet.make_leaflet

    def hang(order: Order, **more: object):
        while order.number == "P-1":
            pass
        return make(order, **more)  # type: ignore[arg-type]

    monkeypatch.setattr(leaflet, "make_leaflet", hang)
    monkeypatch.setattr(limit, "SECONDS", 15)
    orders = [replace(order, notes=()) for order in numbered(2, IN_PYTHON)]
    results = {order.number: made for order, made in made_here(orders, Settings())}

    assert isinstance(results["P-0"], Made)
    assert isinstance(results["P-1"], Refused)
    assert results["P-1"].message == "P-1: no leaflet: it took more than 15 seconds"


@pytest.mark.slow
@pytest.mark.parametrize(
    ("hang", "told"), [(IN_PYTHON, "took more than 8 seconds"), (IN_A_LIBRARY, "took too long, twice")]
)
def test_one_that_never_ends_in_a_worker_is_refused(monkeypatch: pytest.MonkeyPatch, hang: str, told: str):
    monkeypatch.setattr(limit, "SECONDS", 8)
    results = {order.number: made for order, made in made_by_workers(numbered(4, hang), Settings(), 2)}

    assert set(results) == {f"P-{number}" for number in range(4)}
    assert all(isinstance(made, Made) for number, made in results.items() if number != "P-1")
    refusal = results["P-1"]
    assert isinstance(refusal, Refused)
    assert told in refusal.message
