"""What comes in: order files, workshop files, FHIR prescriptions and written notation.

Everything is read strictly: what is missing, contradictory or not understood is refused with the field, what was
found and what is accepted, all faults of a file at once. Nothing is guessed, and no message names the wearer.
"""

from __future__ import annotations

from explainer.orders.assembly.order import Order, ReadResult, Release
from explainer.orders.reader import read_order, read_orders
from explainer.orders.shop.workshop import Workshop

__all__ = ["Order", "ReadResult", "Release", "Workshop", "read_order", "read_orders"]
