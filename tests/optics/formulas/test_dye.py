"""The dye: activation, Arrhenius, Beer-Lambert, each against its law or a published number."""

from __future__ import annotations

from math import log10

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from explainer.errors import OutOfRange
from explainer.optics.formulas import dye

NM = np.arange(300.0, 501.0)
CURVE = {"peak_nm": 365.0, "below_nm": 40.0, "above_nm": 18.0}


def test_the_ultraviolet_class_peaks_where_the_closed_dye_absorbs():
    """Encyclopaedia-type page (weak): 361 to 370 nm; and 1/e one width away on each side."""
    curve = dye.activation(wavelength_nm=NM, **CURVE)

    assert 361 <= NM[curve.argmax()] <= 370
    assert curve.max() == 1
    assert dye.activation(wavelength_nm=np.array([325.0, 383.0]), **CURVE) == pytest.approx(np.exp(-1))


def test_the_ultraviolet_class_has_only_a_tail_in_the_violet():
    assert dye.activation(wavelength_nm=np.array([420.0]), **CURVE)[0] < 1e-3


def test_the_visible_class_reacts_to_violet_and_not_to_blue():
    curve = dye.activation(wavelength_nm=NM, **CURVE, visible_share=0.3)

    assert curve[NM == 400][0] > 0.3
    assert curve[NM == 480][0] < 1e-3
    assert np.all(curve >= dye.activation(wavelength_nm=NM, **CURVE))


@pytest.mark.parametrize("energy", [66.1, 84.7])
def test_the_energies_of_two_polymers_lie_at_or_above_the_slowing_of_real_lenses(energy: float):
    """IJPS 2011: 66.1 and 84.7 kJ/mol. PLoS ONE 2020: 2.7 to 5.4 times slower at 6 than at 21 C."""
    slower = dye.warmth_factor(celsius=21, activation_kj_mol=energy) / dye.warmth_factor(
        celsius=6, activation_kj_mol=energy
    )

    assert 2.7 < slower < 7


@given(times=st.floats(1.001, 20), cold=st.floats(0, 20), warmer=st.floats(1, 20))
def test_energy_and_slowing_undo_each_other(times: float, cold: float, warmer: float):
    warm = cold + warmer
    energy = dye.activation_energy_kj_mol(times_slower=times, cold_celsius=cold, warm_celsius=warm)

    rates = [dye.warmth_factor(celsius=each, activation_kj_mol=energy) for each in (warm, cold)]
    assert rates[0] / rates[1] == pytest.approx(times, rel=1e-9)


def test_a_rate_rule_of_thumb():
    """Chemists' rule, from memory: at room temperature about 50 kJ/mol doubles a rate in 10 degrees."""
    energy = dye.activation_energy_kj_mol(times_slower=2, cold_celsius=20, warm_celsius=30)

    assert energy == pytest.approx(50, abs=3)


@given(clear=st.floats(0.3, 1), part=st.floats(0.02, 0.98), share=st.floats(0.05, 1))
def test_density_and_transmittance_undo_each_other(clear: float, part: float, share: float):
    dark = clear * part
    density = dye.full_density(clear=clear, dark=dark, coloured_share=share)

    assert dye.transmittance(clear=clear, density=density, share=share) == pytest.approx(dark)
    assert dye.share_for(clear=clear, density=density, wanted=dark) == pytest.approx(share)
    assert density * share == pytest.approx(log10(clear / dark))


def test_no_dye_coloured_leaves_the_lens_clear():
    assert dye.transmittance(clear=0.88, density=1.2, share=0.0) == 0.88


def test_a_lens_that_is_never_as_light_as_wanted_needs_less_than_no_dye():
    assert dye.share_for(clear=0.7, density=1.2, wanted=0.75) < 0


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: dye.warmth_factor(celsius=-0.1, activation_kj_mol=75),
        lambda: dye.warmth_factor(celsius=40.1, activation_kj_mol=75),
        lambda: dye.warmth_factor(celsius=20, activation_kj_mol=-1),
        lambda: dye.warmth_factor(celsius=float("nan"), activation_kj_mol=75),
        lambda: dye.activation_energy_kj_mol(times_slower=0.9, cold_celsius=6, warm_celsius=21),
        lambda: dye.activation_energy_kj_mol(times_slower=2, cold_celsius=21, warm_celsius=6),
        lambda: dye.full_density(clear=0.2, dark=0.3, coloured_share=0.5),
        lambda: dye.full_density(clear=0.9, dark=0.0, coloured_share=0.5),
        lambda: dye.full_density(clear=88.0, dark=17.0, coloured_share=0.5),
        lambda: dye.full_density(clear=0.9, dark=0.1, coloured_share=0.0),
        lambda: dye.transmittance(clear=0.9, density=1.0, share=1.01),
        lambda: dye.share_for(clear=0.9, density=1.0, wanted=0.0),
        lambda: dye.activation(wavelength_nm=NM, peak_nm=365, below_nm=40, above_nm=0),
        lambda: dye.activation(wavelength_nm=NM, **CURVE, visible_share=-0.1),
    ],
)
def test_what_is_out_of_range_is_refused(wrong):
    with pytest.raises(OutOfRange):
        wrong()
