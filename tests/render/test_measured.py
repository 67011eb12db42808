"""What a page says of measuring: what was read, what was not, and nothing at all where no lens was read."""

from __future__ import annotations

import copy
from typing import Any

import pytest
from phrases import speaker_of
from plain_order import PLAIN

NAMES = ("measured.title", "measured.main", "measured.not", "measured.released")
WHOLE = {
    "right": "+1.75 -0.50 x 63",
    "left": "+2.25 DS",
    "prism_right": "0",
    "prism_left": "0",
    "reference_points_mm": 63.5,
}


def said(bench: dict[str, Any] | None, country: str = "US") -> dict[str, str]:
    """The phrases on measuring of the plain order with that bench."""
    data = copy.deepcopy(PLAIN)
    del data["bench"]
    if bench is not None:
        data["bench"] = bench
    speaker = speaker_of(data, workshop={"country": country})
    return {name: text for name in NAMES if (text := speaker.phrase_text(name))}


@pytest.mark.parametrize("bench", [None, {}, {"reference_points_mm": 63.5}, {"right": "+1.75", "left": "+2.25"}])
def test_without_a_lens_on_the_lensmeter_the_page_says_nothing_of_measuring(bench: dict[str, Any] | None):
    """A distance alone, or spheres for which nobody looked for a cylinder, certify no lens."""
    assert said(bench) == {}


def test_where_all_is_inside_it_says_so_and_what_was_not_measured():
    found = said(WHOLE)

    assert found["measured.title"] == "Measured before posting"
    assert found["measured.main"] == "We measured these: powers, axes, prism and centring. All are inside the limits."
    assert found["measured.not"] == "Not measured: thickness and weight."


def test_a_reading_without_limits_is_not_called_inside():
    found = said(WHOLE | {"centre_thickness_right_mm": 3.0, "centre_thickness_left_mm": 3.1})["measured.main"]

    assert "All are inside" not in found
    assert "Inside the limits" in found
    assert "thickness" in found.partition("Inside")[0]
    assert "thickness" not in found.partition("Inside")[2]


def test_limits_of_another_country_are_not_named():
    found = said(WHOLE, country="GB")

    assert "imits" not in found["measured.main"]
    assert found["measured.main"].startswith("We measured these: powers, axes, prism")


def test_the_lens_that_was_not_read_is_named():
    found = said({"right": WHOLE["right"], "prism_right": "0"})

    assert "powers of the right lens" in found["measured.main"]
    assert "powers of the left lens" in found["measured.not"]
    assert "centring" in found["measured.not"]


def test_a_written_release_is_told_and_another_countrys_limit_is_not():
    release = {"by": "A. N. Other", "date": "2026-10-06", "reason": "tried and kept"}
    bench = WHOLE | {"left": "+2.75 DS", "release": release}
    home, abroad = said(bench), said(bench, country="GB")

    assert "Outside the limits" in home["measured.main"]
    assert "utside" not in abroad["measured.main"]
    for found in (home, abroad):
        assert "A. N. Other" in found["measured.released"]
