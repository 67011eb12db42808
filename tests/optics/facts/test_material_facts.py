"""The materials, the reference numbers, and the list of sources, against laws and against each other."""

from __future__ import annotations

from typing import get_args

import pytest

from explainer.optics import facts
from explainer.optics.claim import Basis
from explainer.optics.formulas.chromatic import abbe_number, polycarbonate_index
from explainer.optics.spectacles import Material

MATERIALS = get_args(Material)
OWN = ("material", "reference", "tolerance")
LOOKED_UP = {Basis.STANDARD, Basis.REGULATION, Basis.PUBLISHED}


@pytest.mark.parametrize("material", MATERIALS)
@pytest.mark.parametrize("quality", ["index_d", "index_e", "abbe", "density", "uv_edge"])
def test_every_material_has_every_number(material: str, quality: str) -> None:
    fact = facts.get(f"material.{material}.{quality}")
    low, high = {
        "index_d": (1.45, 1.8),
        "index_e": (1.45, 1.8),
        "abbe": (25, 62),
        "density": (1.0, 3.0),
        "uv_edge": (280, 400),
    }[quality]
    assert low <= fact.interval.low <= fact.interval.high <= high


@pytest.mark.parametrize("material", MATERIALS)
def test_the_index_at_the_green_line_is_the_higher_one(material: str) -> None:
    # Law: normal dispersion; 546 nm is shorter than 588 nm. jalie-lens-data says the same of the two habits.
    green, yellow = (facts.get(f"material.{material}.{name}").interval for name in ("index_e", "index_d"))
    assert green.high >= yellow.high
    assert green.low >= yellow.low


def test_the_measured_polycarbonate_is_what_its_dispersion_formula_gives() -> None:
    # sultanova-2009, through the formula; zhang-2020 is the upper end.
    index_d, index_f, index_c = (polycarbonate_index(wavelength_nm=w) for w in (587.5618, 486.1327, 656.2725))
    measured = facts.get("material.polycarbonate.index_d_measured").interval
    assert measured.low == pytest.approx(index_d, abs=5e-6)
    abbe = facts.get("material.polycarbonate.abbe_measured").interval
    assert abbe.low == pytest.approx(abbe_number(index_d=index_d, index_f=index_f, index_c=index_c), abs=0.005)
    assert facts.get("material.polycarbonate.abbe").interval.low <= abbe.high


def test_the_trade_names_of_the_high_indices_are_near_the_green_index_and_above_the_yellow() -> None:
    for name in ("1.60", "1.67", "1.74"):
        assert facts.number(f"material.high-index-{name}.index_e") == pytest.approx(float(name), abs=0.005)
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
    height = facts.get("reference.drop_ball.height")
    assert (height.value, height.unit) == (50, "inch")


def test_the_causes_of_non_tolerance_make_up_the_whole() -> None:
    # freeman-evans-2010: five causes that add up to all cases.
    causes = [fact for fact in facts.topic_facts("reference").values() if ".cause_" in fact.id]
    assert len(causes) == 5
    assert sum(fact.number for fact in causes) == pytest.approx(100, abs=0.5)


def test_where_sources_disagree_the_fact_is_a_range() -> None:
    for name in ("differential_prism.vertical", "unaided.resolution_at_1d", "vertex.at_refraction"):
        interval = facts.get(f"reference.{name}").interval
        assert interval.low < interval.high


def test_every_source_has_a_title_and_a_place_and_no_two_share_a_title() -> None:
    sources = facts.sources().values()
    titles = [source.title for source in sources]
    assert len(titles) == len(set(titles))
    assert all(source.where.strip() for source in sources)
