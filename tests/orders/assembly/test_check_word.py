"""The check word: the same for the same pair, another one for another pair, and fit to be read aloud and printed."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from itertools import product

import pytest
from many import EXAMPLES

from explainer.optics.spectacles import Prescription
from explainer.orders import Order, read_order
from explainer.orders.assembly.check_word import FIRST, SECOND, check_word, is_welcome


@pytest.fixture(scope="module")
def order() -> Order:
    return read_order(EXAMPLES / "FL-3107.toml")


def swapped(order: Order) -> Order:
    eyes = order.spectacles.prescription
    turned = Prescription(right=eyes.left, left=eyes.right, vertex_mm=eyes.vertex_mm)
    return replace(order, spectacles=replace(order.spectacles, prescription=turned))


def other_sign(order: Order) -> Order:
    eyes = order.spectacles.prescription
    turned = replace(eyes, right=replace(eyes.right, sphere_d=-eyes.right.sphere_d))
    return replace(order, spectacles=replace(order.spectacles, prescription=turned))


@pytest.mark.parametrize(
    "change",
    [
        swapped,
        other_sign,
        lambda order: replace(order, number="FL-3108"),
        lambda order: replace(order, wearer_name="Tobin Marlowe-Reed"),
        lambda order: replace(order, spectacles=replace(order.spectacles, readings=None)),
        lambda order: replace(order, received_right="as somebody else wrote it"),
        lambda order: replace(order, posted=dt.date(2026, 12, 24)),
        lambda order: replace(order, workshop=None),
        lambda order: replace(order, workshop=replace(order.workshop, phone="+44 20 7946 0000")),
        lambda order: replace(order, workshop=replace(order.workshop, returns="Never.")),
        lambda order: replace(order, workshop=replace(order.workshop, country="US")),
    ],
    ids=[
        *(
            "eyes exchanged",
            "a sign lost",
            "number",
            "name",
            "no bench",
            "as received",
            "day of posting",
            "no workshop",
            "phone",
        ),
        *("a sentence of the shop", "country"),
    ],
)
def test_another_content_has_another_word(order: Order, change):
    assert check_word(change(order)) != check_word(order)


def test_the_same_pair_has_one_word_in_every_language_and_from_every_folder(order: Order):
    assert order.workshop
    for_mail = replace(order.workshop, mail_opening="Hello.", lenses={}, paper="Letter")
    same = replace(order, language="de", source="elsewhere", workshop=for_mail)

    assert check_word(same) == check_word(order)


def test_another_logo_and_other_house_words_make_another_word(tmp_path):
    text = (EXAMPLES / "FL-3107.toml").read_text(encoding="utf-8")
    (tmp_path / "order.toml").write_text(text, encoding="utf-8")
    shop = (EXAMPLES / "workshop.toml").read_text(encoding="utf-8")
    (tmp_path / "workshop.toml").write_text(f'logo = "logo.svg"\nhouse_wording = "words"\n{shop}', encoding="utf-8")
    (tmp_path / "words" / "phrases").mkdir(parents=True)
    words = set()
    for shape, rinse in (("h9", "Rinse"), ("h7", "Rinse"), ("h7", "Rinse well")):
        drawing = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><path d="M0 0{shape}"/></svg>'
        (tmp_path / "logo.svg").write_text(drawing, encoding="utf-8")
        (tmp_path / "words" / "phrases" / "clean.rinse.md").write_text(rinse, encoding="utf-8")
        words.add(check_word(read_order(tmp_path / "order.toml")))

    assert len(words) == 3


def test_an_order_written_as_json_has_the_word_it_has_as_toml(order: Order, tmp_path):
    import json
    import tomllib

    data = tomllib.loads((EXAMPLES / "FL-3107.toml").read_text(encoding="utf-8"))
    (tmp_path / "workshop.toml").write_bytes((EXAMPLES / "workshop.toml").read_bytes())
    path = tmp_path / "order.json"
    path.write_text(json.dumps(data, default=str), encoding="utf-8")

    assert check_word(read_order(path)) == check_word(order)


def test_words_are_four_letters_that_nobody_takes_for_one_another(order: Order):
    words = {check_word(replace(order, number=f"X-{number}")) for number in range(400)}

    assert all(len(word) == 4 and word.isascii() and word.isupper() for word in words)
    assert not set("".join(words)) & set("BCIJNPQSVXY018")  # b-d-p, c-k-q-s, i-j-l-1, m-n, u-v, x-s


def test_words_are_spread_evenly(order: Order):
    """The birthday law: 400 draws from some 1,700 equally likely words give about 1,700 (1 - e^(-400/1,700)) ones."""
    words = {check_word(replace(order, number=f"X-{number}")) for number in range(400)}
    all_words = sum(is_welcome("".join(letters)) for letters in product(FIRST, SECOND, FIRST, SECOND))

    expected = all_words * (1 - (1 - 1 / all_words) ** 400)
    assert 1500 < all_words < 1760
    assert abs(len(words) - expected) < 30


@pytest.mark.parametrize("word", ["FUTA", "HURE", "KAKA", "LAME", "ROMA", "ZULU"])
def test_words_that_hurt_are_left_out(word: str):
    assert not is_welcome(word)
