"""The workshop file: found beside the order or one folder up, strict, with its own lens data."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from explainer.errors import Fault, InputError
from explainer.orders import Order, read_order, read_orders

Data = dict[str, Any]

SHOP = """
name = "Larkmere Bench"
address = "3 Weir Lane\\nLarkmere"
phone = "01632 960000"
email = "bench@larkmere.example"
country = "GB"
language = "de"
paper = "A4"
accent = "#1f4e79"
urgent_help = "your eye clinic"
emergency = "112"
returns = "within thirty days"
adjustments = "free of charge"
[lenses.hard-resin]
minimum_centre_mm = 2.0
[lenses."urethane-1.53"]
front_curve_d = 5.25
minimum_centre_mm = 1.5
[lenses.thin-one]
front_curve_d = 4.0
minimum_edge_mm = 1.0
clear_percent = 88
dark_percent = {"5" = 12, "23" = 18, "35" = 30}
darken_half_s = 12
fade_half_s = 90
"""


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    path = tmp_path / "workshop.toml"
    path.write_text(SHOP, encoding="utf-8")
    return path


def test_the_workshop_beside_the_order_is_found_and_gives_its_language(
    shop: Path, plain: Data, read: Callable[..., Order]
) -> None:
    del plain["language"]
    order = read(plain)

    assert order.workshop is not None
    assert order.workshop.name == "Larkmere Bench"
    assert order.workshop.address == "3 Weir Lane\nLarkmere"
    assert (order.workshop.paper, order.workshop.accent, order.language) == ("A4", "#1f4e79", "de")
    assert order.notes == ()


def test_the_workshop_one_folder_up_is_found_and_the_nearer_one_wins(shop: Path, plain: Data, tmp_path: Path) -> None:
    folder = tmp_path / "orders"
    folder.mkdir()
    order = folder / "order.json"
    order.write_text(json.dumps(plain), encoding="utf-8")
    above = read_order(order).workshop
    (folder / "workshop.toml").write_text('name = "Nearer Bench"', encoding="utf-8")
    beside = read_order(order).workshop

    assert above is not None
    assert beside is not None
    assert (above.name, beside.name) == ("Larkmere Bench", "Nearer Bench")


def test_the_option_wins_over_what_is_found(
    shop: Path, plain: Data, read: Callable[..., Order], tmp_path: Path
) -> None:
    other = tmp_path / "other.toml"
    other.write_text('name = "Another Bench"', encoding="utf-8")
    workshop = read(plain, workshop_path=other).workshop

    assert workshop is not None
    assert workshop.name == "Another Bench"


def test_lens_data_go_by_the_material_unless_the_order_names_an_entry(
    shop: Path, plain: Data, read: Callable[..., Order]
) -> None:
    by_material = read(plain).spectacles.lens.supplied
    plain["lens"]["data"] = "thin-one"
    by_name = read(plain).spectacles.lens.supplied
    plain["lens"]["front_curve_d"] = 3.5
    with_curve = read(plain).spectacles.lens.supplied

    assert (by_material.front_curve_d, by_material.minimum_centre_mm) == (5.25, 1.5)
    assert (by_name.front_curve_d, by_name.minimum_edge_mm, by_name.clear_percent) == (4.0, 1.0, 88)
    assert by_name.dark_percent_by_celsius == ((5.0, 12.0), (23.0, 18.0), (35.0, 30.0))
    assert (by_name.darken_half_s, by_name.fade_half_s) == (12, 90)
    assert with_curve.front_curve_d == 3.5
    assert by_material.reference_minimum_centre_mm == by_name.reference_minimum_centre_mm == 2.0


def test_an_unknown_lens_is_refused_with_the_known_names(
    shop: Path, plain: Data, faults: Callable[..., list[Fault]]
) -> None:
    plain["lens"]["data"] = "thin"

    assert "thin-one" in faults(plain)[0].accepted


def test_a_logo_and_a_folder_of_house_wording_are_looked_for(
    shop: Path, plain: Data, read: Callable[..., Order]
) -> None:
    top = 'logo = "logo.png"\nhouse_wording = "words"\n'
    shop.write_text(top + SHOP, encoding="utf-8")
    Image.new("L", (4, 2)).save(shop.parent / "logo.png")
    (shop.parent / "words").mkdir()
    workshop = read(plain).workshop

    assert workshop is not None
    assert workshop.logo == shop.parent / "logo.png"
    assert workshop.house_wording == shop.parent / "words"


@pytest.mark.parametrize(
    ("line", "field"),
    [
        ('nmae = "x"', "nmae"),
        ('accent = "blue"', "accent"),
        ('paper = "A5"', "paper"),
        ('country = "Britain"', "country"),
        ('email = "nobody"', "email"),
        ('logo = "gone.png"', "logo"),
        ('logo = "../logo.png"', "logo"),
        ('logo = "workshop.toml"', "logo"),
        ('logo = "big.svg"', "logo"),
        ('house_wording = "gone"', "house_wording"),
        ('returns = ""', "returns"),
        ('phone = "01\\n02"', "phone"),
        ('lenses = {a = {dark_percent = {"7" = 3}}}', "lenses.a.dark_percent.7"),
        ("lenses = {a = {clear_percent = 101}}", "lenses.a.clear_percent"),
        ("lenses = {a = {front_curve = 5}}", "lenses.a.front_curve"),
    ],
)
def test_a_wrong_line_refuses_the_order_and_names_the_workshop_file(
    line: str, field: str, plain: Data, faults: Callable[..., list[Fault]], tmp_path: Path
) -> None:
    (tmp_path / "big.svg").write_bytes(b" " * 2_000_001)
    (tmp_path / "workshop.toml").write_text(f'name = "Larkmere Bench"\n{line}\n', encoding="utf-8")

    assert [fault.field for fault in faults(plain)] == [f"workshop.toml: {field}"]


def test_the_name_is_needed(plain: Data, faults: Callable[..., list[Fault]], tmp_path: Path) -> None:
    (tmp_path / "workshop.toml").write_text('phone = "1"', encoding="utf-8")

    assert [fault.field for fault in faults(plain)] == ["workshop.toml: name"]


def test_a_workshop_file_that_is_not_there_is_refused(plain: Data, faults: Callable[..., list[Fault]]) -> None:
    assert "no such file" in faults(plain, workshop_path="/nowhere/workshop.toml")[0].found


def test_a_folder_is_read_order_by_order_without_its_workshop_file(shop: Path, plain: Data) -> None:
    (shop.parent / "b.json").write_text(json.dumps(plain), encoding="utf-8")
    (shop.parent / "a.toml").write_text(
        'order = "A"\ndate = 2026-01-01\n[prescription]\ntext = "R 1"', encoding="utf-8"
    )
    (shop.parent / "notes.txt").write_text("not an order", encoding="utf-8")
    results = list(read_orders([shop.parent]))

    assert [Path(result.source).name for result in results] == ["a.toml", "b.json"]
    assert isinstance(results[0].error, InputError)
    assert results[1].order is not None


def test_one_order_number_in_two_files_refuses_both(plain: Data, tmp_path: Path) -> None:
    for name in ("a.json", "b.json"):
        (tmp_path / name).write_text(json.dumps(plain), encoding="utf-8")
    results = list(read_orders([tmp_path]))

    assert [result.order for result in results] == [None, None]
    assert all(result.error and result.error.faults[0].field == "order" for result in results)


def test_a_file_named_twice_is_read_once(plain: Data, tmp_path: Path) -> None:
    path = tmp_path / "a.json"
    path.write_text(json.dumps(plain), encoding="utf-8")

    (result,) = read_orders([path, tmp_path / "." / "a.json", tmp_path])

    assert result.order is not None


def test_an_empty_folder_is_told(tmp_path: Path) -> None:
    (result,) = read_orders([tmp_path])

    assert result.error is not None
    assert "no order" in result.error.faults[0].found
