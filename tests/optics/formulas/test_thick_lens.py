"""Thick lenses, against ray-transfer matrices. Published cases stand in tests/published/thick_lens.toml."""

from __future__ import annotations

from collections.abc import Callable

import pytest
import sympy
from hypothesis import given
from hypothesis import strategies as st

from explainer.optics.formulas import thick_lens

POWERS = st.floats(-15, 15)
THICKNESSES = st.floats(0.5, 10)
INDICES = st.floats(1.49, 1.76)
F1, F2, T, N = sympy.symbols("F1 F2 t n", real=True)


def symbolic() -> dict[str, Callable[..., float]]:
    """Independent reference: sympy multiplies refraction, reduced thickness, refraction, and reads off the powers."""

    def refraction(power: sympy.Symbol) -> sympy.Matrix:
        return sympy.Matrix([[1, 0], [-power, 1]])

    system = refraction(F2) * sympy.Matrix([[1, T / N], [0, 1]]) * refraction(F1)
    a, c, d = system[0, 0], system[1, 0], system[1, 1]
    powers = {"back_vertex_power": -c / a, "front_vertex_power": -c / d, "equivalent_power": -c}
    return {name: sympy.lambdify((F1, F2, T, N), sympy.simplify(each), "math") for name, each in powers.items()}


REFERENCE = symbolic()


@pytest.mark.parametrize("name", sorted(REFERENCE))
@given(front=POWERS, back=POWERS, thickness=THICKNESSES, index=INDICES)
def test_the_powers_are_those_of_the_system_matrix(
    name: str, front: float, back: float, thickness: float, index: float
) -> None:
    ours = getattr(thick_lens, name)(front_d=front, back_d=back, thickness_mm=thickness, index=index)
    assert ours == pytest.approx(REFERENCE[name](front, back, thickness / 1000, index), abs=1e-9)


@given(front=POWERS, back=POWERS, thickness=THICKNESSES, index=INDICES)
def test_turning_the_lens_round_exchanges_front_and_back_vertex_power(
    front: float, back: float, thickness: float, index: float
) -> None:
    one = thick_lens.back_vertex_power(front_d=front, back_d=back, thickness_mm=thickness, index=index)
    other = thick_lens.front_vertex_power(front_d=back, back_d=front, thickness_mm=thickness, index=index)
    assert one == other


@pytest.mark.parametrize(
    "name",
    [
        "back_vertex_power",
        "front_vertex_power",
        "equivalent_power",
    ],
)
@given(front=POWERS, back=POWERS, index=INDICES)
def test_a_lens_without_thickness_has_the_sum_of_its_surfaces(
    name: str, front: float, back: float, index: float
) -> None:
    power = getattr(thick_lens, name)(front_d=front, back_d=back, thickness_mm=0.0, index=index)
    assert power == pytest.approx(front + back)
