"""The names under which phone pages stand on a server."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest

from explainer.batch.documents import Settings
from explainer.errors import InputError
from explainer.optics.spectacles import Prescription
from explainer.orders import Order, read_order
from explainer.orders.assembly.page_name import page_address, page_name
from explainer.orders.sample import as_sample
from explainer.orders.shop.workshop import read_workshop

ORDER = Path(__file__).parents[1] / "gallery" / "low-myope.toml"
PLACE = "https://pages.example/{page}.html"


def an_order() -> Order:
    order = read_order(ORDER)
    assert order.workshop is not None
    return replace(order, workshop=replace(order.workshop, pages_at=PLACE))


def flipped(order: Order) -> Prescription:
    """The same with its eyes exchanged."""
    meant = order.spectacles.prescription
    assert meant.right != meant.left
    return replace(meant, right=meant.left, left=meant.right)


def test_names_are_of_the_alphabet_of_rfc_4648_and_differ() -> None:
    """RFC 4648, table 3: the base 32 alphabet is A to Z and 2 to 7; here in small letters."""
    orders = [replace(an_order(), number=f"{number}") for number in range(1000, 3000)]
    names = [page_name(order) for order in orders]
    assert all(re.fullmatch("[a-z2-7]{10}", name) for name in names)
    assert len(set(names)) == len(names)
    neighbours = [sum(a == b for a, b in zip(*pair, strict=True)) for pair in pairwise(names)]
    assert max(neighbours) <= 5, "the next number's name does not follow from this one's"


def test_a_name_changes_with_the_order_and_language_and_with_nothing_else() -> None:
    order = an_order()
    assert order.workshop is not None
    name = page_name(order)
    assert page_name(replace(order, workshop=replace(order.workshop, opening_hours="Mondays"))) == name
    changed = replace(order.spectacles, prescription=flipped(order))
    others = [
        replace(order, spectacles=changed),
        replace(order, language="de"),
        replace(order, wearer_name="A. N. Other"),
    ]
    assert len({name, *map(page_name, others)}) == 4


def test_the_file_is_named_as_its_address_ends() -> None:
    order = an_order()
    settings = Settings(documents=("page",))
    assert page_address(order) == f"https://pages.example/{page_name(order)}.html"
    assert settings.name(order, "page") == f"{page_name(order)}.html"
    at_home = replace(order, workshop=None)
    assert page_address(at_home) is None
    assert settings.name(at_home, "page") == f"{order.number}.{order.language}.page.html"
    sample = as_sample(order)
    assert page_address(sample) is None
    assert settings.name(sample, "page", sample=True) == f"{order.number}.{order.language}.page.sample.html"


@pytest.mark.parametrize(
    "place",
    [
        "http://pages.example/{page}",  # not private on its way
        "https://pages.example/",
        "https://{page}.example/",
        "https://pages.example/{page}/{page}",
        "https://pages.example/{page}?order=1",
        "https://user@pages.example/{page}",
        "https://pages.example/../{page}",
        'https://pages.example/"{page}',
        "https://pages.example/" + "x" * 90 + "{page}",
        "{page}",
    ],
)
def test_other_addresses_are_refused(tmp_path: Path, place: str) -> None:
    path = tmp_path / "workshop.toml"
    path.write_text(f"name = 'Bench at Dell'\npages_at = '{place}'\n", encoding="utf-8")
    with pytest.raises(InputError) as told:
        read_workshop(path)
    assert [fault.field for fault in told.value.faults] == ["pages_at"]


@pytest.mark.parametrize(
    "place", [PLACE, "https://a.pages.example:8443/p/{page}/index.html", "https://x.example/g-{page}"]
)
def test_usual_addresses_are_taken(tmp_path: Path, place: str) -> None:
    path = tmp_path / "workshop.toml"
    path.write_text(f"name = 'Bench at Dell'\npages_at = '{place}'\n", encoding="utf-8")
    assert read_workshop(path).pages_at == place
