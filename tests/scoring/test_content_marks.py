"""Block A: each check takes its points away from a leaflet that says what was not ordered."""

from __future__ import annotations

from dataclasses import replace

import pytest
from scoring.breaking import eye, eyes_swapped, marked, remade, sound, swap, without


def test_a_number_from_nowhere_is_seen():
    assert marked("A1", sound("photochromic-driver")).points == 2
    assert (
        marked("A1", remade("photochromic-driver", change=swap("Cover one eye", "99.97 times cover one eye"))).points
        == 0
    )


def test_a_known_number_with_the_wrong_sign_is_seen():
    assert (
        marked("A1", remade("photochromic-driver", change=swap("Cover one eye", "+2.75 D Cover one eye"))).points == 0
    )


@pytest.mark.slow
@pytest.mark.parametrize(
    "order",
    [
        eyes_swapped,
        eye("left", sphere_d=2.50),
        eye("right", axis_deg=160.0),
        eye("right", cylinder_d=-0.75),
        eye("left", add_d=2.00),
    ],
    ids=["eyes exchanged", "sign lost", "axis mirrored", "cylinder", "addition"],
)
def test_another_prescription_is_seen(order):
    assert marked("A2", sound("photochromic-driver")).points == 2
    assert marked("A2", remade("photochromic-driver", order=order)).points == 0


@pytest.mark.slow
@pytest.mark.parametrize("parts", [{"prism_in_pd": -2.0}, {"prism_up_pd": -1.5}, {"prism_up_pd": 0.0}])
def test_another_prism_is_seen(parts):
    assert marked("A2", sound("prism-both-directions")).points == 2
    assert marked("A2", remade("prism-both-directions", order=eye("right", **parts))).points == 0


def test_another_distance_of_the_pupils_is_seen():
    def wider(order):
        return replace(
            order,
            spectacles=replace(
                order.spectacles, measurements=replace(order.spectacles.measurements, pd_mm=66.0), readings=None
            ),
        )

    assert marked("A2", remade("photochromic-driver", order=wider)).points == 0


def test_the_left_eye_before_the_right_one_is_seen():
    def turned(html):
        return swap("Right, received", "Left, received ")(swap("Left, received", "Right, received ")(html))

    assert marked("A2", remade("photochromic-driver", change=turned)).points == 0


@pytest.mark.slow
@pytest.mark.parametrize(
    "order",
    [eye("right", axis_deg=160.0), eye("left", axis_deg=22.0), eye("right", axis_deg=21.0)],
    ids=lambda _: "axis",
)
def test_a_dial_that_shows_another_axis_is_seen(order):
    assert marked("A3", sound("photochromic-driver")).points == 2
    broken = remade("photochromic-driver", order=order)
    assert marked("A3", broken).points == 0
    assert "the order says" in marked("A3", broken).reason


def test_a_mirrored_dial_is_seen():
    broken = remade("photochromic-driver", css=".dial .canvas { transform: scaleX(-1) }")
    assert marked("A3", broken).points == 0


def test_a_dial_without_whose_view_it_is_is_seen():
    caption = "<figcaption>As someone facing you sees you. Both eyes count alike.</figcaption>"
    assert marked("A3", remade("photochromic-driver", change=swap(caption, ""))).points == 0


def test_a_section_that_was_not_ordered_and_one_that_is_missing_are_seen():
    made = sound("low-myope")
    assert marked("A4", made).points == 2
    assert marked("A4", made.changed(html=made.html.replace('id="care"', 'id="tint"'))).points == 0
    assert marked("A4", made.changed(html=made.html.replace('id="bench"', 'id="care2"'))).points == 0
    assert marked("A4", made.changed(html=made.html.replace('id="care"', 'id="horoscope"'))).points == 1


def test_a_coating_of_which_nothing_is_said_is_seen():
    broken = remade("dark-tint-four", change=without("mirror"))
    assert "the ordered coating mirror is nowhere named" in marked("A4", broken).reason


def test_a_reading_without_its_limit_is_seen():
    made = sound("all-read")  # where the limits are the customer's
    assert marked("A5", made).points in (1, 2)
    said = tuple(claim for claim in made.said if claim != "bench.right.stronger.allowed")
    assert marked("A5", made.changed(said=said)).points == 0


@pytest.mark.parametrize("word", ["Measured", "Calculated", "Copied"])
def test_a_basis_without_its_label_is_seen(word):
    broken = remade("low-myope", change=lambda html: html.replace(f"<strong>{word}:</strong>", "").replace(word, "Xx"))
    assert marked("A5", broken).points == 0


@pytest.mark.parametrize(
    "claim", ["These lenses are unbreakable.", "They are safe to drive in.", "They stop 100 % of it."]
)
def test_an_over_claim_is_seen(claim):
    made = sound("photochromic-driver")
    assert marked("A6", made).points == 2
    assert marked("A6", made.changed(html=made.html.replace("Cover one eye", claim))).points == 0


def test_silence_about_the_windscreen_is_seen():
    made = sound("photochromic-driver")
    said = tuple(claim for claim in made.said if "windscreen" not in claim)
    assert marked("A6", made.changed(said=said)).points == 0
