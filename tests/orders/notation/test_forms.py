"""Forms of written prescriptions beyond the collected rows, by language, with what must be refused and why."""

from __future__ import annotations

import math

import pytest

from explainer.errors import InputError
from explainer.optics.spectacles import Side
from explainer.orders.assembly.written import parse_eye, parse_pair
from explainer.orders.notation.reading import Reading, written

READ = [
    # text, language, what it means in this program's own notation. Forms and words: common practice.
    ("-2,25 (-0,50 à 180°) Add. +2,00", "fr", "-2.25 -0.50 x 180 Add +2.00"),
    ("OD : -2,25 (180° -0,50)", "fr", "R -2.25 -0.50 x 180"),
    ("VL : OG +1,50", "fr", "L +1.50 DS"),
    ("R: sph -2,25 zyl -0,75 A 175° Add 2,0", "de", "R -2.25 -0.75 x 175 Add +2.00"),
    ("LA +0,50 dpt, zyl +1,25 dpt, Achse 5", "de", "L +0.50 +1.25 x 5"),
    ("rechts: plan Prisma 2,0 cm/m Basis außen", "de", "R 0.00 DS 2Δ base out"),
    ("OI: esf -1,00 cil -0,50 eje 20º ad 1,50", "es", "L -1.00 -0.50 x 20 Add +1.50"),
    ("OE: esf. -2,00 cil. -0,75 eixo 175º", "pt", "L -2.00 -0.75 x 175"),
    ("OL: sph -2,25 cyl -0,75 oś 175", "pl", "L -2.25 -0.75 x 175"),
    ("OP +1,00 pryzmat 2 baza do nosa", "pl", "R +1.00 DS 2Δ base in"),
    ("OS -1.00 -0.50 x 20 TABO", "it", "L -1.00 -0.50 x 20"),
    ("dx sf -1,00 cil -0,50 asse 20", "it", "R -1.00 -0.50 x 20"),
    ("右眼 -2.00", None, "R -2.00 DS"),
    ("-2.00DS/-0.75DC×175", None, "-2.00 -0.75 x 175"),
    ("-2.25 c/w -0.75 x 175", None, "-2.25 -0.75 x 175"),
    ("-2.25 / - / -", None, "-2.25 DS"),
    ("-2.00 0.00 x 180", None, "-2.00 0.00"),
    ("-2.00 -0.75 x 0", None, "-2.00 -0.75 x 180"),
    ("-2.00 -0.75 x 172,5", None, "-2.00 -0.75 x 172.5"),
    ("+0.25 +2.00 add", None, "+0.25 DS Add +2.00"),
    ("- 2.00 - 0.50 x 90", None, "-2.00 -0.50 x 90"),
    ("–2.00 –0.50 x 90", None, "-2.00 -0.50 x 90"),
    ("+1.50\n-0.50 x 35", None, "+1.50 -0.50 x 35"),
    ("-2.00 VA 6/6", None, "-2.00 DS VA 6/6"),
]


@pytest.mark.parametrize(("text", "language", "meaning"), READ, ids=[row[0] for row in READ])
def test_a_form_of_the_language_is_read(text: str, language: str | None, meaning: str) -> None:
    assert written(parse_eye(text, language=language)) == meaning


def test_two_powers_in_meridians_at_right_angles_are_the_same_lens() -> None:
    """Ophthalmic board review text: +3.00 -1.50 x 90 is +3.00 in the 90 meridian and +1.50 in the 180 meridian."""
    found = parse_eye("+3.00 @ 90 / +1.50 @ 180")

    assert found == Reading(sphere_d=3.0, cylinder_d=-1.5, axis_deg=90)


def test_crossed_cylinders_are_read_as_one_lens() -> None:
    """Published example: +3.25 x 180 with +2.75 x 90 is +3.25 -0.50 x 90."""
    found = parse_eye("+3.25 DC x 180 with +2.75 DC x 90")

    assert found == Reading(sphere_d=3.25, cylinder_d=-0.5, axis_deg=90)


REFUSED = [
    # text, language, words that the refusal must hold
    ("3.25", None, "sign"),
    ("-3.25 1.25 x 172", None, "sign"),
    ("OD - 2.00", None, "joined to its digits"),
    ("-3.25 -1.25", None, "without an axis"),
    ("-3.25 x 172", None, "between the sphere and the axis"),
    ("-0.75 cyl x 90", None, "without a sphere"),
    ("-3.25 -1.25 x 181", None, "0 to 180"),
    ("-3.25 -1.25 x -10", None, "0 to 180"),
    ("-3.25 -1.25 x 17.25", None, "0 to 180"),
    ("-3.25 -1.25 @ 172", None, "meridian"),
    ("-3.25 0.00 x 90", None, "zero cylinder"),
    ("-3.25 -1.25 x 172 -2.00", None, "sign or name"),
    ("-3.25 2Δ", None, "base"),
    ("2Δ 180", None, "base"),
    ("2Δ base in and up", None, "own amount"),
    ("2 BI 1 BO", None, "one horizontal"),
    ("+2 BI", None, "without a sign"),
    ("25 BI", None, "up to 20"),
    ("plano 2.5 @ 37", None, "2.5Δ @ 37"),
    ("2.5 BU&I @ 37", "left", "agrees with the directions"),
    ("-75", None, "at most 25"),
    ("-12", None, "two decimals"),
    ("-025", None, "two decimals"),
    ("-2.", None, "decimals"),
    ("-2.25.75", None, "decimals"),
    ("-2,25,75", None, "decimals"),
    ("-3.26", None, "steps"),
    ("-3.25 Add 4.25", None, "up to 4"),
    ("-3.25 Add 0.00", None, "above 0"),
    ("-3.25 Add +2.00 Add +2.00", None, "one addition"),
    ("--3.25", None, "not understood"),
    ("±3.25", None, "not understood"),
    ("-3.25 -", None, "dash"),
    ("-3.25 /", None, "both sides"),
    ("/ -0.50", None, "not understood"),
    ("R / -0.50", None, "not understood"),
    ("-3.25 // Add +2.00", None, "both sides"),
    ("-3.25 and", None, "both sides"),
    ("plano - 6/6", None, "acuity"),
    ("plano 2 in", None, "something else"),
    ("-3.25 -1.25 2", None, "might be an addition"),
    ("-3.25 -1.25 2.5", None, "might be an addition"),
    ("-3.25 6/6", None, "acuity"),
    ("-3.25 VA 1.1.0", None, "acuity"),  # found by a fuzzer: no number at all
    ("-3.25 VA 1.0.", None, "decimals"),
    ("-3.25 VA 2.1", None, "acuity"),
    ("-3.25 BC 8.6", None, "contact lenses"),
    ("balance", None, "balance"),
    ("near +1.00 DS", None, "distance power"),
    ("2 BU", "de", "Basis unten"),
    ("2 BI", "fr", "word"),
    ("OS -1.00 DS", "pl", "axis in Polish"),
    ("OE -1.00 DS", None, "Portuguese"),
    ("OP -1.00 DS", "en", "Polish"),
    ("L -1.00 DS", "fr", "for distance"),
    ("OS -1.00 -0.50 x 20", "it", "TABO"),
    ("OS -1.00 -0.50 x 20 INT", "it", "TABO"),
    ("-3.25 -1.25 x 172 as before", None, "not understood"),
]


@pytest.mark.parametrize(("text", "language", "reason"), REFUSED, ids=[row[0] for row in REFUSED])
def test_a_doubtful_text_is_refused_with_its_reason(text: str, language: str | None, reason: str) -> None:
    side: Side | None = "left" if language == "left" else None
    with pytest.raises(InputError) as refusal:
        parse_eye(text, language=None if side else language, side=side)

    assert reason in " ".join(f"{fault.found} {fault.accepted}" for fault in refusal.value.faults)


def test_both_eyes_of_one_text_go_where_they_belong() -> None:
    found = parse_pair("OD -2.00 -1.00 x 20 / OS +1.50 DS Add +2.00 both eyes")

    assert found.right == Reading(side="right", sphere_d=-2, cylinder_d=-1, axis_deg=20, add_d=2)
    assert found.left == Reading(side="left", sphere_d=1.5, add_d=2)


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("R -2.00 R -1.00", "twice"),
        ("R -2.00", "left"),
        ("-2.00 L -1.00", "before an eye"),
        ("R -2.00 L -1.00 Add +2.00", "one eye only"),
        ("OU -2.00 OS -1.00", "right"),
        ("R / L -2.00", "nothing"),
        ("SPH=1.25\nCYL=0.00", "1 value"),
        ("SPH=1.25;0.50\nCYL=-0.50;-1.00", "half a cylinder"),
        ("SPH=1.25;0.50\nFOO=1;2", "FOO"),
        ("SPH=30.00;0.50", '"30.00"'),
        ("SPH=1.25;0.50\nCYL=-1.00;-1.00\nAX=190;5", '"190"'),
        ("SPH=1.25;0.50\nPRVM=2.00;0.00", "prism"),
        ("SPH=1.25;0.50\nSPH=1.25;0.50", "twice"),
    ],
)
def test_a_pair_that_is_no_pair_is_refused(text: str, reason: str) -> None:
    with pytest.raises(InputError, match=reason):
        parse_pair(text)


def test_records_of_a_lens_job_are_plus_without_a_sign_and_right_before_left() -> None:
    """The trade's data exchange records: right;left, a sign only where it is minus; base 0 is the observer's right."""
    found = parse_pair("SPH=1.25;-0.50\nCYL=-0.75;0.00\nAX=0;0\nADD=2.00;2.00\nPRVM=2;2\nPRVA=0;0")

    assert found.right == Reading(side="right", sphere_d=1.25, cylinder_d=-0.75, axis_deg=180, add_d=2, prism_in_pd=2)
    assert found.left == Reading(side="left", sphere_d=-0.5, cylinder_d=0, add_d=2, prism_in_pd=-2)


@pytest.mark.parametrize(("side", "inward"), [("right", 1), ("left", -1)])
@pytest.mark.parametrize("base_deg", [0, 37, 90, 143, 180, 217, 270, 323, 360])
def test_a_base_angle_points_where_iso_8429_says(side: Side, inward: int, base_deg: int) -> None:
    """ISO 8429: counted anticlockwise from the observer's right, facing the wearer; the right eye's nose is there."""
    found = parse_eye(f"plano 2.50Δ base {base_deg}", side=side)

    assert math.isclose(found.prism_in_pd, inward * 2.5 * math.cos(math.radians(base_deg)), abs_tol=1e-9)
    assert math.isclose(found.prism_up_pd, 2.5 * math.sin(math.radians(base_deg)), abs_tol=1e-9)


def test_the_text_is_kept_as_received() -> None:
    found = parse_pair("OD:  −2,00 (−1,00) 20°  OG: +1,50")

    assert found.right.received == "−2,00 (−1,00) 20°"
    assert found.left.received == "+1,50"


def test_confirmed_steps_are_taken_as_written() -> None:
    assert parse_eye("-1.13 -0.52 x 3", any_step=True) == Reading(sphere_d=-1.13, cylinder_d=-0.52, axis_deg=3)


def test_an_eye_named_in_the_other_eyes_place_is_refused() -> None:
    with pytest.raises(InputError, match="the left eye"):
        parse_eye("OS -2.00", side="right")


@pytest.mark.parametrize("character", ["\u202e", "\u200f", "\u200d", "\ue000", "\x07", "\u00ad", "\ufeff", "\u2028"])
def test_hidden_characters_are_refused_by_name(character: str) -> None:
    with pytest.raises(InputError) as refusal:
        parse_eye(f"-2.00 {character}-1.00 x 90", field="prescription.left")

    (fault,) = refusal.value.faults
    assert fault.field == "prescription.left"
    assert character not in fault.found


def test_a_long_text_is_refused_without_being_repeated() -> None:
    with pytest.raises(InputError) as refusal:
        parse_eye("-2.00 " * 2000)

    assert len(str(refusal.value)) < 300
