"""What the core refuses: claims without unit or basis, facts without source, words outside their closed set."""

from __future__ import annotations

import pytest

from explainer.errors import FactError, OutOfRange
from explainer.optics import facts
from explainer.optics.claim import Basis, Citation, Claim, Interval
from explainer.optics.claims.ledger import Ledger
from explainer.optics.claims.statements import _read, sentence, statement
from explainer.optics.facts import _entries, _fact, spectra, tolerance_tables
from explainer.optics.formulas.shape import Outline

SOURCED = {"value": 1.0, "unit": "mm", "basis": "published", "source": "iso-8429-1986", "locator": "x"}


def claim(**changes) -> Claim:
    given = {"id": "right.sphere", "value": -1.0, "unit": "D", "basis": Basis.ORDERED}
    return Claim(**{**given, **changes})


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({"unit": ""}, "no unit"),
        ({"basis": Basis.COMPUTED}, "no formula or no inputs"),
        ({"basis": Basis.COMPUTED, "formula": "f"}, "no formula or no inputs"),
        ({"basis": Basis.PUBLISHED}, "no source"),
        ({"value": float("nan")}, "not finite"),
        ({"value": float("inf")}, "not finite"),
    ],
)
def test_a_claim_cannot_exist_incomplete(changes, told: str):
    with pytest.raises(FactError, match=told):
        claim(**changes)


@pytest.mark.parametrize(("low", "high"), [(2.0, 1.0), (float("nan"), 1.0), (0.0, float("inf"))])
def test_an_interval_needs_two_finite_ends_in_order(low: float, high: float):
    with pytest.raises(FactError, match="two finite ends"):
        Interval(low, high)


def test_an_interval_is_written_as_low_and_high():
    assert claim(value=Interval(1.0, 2.0)).as_json()["value"] == {"low": 1.0, "high": 2.0}


def test_a_claim_is_issued_once_and_only_if_the_core_knows_the_statement():
    ledger = Ledger()
    ledger.ordered("right.sphere", -1.0)

    with pytest.raises(FactError, match="twice"):
        ledger.ordered("right.sphere", -1.0)
    with pytest.raises(FactError, match="no statement"):
        ledger.ordered("right.mood", 1.0)


@pytest.mark.parametrize(
    ("claim_id", "value", "told"),
    [
        ("lens.material", "cheese", "is not one of"),
        ("lens.fringes", "perhaps", "is not yes or no"),
        ("right.sphere", "minus", "is not a number"),
        ("right.sphere", 26.0, "outside its stated range"),
        ("right.thickness.centre", Interval(0.1, 2.0), "outside its stated range"),
    ],
)
def test_a_value_of_the_wrong_kind_or_size_is_refused(claim_id: str, value, told: str):
    with pytest.raises(FactError, match=told):
        Ledger().ordered(claim_id, value)


def test_a_word_is_no_number():
    ledger = Ledger()
    ledger.ordered("lens.material", "polycarbonate")

    with pytest.raises(FactError, match="not a number"):
        ledger.number("lens.material")


@pytest.mark.parametrize(
    ("entry", "told"),
    [
        ({"says": "x", "unit": "furlong"}, "unknown one"),
        ({"says": "x", "unit": "word"}, "list `among`"),
        ({"says": "x", "unit": "mm", "range": 3}, "two numbers"),
    ],
)
def test_a_statement_needs_a_known_unit_and_its_words(entry, told: str):
    with pytest.raises(FactError, match=told):
        _read("x.y", entry)


def test_the_evidence_sentence_names_the_eye_and_fills_in_the_parts():
    assert sentence("left.thickness.nasal") == "left lens: nasal thickness"
    assert sentence("tint.open_shade.23.transmittance") == "light let through: open shade at 23 degrees Celsius"
    assert statement("right.sphere").unit == "D"


@pytest.mark.parametrize(
    ("entry", "told"),
    [
        ({**SOURCED, "basis": "hearsay"}, "no basis"),
        ({key: value for key, value in SOURCED.items() if key != "basis"}, "no basis"),
        ({**SOURCED, "source": "no-such-source"}, "unknown sources"),
        ({"value": 1.0, "unit": "mm", "basis": "published"}, "needs a source"),
        ({**SOURCED, "unit": " "}, "has no unit"),
        ({**SOURCED, "locator": ""}, "has no locator"),
    ],
)
def test_an_incomplete_fact_is_refused(entry, told: str):
    with pytest.raises(FactError, match=told):
        _fact("x.y", entry)


def test_a_loose_value_in_a_fact_file_is_refused():
    with pytest.raises(FactError, match="outside any fact"):
        list(_entries({"loose": 3}, ()))


@pytest.mark.parametrize("fact_id", ["advice.nonsense", "nonsense.x"])
def test_an_unknown_fact_is_refused(fact_id: str):
    with pytest.raises(FactError, match="there is no fact"):
        facts.get(fact_id)


def test_a_fact_that_is_a_word_has_no_number_and_a_number_is_a_narrow_interval():
    with pytest.raises(FactError, match="not a number"):
        _ = facts.get("advice.fit.free").number
    assert facts.get("advice.child.below").interval == Interval(16, 16)


def test_citations_keep_their_place_in_the_source():
    assert facts.get("advice.axis.upright").sources == (Citation("iso-8429-1986", "90 is vertical"),)


def test_a_spectrum_file_must_say_what_it_is(tmp_path, monkeypatch: pytest.MonkeyPatch):
    (tmp_path / "nameless.csv").write_text("wavelength_nm,light\n400,1\n500,1\n", encoding="utf-8")
    monkeypatch.setattr(spectra, "FOLDER", tmp_path)

    with pytest.raises(FactError, match="does not say"):
        spectra.about("nameless")


def test_a_size_that_a_standard_leaves_out_rests_on_no_fact():
    assert tolerance_tables.fact_ids("ansi-z80-1-2015", "axis", size=0.05) == ()


def test_an_outline_needs_enough_points():
    with pytest.raises(OutOfRange, match="outline points"):
        Outline(x_mm=(0.0, 1.0), y_mm=(0.0, 1.0))
