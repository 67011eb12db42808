"""The name under which a phone page is put on a server: ten signs that no stranger meets by counting.

It follows from all of the order (number, date, name, prescription, frame, lenses, readings) and from the language, not
from the workshop. So it stays the same when words or the program change, and is another one once the order was
corrected: a page made before that is never taken for the new one. Fifty bits: that any two of ten thousand orders share
a name has a chance of one in twenty million. It is no password: who has the address sees the page, and who knows all of
the order can work it out.
"""

from __future__ import annotations

from base64 import b32encode
from dataclasses import replace
from hashlib import sha256

from explainer.orders.assembly.normal import printed_form
from explainer.orders.assembly.order import Order

SIGNS = 10


def page_name(order: Order) -> str:
    """Small letters and the digits 2 to 7 (RFC 4648, base 32)."""
    found = sha256(f"page\0{order.language}\0{printed_form(replace(order, workshop=None))}".encode()).digest()
    return b32encode(found).decode().lower()[:SIGNS]


def page_address(order: Order) -> str | None:
    """Where this order's page is to be found; None where the workshop names no place."""
    place = order.workshop.pages_at if order.workshop else None
    return place.replace("{page}", page_name(order)) if place else None
