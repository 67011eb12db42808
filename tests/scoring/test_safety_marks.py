"""Block E: each check takes its points away from a leaflet that keeps nobody safe."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from scoring import mail
from scoring.breaking import case, marked, remade, rewritten, sound, swap, without
from scoring.caution_table import called_for, words
from scoring.leaflet import Made
from scoring.words import DUTY, LEGAL_PROFILE

from explainer.optics.spectacles import Eye, LensChoice, Prescription, Spectacles, Wearer
from explainer.orders import read_order
from explainer.render.language import language

NAME = "photochromic-driver"
PLAIN = Spectacles(prescription=Prescription(right=Eye(sphere_d=-1.0), left=Eye(sphere_d=-1.25)))


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("You see flashes, or many new dots or threads.", "You see birds.", "flashes"),
        ("<li>A shadow or curtain moves over your sight.</li>", "", "5 signs"),
        ("999", "998", "999"),
        ("Do not blame these signs on your new glasses.", "All will be well.", "to blame"),
        ('class="urgent"', 'class="calm"', "no urgent box"),
    ],
)
def test_an_urgent_box_that_lacks_something_is_seen(old: str, new: str, told: str):
    made = sound(NAME)
    assert marked("E1", made).points == 2
    broken = marked("E1", made.changed(html=made.html.replace(old, new)))
    assert broken.points == 0
    assert told in broken.reason


def test_a_box_without_today_is_seen():
    made = sound(NAME)
    html = re.sub("today", "soon", made.html, flags=re.IGNORECASE)
    assert "does not say today" in marked("E1", made.changed(html=html)).reason


@pytest.mark.slow
@pytest.mark.parametrize(
    "css", [".urgent { border: 0 }", ".first, .lead { height: 270mm }"], ids=["no frame", "page 2"]
)
def test_a_box_without_frame_or_in_the_wrong_place_is_seen(css: str):
    assert marked("E1", remade(NAME, css=css)).points == 0


def test_the_number_of_another_country_is_seen():
    made = sound(NAME)
    abroad = Made(made.case, made.pdf, made.html, made.said)
    abroad.order = replace(made.order, workshop=replace(made.order.workshop, country="US"))  # type: ignore[misc]
    assert "no emergency number of the country" in marked("E1", abroad).reason


def test_a_reply_that_does_not_begin_with_the_signs_is_seen(monkeypatch: pytest.MonkeyPatch):
    made = sound(NAME)
    monkeypatch.setitem(mail.QUESTIONS, "en", "How do I clean them?")
    assert "does not begin with the signs" in marked("E1", made).reason


def test_a_caution_with_too_little_is_seen():
    made = sound(NAME)
    assert marked("E2", made).points == 2
    html = made.html.replace(" A tint hides people and cars. Wait, or change glasses.", "")
    assert marked("E2", made.changed(html=html)).points == 1
    signal = re.sub(r'<p class="signal">\w+</p>', "", made.html)
    assert marked("E2", made.changed(html=signal)).points == 0
    box = re.search(r'<aside class="caution.*?</aside>', made.html, re.DOTALL)
    assert box
    assert marked("E2", made.changed(html=made.html.replace(box[0], box[0] * 6))).points == 0


def test_a_caution_lost_and_one_without_reason_are_seen():
    made = sound(NAME)
    assert marked("E3", made).points == 2
    lost = remade(NAME, change=swap("Never look at the sun or an eclipse through them.", "Enjoy the sun."))
    assert marked("E3", lost).reason == "missing: sun"
    other = sound("low-myope").changed(pdf=made.pdf)
    assert "without reason: night_tint" in marked("E3", other).reason


@pytest.mark.parametrize(
    ("spectacles", "caution", "fires"),
    [
        (PLAIN, "sun", False),
        (replace(PLAIN, lens=LensChoice(tint="fixed", tint_category=1)), "sun", True),
        (replace(PLAIN, lens=LensChoice(tint="fixed", tint_category=1)), "fixed_dark", True),
        (replace(PLAIN, lens=LensChoice(tint="fixed", tint_percent=76.0)), "fixed_dark", False),
        (replace(PLAIN, lens=LensChoice(tint="fixed", tint_category=4)), "too_dark", True),
        (replace(PLAIN, lens=LensChoice(tint="fixed", tint_category=3)), "too_dark", False),
        (replace(PLAIN, lens=LensChoice(tint="photochromic")), "night_tint", True),
        (replace(PLAIN, lens=LensChoice(design="progressive")), "stairs", True),
        (replace(PLAIN, lens=LensChoice(design="reading")), "stairs", False),
        (replace(PLAIN, wearer=Wearer(age_years=15)), "child", True),
        (replace(PLAIN, wearer=Wearer(age_years=16)), "child", False),
        (replace(PLAIN, wearer=Wearer(only_seeing_eye="left")), "one_eye", True),
        (replace(PLAIN, lens=LensChoice(material="crown-glass")), "glass", True),
        (
            replace(PLAIN, previous=Prescription(right=Eye(sphere_d=-0.25), left=Eye(sphere_d=-1.25))),
            "big_change",
            False,
        ),
        (replace(PLAIN, previous=Prescription(right=Eye(sphere_d=0.0), left=Eye(sphere_d=-1.25))), "big_change", True),
        (replace(PLAIN, prescription=Prescription(right=Eye(sphere_d=1.0), left=Eye(sphere_d=-1.0))), "unequal", True),
        (
            replace(PLAIN, prescription=Prescription(right=Eye(sphere_d=0.0), left=Eye(sphere_d=-1.25))),
            "unequal",
            False,
        ),
        (PLAIN, "not_protective", True),
    ],
)
def test_the_truth_table(spectacles: Spectacles, caution: str, fires: bool):
    assert (caution in called_for(spectacles)[0]) is fires


def test_every_caution_of_the_table_has_its_words():
    """In the templates' call style; a caution that cannot be found there could not be checked."""
    named = {
        "too_dark",
        "fixed_dark",
        "night_tint",
        "sun",
        "one_eye",
        "stairs",
        "cold_tint",
        "big_change",
        "unequal",
        "prism",
        "child",
        "glass",
        "not_protective",
    }
    assert named <= set(words(language("en-GB")))


@pytest.mark.slow
@pytest.mark.parametrize("line", [*DUTY["en"], "legal profile"])
def test_a_duty_line_that_is_lost_is_seen(line: str):
    """The profile is looked for among all the lines, so it goes with them."""
    assert marked("E5", sound(NAME)).points == 2
    broken = remade(NAME, change=without(DUTY["en"].get(line, LEGAL_PROFILE)))
    assert f"no {line}" in marked("E5", broken).reason


@pytest.mark.slow
def test_a_name_in_the_metadata_or_a_birth_year_on_the_page_is_seen():
    made = sound(NAME)
    assert marked("E6", made).points == 2

    def named(pdf):
        pdf.docinfo["/Title"] = "Glasses of Winifred"

    assert "a name in the metadata" in marked("E6", rewritten(made, named)).reason
    assert "year of birth" in marked("E6", made.changed(html=made.html.replace("Cover one eye", "1985"))).reason
    assert read_order(case(NAME).order).wearer_name


def test_a_warning_that_tells_a_prescription_is_seen():
    made = sound(NAME)
    told = Made(made.case, made.pdf, made.html, made.said)
    told.order = replace(made.order, notes=(f"odd: {made.order.received_right}",))  # type: ignore[misc]
    assert "a prescription in the what is told" in marked("E6", told).reason
