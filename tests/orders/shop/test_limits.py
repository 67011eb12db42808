"""The workshop's own limits: the documented form is read, and what cannot be a table is refused, all faults at once."""

from __future__ import annotations

import inspect
import re
import textwrap
from collections.abc import Callable
from pathlib import Path

import pytest

from explainer.errors import Fault
from explainer.optics.rules import OwnLimits
from explainer.orders.shop import limits
from explainer.orders.shop.workshop import read_workshop

SMALL = """
name = "our copy"
[[power]]
up_to = 9.0
allowed = 0.12
[[power]]
allowed = 0.18
[[cylinder]]
allowed = 0.12
[[axis]]
above = 0.125
allowed = 9
"""


@pytest.fixture
def found(tmp_path: Path) -> Callable[[str], tuple[OwnLimits | None, list[Fault]]]:
    def reader(text: str) -> tuple[OwnLimits | None, list[Fault]]:
        path = tmp_path / "limits.toml"
        path.write_text(text, encoding="utf-8")
        faults: list[Fault] = []
        return limits.read_limits(path, faults), faults

    return reader


def test_the_form_that_the_module_documents_is_read(found):
    text = inspect.getdoc(limits) or ""
    own, faults = found(textwrap.dedent("\n".join(line for line in text.splitlines() if re.match(r"\s{4}|$", line))))

    assert not faults
    assert own is not None
    assert own.name == "ISO 21987:2017, our copy"
    assert own.axis[0].above == 0.125
    assert own.horizontal[0].distance_mm == 2.0
    assert (own.prism_pd, own.prism_or_mm, own.progressive_point_mm) == (0.33, 1.0, 1.0)


def test_each_row_begins_where_the_one_before_it_ends(found):
    own, _ = found(SMALL)

    assert own is not None
    assert [(row.above, row.up_to) for row in own.power] == [(0.0, 9.0), (9.0, float("inf"))]
    assert own.meridians == "both"


@pytest.mark.parametrize(
    ("damage", "field"),
    [
        (("up_to = 9.0\nallowed = 0.12", "allowed = 0.12"), "limits.toml: power"),
        (("allowed = 0.18", "allowed = -1"), "limits.toml: power[1].allowed"),
        (('name = "our copy"', ""), "limits.toml: name"),
        (("above = 0.125", "above = 2\nup_to = 1"), "limits.toml: axis.above"),
        (("allowed = 9", "allowed = 9\nsideways = 1"), "limits.toml: axis[0].sideways"),
    ],
)
def test_a_table_that_cannot_be_one_is_refused(damage: tuple[str, str], field: str, found):
    own, faults = found(SMALL.replace(*damage, 1))

    assert own is None
    assert [fault.field for fault in faults] == [field]


def test_the_workshop_names_its_file_and_says_what_it_demands(tmp_path: Path):
    (tmp_path / "limits.toml").write_text(SMALL, encoding="utf-8")
    path = tmp_path / "workshop.toml"
    path.write_text('name = "Weir"\n[rules]\nbench = "required"\nlimits = "limits.toml"\n', encoding="utf-8")
    rules = read_workshop(path).bench_rules

    assert rules.required
    assert rules.own is not None
    assert rules.own.name == "our copy"
