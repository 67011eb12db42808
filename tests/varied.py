"""Varied real orders by the hundred, from the five of output_examples: other powers, axes, frames, distances, numbers.

Bench readings and the previous prescription are moved along with the prescription, so that what agreed still agrees.
"""

from __future__ import annotations

import random
from dataclasses import replace
from pathlib import Path

from explainer.optics.spectacles import Eye, Frame, Measurements, Prescription, Readings
from explainer.orders import Order, read_order

FOLDER = Path(__file__).parents[1] / "output_examples" / "orders"


def varied_orders(count: int, seed: int = 5) -> list[Order]:
    """So many orders, each another one; the same ones for the same seed."""
    dice = random.Random(seed)
    models = [read_order(path) for path in sorted(FOLDER.rglob("FL-*.toml"))]
    return [_varied(models[number % len(models)], number, dice) for number in range(count)]


def _varied(model: Order, number: int, dice: random.Random) -> Order:
    steps = {side: dice.randint(-6, 6) / 4 for side in ("right", "left")}
    turns = {side: dice.randint(0, 179) for side in ("right", "left")}
    asked = model.spectacles

    def eye(found: Eye, side: str) -> Eye:
        axis = None if found.axis_deg is None else (found.axis_deg + turns[side] - 1) % 180 + 1
        return replace(found, sphere_d=found.sphere_d + steps[side], axis_deg=axis)

    def both(found: Prescription) -> Prescription:
        return replace(found, right=eye(found.right, "right"), left=eye(found.left, "left"))

    spectacles = replace(
        asked,
        prescription=both(asked.prescription),
        previous=both(asked.previous) if asked.previous else None,
        readings=_readings(asked.readings, eye) if asked.readings else None,
        frame=_frame(asked.frame, dice),
        measurements=_measured(asked.measurements, dice),
    )
    return replace(model, number=f"V-{number:04}", source=f"V-{number:04}", spectacles=spectacles)


def _readings(found: Readings, eye: object) -> Readings:
    assert callable(eye)
    right = eye(found.right, "right") if found.right else None
    left = eye(found.left, "left") if found.left else None
    return replace(found, right=right, left=left, reference_points_mm=None, reference_point_right_mm=None)


def _frame(found: Frame, dice: random.Random) -> Frame:
    assert found.a_mm
    assert found.b_mm
    return replace(found, a_mm=found.a_mm + dice.randint(-3, 3), b_mm=found.b_mm + dice.randint(-3, 3), ed_mm=None)


def _measured(found: Measurements, dice: random.Random) -> Measurements:
    move = dice.randint(-4, 4) / 2
    if found.pd_right_mm and found.pd_left_mm:
        return replace(found, pd_right_mm=found.pd_right_mm + move, pd_left_mm=found.pd_left_mm - move)
    assert found.pd_mm
    return replace(found, pd_mm=found.pd_mm + move)
