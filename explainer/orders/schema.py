"""The JSON Schema of the order file and of the workshop file, for editors and web shops."""

from __future__ import annotations

from typing import Any

from explainer.orders.assembly.models import OrderFile
from explainer.orders.reference import described
from explainer.orders.shop.workshop import WorkshopFile

_DIALECT = "https://json-schema.org/draft/2020-12/schema"


def order_schema() -> dict[str, Any]:
    """What an order file may hold."""
    return {"$schema": _DIALECT, **described(OrderFile.model_json_schema(), "order")}


def workshop_schema() -> dict[str, Any]:
    """What a workshop file may hold."""
    return {"$schema": _DIALECT, **described(WorkshopFile.model_json_schema(), "workshop")}


def schemas() -> dict[str, Any]:
    """Both, by the name of the file they describe."""
    return {"order": order_schema(), "workshop": workshop_schema()}
