"""The whole way: an order in, a leaflet out, read back from the finished PDF."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest
from readback import faults, pdf_text

from explainer.compose.pictures import picture_requests
from explainer.errors import InputError
from explainer.figures import draw
from explainer.figures.drawing import Drawing
from explainer.optics.claims import explain
from explainer.optics.spectacles import Eye, Spectacles
from explainer.orders import Order, read_order
from explainer.render.leaflet import make_leaflet

HOME = Path(__file__).parents[1]
ORDERS = sorted((HOME / "output_examples" / "orders").rglob("FL-*.toml"))
DRIVER = HOME / "output_examples" / "orders" / "FL-3107.toml"


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory):
    """Text of the leaflet of an order, made once."""
    folder = tmp_path_factory.mktemp("leaflets")
    made: dict[str, str] = {}

    def text(order: Order, name: str) -> str:
        if name not in made:
            path = folder / f"{name}.pdf"
            path.write_bytes(make_leaflet(order).pdf)
            made[name] = pdf_text(path)
        return made[name]

    return text


def dial_of(spectacles: Spectacles) -> dict[str, Drawing]:
    """The dials of the page, by eye; an eye without a cylinder has none."""
    found = picture_requests(spectacles, explain(spectacles))
    names = {side: f"dial_{side}" for side in ("right", "left")}
    return {side: draw(found[name].name, found[name].values) for side, name in names.items() if name in found}


@pytest.mark.slow
@pytest.mark.parametrize("path", ORDERS, ids=lambda path: path.stem)
def test_every_number_sign_and_eye_is_read_back_from_the_page_and_the_dial(path: Path, pages):
    order = read_order(path)

    assert faults(pages(order, path.stem), dial_of(order.spectacles), order.spectacles) == []


def swapped(s: Spectacles) -> Spectacles:
    p = s.prescription
    return replace(s, prescription=replace(p, right=p.left, left=p.right))


def lost_sign(s: Spectacles) -> Spectacles:
    p = s.prescription
    return replace(s, prescription=replace(p, left=replace(p.left, sphere_d=-p.left.sphere_d)))


def mirrored_axis(s: Spectacles) -> Spectacles:
    p = s.prescription
    right: Eye = replace(p.right, axis_deg=180 - p.right.axis_deg)
    return replace(s, prescription=replace(p, right=right))


@pytest.mark.slow
@pytest.mark.parametrize("mutation", [swapped, lost_sign, mirrored_axis], ids=lambda m: m.__name__)
def test_a_leaflet_gone_wrong_is_caught(mutation, pages):
    """The leaflet and the dial of a mutated order do not pass for the right one."""
    order = read_order(DRIVER)
    wrong = replace(order, spectacles=replace(mutation(order.spectacles), readings=None))

    text = pages(wrong, mutation.__name__)

    assert faults(text, dial_of(order.spectacles), order.spectacles)
    if mutation is not lost_sign:
        right_text = pages(order, DRIVER.stem)
        assert faults(right_text, dial_of(wrong.spectacles), order.spectacles)


@pytest.mark.parametrize("path", ORDERS, ids=lambda path: path.stem)
def test_a_leaflet_holds_the_urgent_signs_and_no_unfilled_mark(path: Path, pages):
    text = pages(read_order(path), path.stem)

    assert "When to get help" in text
    assert ("911" if path.stem == "FL-3131" else "999") in text
    assert not re.search("[\ue000-\uf8ff]|\\{\\{|%\\(", text)


@pytest.mark.slow
def test_two_runs_give_the_same_bytes():
    order = read_order(DRIVER)

    assert make_leaflet(order).pdf == make_leaflet(order).pdf


def test_readings_outside_the_limits_are_refused_without_a_written_release():
    order = read_order(HOME / "output_examples" / "orders" / "FL-3125.toml")

    with pytest.raises(InputError) as refused:
        make_leaflet(replace(order, release=None))

    assert [fault.field for fault in refused.value.faults] == ["bench.right.axis"]


def test_a_written_release_is_stated_on_the_page(pages):
    order = read_order(HOME / "output_examples" / "orders" / "FL-3125.toml")

    text = " ".join(pages(order, "FL-3125").split())

    assert "Released in writing" in text
    assert "A. Fernlight" in text


def test_the_name_stands_on_the_page_but_not_in_the_file():
    import pikepdf

    order = read_order(DRIVER)
    leaflet = make_leaflet(order)
    with pikepdf.open(__import__("io").BytesIO(leaflet.pdf)) as pdf:
        described = str(pdf.docinfo) + str(pdf.open_metadata())

    assert order.wearer_name
    assert order.wearer_name.split()[0] not in described


@pytest.mark.slow
@pytest.mark.parametrize("path", ORDERS, ids=lambda path: path.stem)
@pytest.mark.parametrize(("edition", "paper"), [("standard", "A4"), ("standard", "Letter"), ("large-print", "A4")])
def test_every_leaflet_passes_the_machine_checks_of_pdf_ua(path: Path, edition, paper: str, tmp_path: Path):
    """ISO 14289-1 as far as a program can check it."""
    import page

    pdf = tmp_path / "leaflet.pdf"
    pdf.write_bytes(make_leaflet(read_order(path), edition=edition, paper=paper).pdf)

    result = page.validate_pdf(str(pdf), profile=page.ValidationProfile.PDF_UA_1)

    assert result.is_compliant, [(each.rule_id, each.message) for each in result.failures]


@pytest.mark.slow
def test_both_editions_print_the_same_claims():
    order = read_order(DRIVER)

    assert make_leaflet(order).said.keys() == make_leaflet(order, edition="large-print").said.keys()


def test_an_ordinary_order_takes_four_pages_at_most():
    assert make_leaflet(read_order(DRIVER)).pages <= 4


def test_a_draft_translation_says_so_and_keeps_the_safety_words_in_english_too(tmp_path: Path):
    order = read_order(DRIVER, language="de")
    path = tmp_path / "leaflet.pdf"
    path.write_bytes(make_leaflet(order).pdf)

    text = " ".join(pdf_text(path).split())

    assert "Entwurf" in text
    assert "−4,25" in text
    assert "When to get help" in text
    assert "At dusk and night only when they are clear again." in text
