"""The materials, the reference numbers, and the list of sources, against laws and against each other."""

from __future__ import annotations

import math
from typing import get_args

import pytest
from studies import study

from explainer.optics import facts
from explainer.optics.claim import Basis
from explainer.optics.spectacles import Material

MATERIALS = get_args(Material)
OWN = ("material", "reference", "tolerance")
LOOKED_UP = {Basis.STANDARD, Basis.REGULATION, Basis.PUBLISHED}


@pytest.mark.parametrize("material", MATERIALS)
@pytest.mark.parametrize("quality", ["index_d", "abbe", "density", "uv_edge"])
def test_every_material_has_every_number(material: str, quality: str) -> None:
    fact = facts.get(f"material.{material}.{quality}")
    low, high = {
        "index_d": (1.45, 1.8),
        "abbe": (25, 62),
        "density": (1.0, 3.0),
        "uv_edge": (280, 400),
    }[quality]
    assert low <= fact.interval.low <= fact.interval.high <= high


@pytest.mark.parametrize("material", MATERIALS)
def test_the_index_at_the_green_line_is_the_higher_one(material: str) -> None:
    # Law: normal dispersion; 546 nm is shorter than 588 nm. jalie-lens-data says the same of the two habits.
    green, yellow = study(f"material.{material}.index_e").interval, facts.get(f"material.{material}.index_d").interval
    assert green.high >= yellow.high
    assert green.low >= yellow.low


def test_the_measured_polycarbonate_is_what_its_dispersion_formula_gives() -> None:
    # sultanova-2009, through the formula; zhang-2020 is the upper end.
    def index(wavelength_um: float) -> float:
        return math.sqrt(1 + 1.4182 * wavelength_um**2 / (wavelength_um**2 - 0.021304))

    index_d, index_f, index_c = map(index, (0.5875618, 0.4861327, 0.6562725))
    measured = study("material.polycarbonate.index_d_measured").interval
    assert measured.low == pytest.approx(index_d, abs=5e-6)
    abbe = study("material.polycarbonate.abbe_measured").interval
    assert abbe.low == pytest.approx((index_d - 1) / (index_f - index_c), abs=0.005)
    assert facts.get("material.polycarbonate.abbe").interval.low <= abbe.high


def test_the_trade_names_of_the_high_indices_are_near_the_green_index_and_above_the_yellow() -> None:
    for name in ("1.60", "1.67", "1.74"):
        assert study(f"material.high-index-{name}.index_e").number == pytest.approx(float(name), abs=0.005)
        assert facts.get(f"material.high-index-{name}.index_d").interval.low < float(name)


@pytest.mark.parametrize("topic", OWN)
def test_nothing_is_published_on_weak_authority_alone(topic: str) -> None:
    known = facts.sources()
    for fact in facts.topic_facts(topic).values():
        if fact.basis in LOOKED_UP:
            assert any(not known[citation.source].weak for citation in fact.sources), fact.id


def test_the_threshold_for_colour_fringes_and_the_isos_tables_rest_on_memory() -> None:
    assert facts.get("reference.chromatic.threshold").basis is Basis.MEMORY
    assert facts.get("material.crown-glass.uv_edge").basis is Basis.MEMORY


def test_the_ball_of_the_drop_test_is_dropped_from_inches_not_feet() -> None:
    height = study("reference.drop_ball.height")
    assert (height.value, height.unit) == (50, "inch")


def test_where_sources_disagree_the_fact_is_a_range() -> None:
    for name in ("material.polycarbonate.abbe", "reference.vertex.at_refraction"):
        interval = facts.get(name).interval
        assert interval.low < interval.high


def test_every_source_has_a_title_and_a_place_and_no_two_share_a_title() -> None:
    sources = facts.sources().values()
    titles = [source.title for source in sources]
    assert len(titles) == len(set(titles))
    assert all(source.where.strip() for source in sources)
