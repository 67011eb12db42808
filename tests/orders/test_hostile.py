"""Hostile and broken files: refused with the field named, without a traceback, and without the wearer's name."""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from explainer.errors import Fault, InputError
from explainer.orders import Order, read_order, read_orders

Data = dict[str, Any]


@pytest.mark.parametrize(
    "name",
    [
        "Zoë O’Hara-D'Arcy",
        "Đặng Thị Ngọc",
        "Ana <b>& Co</b> {{ name }}",
        "Wren 👩‍⚕️ 🫨",
        "می‌خواهم",
        "e\u0301ve",
        "李 小龙",
    ],
)
def test_names_may_hold_what_names_hold(name: str, plain: Data, read: Callable[..., Order]) -> None:
    plain["wearer"]["name"] = name

    assert read(plain).wearer_name == name


@pytest.mark.parametrize(
    "name",
    [
        "Odalys\u202eBrackenwhistle",
        "Odalys\u2067B",
        "Odalys\x00",
        "Odalys\nB",
        "Odalys\u2028B",
        "Odalys\ue000",
        "Odalys\udc80",
        "Odalys\u00adB",
        "Odalys\ufeff",
        "Odalys\ufffe",
        "O" + "\u0301" * 9,
        "O" * 10_000,
        "   ",
        7,
        ["Odalys"],
    ],
)
def test_a_name_that_hides_something_is_refused_without_being_repeated(
    name: object, plain: Data, faults: Callable[..., list[Fault]]
) -> None:
    plain["wearer"]["name"] = name
    (fault,) = faults(plain)

    assert fault.field == "wearer.name"
    assert "Odalys" not in fault.found + fault.accepted
    assert len(fault.found) <= 60


def test_no_message_names_the_wearer(plain: Data, faults: Callable[..., list[Fault]]) -> None:
    plain["prescription"]["right"] = "Odalys +1.75"
    plain["order"] = "BRACKENWHISTLE 1"
    plain["wearer"]["uses"] = ["Odalys drives"]
    text = " ".join(map(str, faults(plain))).casefold()

    assert "odalys" not in text
    assert "brackenwhistle" not in text


def test_no_warning_or_note_names_the_wearer_or_a_power(plain: Data, read: Callable[..., Order]) -> None:
    plain["prescription"] |= {"right": "-17.25 -7.50 x 63", "left": "+2.25 DS"}
    order = read(plain)
    text = " ".join(order.warnings + order.notes)

    assert order.warnings
    assert "Odalys" not in text
    assert "17.25" not in text


@pytest.mark.parametrize(
    "field",
    [
        "bench.release.reason",
        "prescription.left",
        "prescription.add",
        "lens.data",
        "frame.trace",
        "order",
        "language",
    ],
)
@pytest.mark.parametrize("text", ["x" * 10_000, "a\u202eb", "\ue000", "\x1b[31m", "a\x00b"])
def test_long_and_hidden_texts_are_refused_by_their_field(
    field: str, text: str, plain: Data, faults: Callable[..., list[Fault]]
) -> None:
    plain["bench"]["release"] = {"by": "the optician", "date": "2026-10-06", "reason": "agreed"}
    *tables, name = field.split(".")
    place = plain
    for table in tables:
        place = place[table]
    place[name] = text
    found = faults(plain)

    assert field in {fault.field for fault in found}
    for fault in found:
        assert len(fault.found) <= 80
        assert fault.found.isprintable()


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("", "mistake"),
        ("[]", "no object"),
        ("{", "mistake"),
        ('{"order": "A", "order": "B"}', "twice"),
        ('{"order": NaN}', "finite"),
        ('{"order": -Infinity}', "finite"),
        ('{"order": 1e999}', "finite"),
        ('{"order": ' + "9" * 5000 + "}", "beyond measure"),
        ('{"a":' * 61 + "1" + "}" * 61, "deeper"),
        ("[" * 100_000, "deeper"),
        ('{"a": "' + '\\"' * 100_000, "mistake"),
    ],
    ids=range(11),
)
def test_json_that_is_not_sound_is_refused(text: str, reason: str, tmp_path: Path) -> None:
    path = tmp_path / "order.json"
    path.write_text(text, encoding="utf-8")

    with pytest.raises(InputError, match=reason):
        read_order(path)


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("order = ", "mistake at end"),
        ('order = "A"\norder = "B"', "mistake at line 2|mistake at end"),
        ("a = " + "[" * 50_000, "beyond measure"),
        ("a = " + "[" * 100 + "]" * 100, "deeper"),
        ("a." * 50_000 + "b = 1", "thirty parts"),
        ("a = " + "9" * 5000, "beyond measure"),
        ("# " + "x" * 200_000, "200000 bytes"),
    ],
    ids=range(7),
)
def test_toml_that_is_not_sound_is_refused(text: str, reason: str, tmp_path: Path) -> None:
    path = tmp_path / "order.toml"
    path.write_text(text, encoding="utf-8")

    with pytest.raises(InputError, match=reason):
        read_order(path)


def test_bytes_that_are_no_utf_8_and_files_of_another_kind_are_refused(tmp_path: Path) -> None:
    (tmp_path / "order.toml").write_bytes(b'order = "\xff"')
    (tmp_path / "order.pdf").write_bytes(b"%PDF")

    with pytest.raises(InputError, match="UTF-8"):
        read_order(tmp_path / "order.toml")
    with pytest.raises(InputError, match=r"ending in \.toml, \.json"):
        read_order(tmp_path / "order.pdf")


def test_a_json_file_of_more_than_five_million_bytes_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "order.json"
    path.write_bytes(b" " * 5_000_001)

    with pytest.raises(InputError, match="5000000 bytes"):
        read_order(path)


def test_a_file_with_a_byte_order_mark_is_read(plain: Data, tmp_path: Path) -> None:
    path = tmp_path / "order.json"
    path.write_text(json.dumps(plain), encoding="utf-8-sig")

    assert read_order(path).number == "TK-0417"


def test_a_hexadecimal_number_beyond_measure_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "order.toml"
    path.write_text(f'order = "A"\ndate = 2026-01-01\n[prescription]\nadd = 0x{"f" * 9000}\n', encoding="utf-8")

    with pytest.raises(InputError, match=r"prescription\.add"):
        read_order(path)


anything = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | st.text(max_size=12),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3),
    max_leaves=8,
)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@given(data=st.data(), value=anything)
def test_any_value_in_any_place_is_read_or_refused(
    data: st.DataObject, value: object, plain: Data, tmp_path: Path
) -> None:
    changed = copy.deepcopy(plain)
    table = data.draw(st.sampled_from([None, *(name for name, inner in plain.items() if isinstance(inner, dict))]))
    place = changed if table is None else changed[table]
    place[data.draw(st.sampled_from(sorted(place)))] = value
    path = tmp_path / "order.json"
    path.write_text(json.dumps(changed), encoding="utf-8")
    (result,) = read_orders([path])

    assert (result.order is None) != (result.error is None)
    if result.error:
        assert all(len(fault.found) <= 80 for fault in result.error.faults)
