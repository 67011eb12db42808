"""The published schemas describe the files that are read."""

from __future__ import annotations

import json
from typing import Any

from explainer.orders.schema import order_schema, schemas, workshop_schema


def test_the_order_schema_knows_every_table_and_refuses_others() -> None:
    schema = order_schema()

    assert {"order", "date", "prescription", "frame", "lens", "bench", "previous"} <= set(schema["properties"])
    assert set(schema["required"]) == {"order", "date"}  # a job file may bring the prescription
    assert schema["additionalProperties"] is False


def test_an_eye_is_a_text_or_a_table_in_the_schema() -> None:
    right = order_schema()["$defs"]["PreviousTable"]["properties"]["right"]
    kinds = {("$ref" in option) or option["type"] for option in right.get("anyOf", right.get("oneOf", []))}

    assert kinds == {"string", True}


def test_the_plain_order_has_no_name_that_the_schema_lacks(plain: dict[str, Any]) -> None:
    schema = order_schema()
    for name, value in plain.items():
        assert name in schema["properties"]
        if isinstance(value, dict):
            place = schema["properties"][name]
            options = place.get("anyOf", [place])
            reference = next(option["$ref"] for option in options if "$ref" in option)
            assert set(value) <= set(schema["$defs"][reference.rpartition("/")[2]]["properties"])


def test_the_workshop_schema_holds_the_lens_data() -> None:
    lens = workshop_schema()["$defs"]["LensTable"]["properties"]

    assert {"front_curve_d", "minimum_centre_mm", "dark_percent", "fade_half_s"} <= set(lens)


def test_both_schemas_can_be_written_as_json() -> None:
    assert set(json.loads(json.dumps(schemas()))) == {"order", "workshop"}
