"""Leaflets broken on purpose, so that each check of the scorer is seen to fail."""

from __future__ import annotations

import io
import re
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from typing import Any

import pikepdf
from scoring import sheet
from scoring.leaflet import GALLERY, Case, Made, make
from scoring.marks import CHECKS, Mark

from explainer.orders import Order, read_order
from explainer.render import leaflet as maker

assert sheet.BLOCKS
Change = Callable[[str], str]


def case(name: str, **parts: str) -> Case:
    """An order of the gallery."""
    return Case(next(path for path in GALLERY.rglob(f"{name}.toml")), **parts)


@cache
def sound(name: str, **parts: str) -> Made:
    """An unbroken leaflet."""
    made = make(case(name, **parts))
    assert isinstance(made, Made), made
    return made


def marked(item: str, made: Made) -> Mark:
    """The mark of one item."""
    return CHECKS[item](made)


def remade(
    name: str, *, change: Change = str, css: str = "", order: Callable[[Order], Order] | None = None, **parts: str
) -> Made:
    """The leaflet with its page changed before the engine sees it, other styles, or made for another order."""
    chosen = case(name, **parts)
    given = read_order(chosen.order, language=chosen.language)
    real = maker.write_pdf
    handed: dict[bytes, str] = {}

    def write(html: str, **rest: Any) -> Any:
        changed = change(html)
        rest["stylesheets"] = [*rest["stylesheets"], css]
        made = real(changed, **rest)
        handed[made.data] = changed
        return made

    maker.write_pdf = write
    try:
        found = maker.make_leaflet(order(given) if order else given, edition=chosen.edition, paper=chosen.paper)  # type: ignore[arg-type]
    finally:
        maker.write_pdf = real
    return Made(chosen, found.pdf, handed[found.pdf], tuple(found.said))


def swap(old: str, new: str) -> Change:
    """A change that must find what it changes."""

    def change(html: str) -> str:
        assert old in html, f"{old!r} is not in the page"
        return html.replace(old, new)

    return change


def without(pattern: str) -> Change:
    """A change that takes every place of a pattern out of the page, and must find one."""

    def change(html: str) -> str:
        assert re.search(pattern, html, re.IGNORECASE), f"{pattern!r} is not in the page"
        return re.sub(pattern, "Xx", html, flags=re.IGNORECASE)

    return change


def rewritten(made: Made, change: Callable[[Any], None]) -> Made:
    """The leaflet with its finished PDF changed."""
    with pikepdf.open(io.BytesIO(made.pdf)) as pdf:
        change(pdf)
        written = io.BytesIO()
        pdf.save(written)
    return made.changed(pdf=written.getvalue())


def eye(side: str, **parts: Any) -> Callable[[Order], Order]:
    """An order whose eye differs; readings and the old prescription are left out."""

    def change(order: Order) -> Order:
        spectacles = order.spectacles
        eyes = replace(spectacles.prescription, **{side: replace(getattr(spectacles.prescription, side), **parts)})
        return replace(order, spectacles=replace(spectacles, prescription=eyes, readings=None, previous=None))

    return change


def eyes_swapped(order: Order) -> Order:
    """The order with its eyes exchanged."""
    given = order.spectacles.prescription
    turned = replace(given, right=given.left, left=given.right)
    return replace(order, spectacles=replace(order.spectacles, prescription=turned, readings=None, previous=None))
