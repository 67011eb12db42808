"""The command line as a user types it: results, messages, exit codes, nothing half-written."""

from __future__ import annotations

import json
import stat
from pathlib import Path

import pytest
from click.testing import CliRunner
from readback import pdf_text

from explainer.cli import main

HOME = Path(__file__).parents[2]
DRIVER = HOME / "output_examples" / "orders" / "FL-3107.toml"
DATA = HOME / "tests" / "data"


def run(*words: object):
    return CliRunner().invoke(main, [str(word) for word in words])


def changed(tmp_path: Path, old: str, new: str) -> Path:
    text = DRIVER.read_text(encoding="utf-8")
    assert old in text
    path = tmp_path / "order.toml"
    path.write_text(text.replace(old, new), encoding="utf-8")
    return path


def test_make_writes_one_leaflet_named_by_order_and_language_for_the_owner_only(tmp_path: Path):
    result = run("make", DRIVER, "-o", tmp_path / "out")
    path = tmp_path / "out" / "FL-3107.en-GB.pdf"

    assert result.exit_code == 0, result.output
    assert result.stdout.strip() == str(path)
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert [each.name for each in path.parent.iterdir()] == [path.name]


def test_the_published_fhir_example_of_spectacles_becomes_a_leaflet(tmp_path: Path):
    """HL7 FHIR R4 example 33123: right -2.00 DS, prism 0.5 down; left -1.00 -0.50 x 180, prism 0.5 up; add 2.00."""
    result = run("make", DATA / "VisionPrescription-33123.r4.json", "-o", tmp_path)
    assert result.exit_code == 0, result.output

    text = " ".join(pdf_text(next(tmp_path.glob("*.pdf"))).split())

    assert "−2.00" in text
    assert "−1.00" in text
    assert "180°" in text
    assert "0.50 Δ base down" in text
    assert "0.50 Δ base up" in text
    assert "+2.00" in text


def test_the_published_fhir_example_of_contact_lenses_is_refused(tmp_path: Path):
    result = run("make", DATA / "VisionPrescription-33124.r4.json", "-o", tmp_path)

    assert result.exit_code == 1
    assert "contact" in result.stderr
    assert not list(tmp_path.glob("*.pdf"))


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ('right = "-4.25 -1.75 x 165"', 'right = "4.25 -1.75 x 165"', "prescription.right"),
        ('right = "-4.25 -1.75 x 165"', 'right = "-4.25 -1.75 x 200"', "200"),
        ('right = "-4.25 -1.75 x 165"', 'right = "-4.25 -1.75"', "axis"),
        ('left = "-3.50 -0.75 x 22"', 'left = "R -3.50 -0.75 x 22"', "prescription.left"),
        ('material = "polycarbonate"', 'material = "unobtainium"', "lens.material"),
        ("a_mm = 51.0", "a_mm = 510.0", "a_mm"),
        ("ed_mm = 54.5", "ed_mm = 30.0", "ed_mm"),
    ],
)
def test_an_order_that_cannot_be_trusted_is_refused_with_a_reason_and_nothing_is_written(
    tmp_path: Path, old: str, new: str, told: str
):
    result = run("make", changed(tmp_path, old, new), "-o", tmp_path / "out")

    assert result.exit_code == 1, result.output
    assert told in result.stderr
    assert "accepted" in result.stderr
    assert "Traceback" not in result.output
    assert not list(tmp_path.rglob("*.pdf"))


def test_all_faults_of_a_file_come_at_once(tmp_path: Path):
    path = changed(tmp_path, 'right = "-4.25 -1.75 x 165"', 'right = "4.25 -1.75"')
    path.write_text(path.read_text().replace('design = "single-vision"', 'design = "sideways"'))

    result = run("check", path)

    assert result.exit_code == 1
    assert "prescription.right" in result.stderr
    assert "lens.design" in result.stderr


def test_a_refused_order_never_stops_the_others(tmp_path: Path):
    bad = changed(tmp_path, 'right = "-4.25 -1.75 x 165"', 'right = "nonsense"')
    bad.write_text(bad.read_text().replace("FL-3107", "FL-3199"))

    result = run("make", bad, DRIVER, "-o", tmp_path / "out")

    assert result.exit_code == 1
    assert (tmp_path / "out" / "FL-3107.en-GB.pdf").is_file()


def test_the_wearer_is_never_named_in_messages(tmp_path: Path):
    bad = changed(tmp_path, 'right = "-4.25 -1.75 x 165"', 'right = "Odalys"')

    result = run("make", bad, "-o", tmp_path)

    assert "Brackenwood" not in result.output


def test_check_reports_the_bench_as_json():
    result = run("check", DRIVER, "--json")
    data = json.loads(result.stdout)

    assert data["order"] == "FL-3107"
    assert data["outside"] == []
    assert any("bench.right.axis" in line for line in data["bench"])


def test_check_refuses_readings_outside_the_limits_by_name(tmp_path: Path):
    result = run("check", changed(tmp_path, '-1.75 x 166"', '-1.75 x 170"'))

    assert result.exit_code == 1
    assert "bench.right.axis" in result.stderr


def test_claims_print_the_contract_as_json():
    data = json.loads(run("claims", DRIVER, "--json").stdout)
    by_id = {claim["id"]: claim for claim in data["claims"]}

    assert (data["order"], data["language"]) == ("FL-3107", "en-GB")
    assert by_id["right.sphere"]["value"] == -4.25
    assert by_id["tint.summer_noon.23.transmittance"]["value"].keys() == {"low", "high"}
    assert all(claim["basis"] for claim in data["claims"])


def test_claims_print_a_table_that_a_person_reads():
    text = run("claims", DRIVER).stdout

    assert "right.turn.5.residual = 0.31 D" in text
    assert "right lens: cylinder left over when the lens turns by 5 degrees" in text


def test_sources_list_every_citation_with_its_use():
    text = run("sources").stdout

    assert "iso-8429-1986" in text
    assert "advice.axis.flat" in text


def test_schema_is_json_schema_of_both_files():
    assert "prescription" in json.loads(run("schema").stdout)["properties"]
    assert "urgent_help" in json.loads(run("schema", "--workshop").stdout)["properties"]


@pytest.mark.parametrize("words", [["make"], ["nonsense"], ["make", "no-such-file.toml"], ["claims", "--sideways"]])
def test_wrong_use_is_exit_two(words: list[str]):
    assert run(*words).exit_code == 2


def test_a_stricter_local_rule_can_be_used_at_the_bench(tmp_path: Path):
    """N.J. Admin. Code 13:35-5.2: axis within 1 degree for cylinders of 1.12 D and more."""
    path = changed(tmp_path, '-1.75 x 166"', '-1.75 x 167"')

    assert run("check", path).exit_code == 0
    result = run("check", path, "--tolerances", "new-jersey")
    assert result.exit_code == 1
    assert "bench.right.axis" in result.stderr


def test_remembered_limits_are_marked_and_what_they_leave_out_is_not_checked():
    text = run("check", DRIVER, "--tolerances", "iso-21987-2017").stdout

    assert "inside (limit from memory)" in text
    assert "bench.right.cylinder: -1.75 D, off by 0.00 D: not-checked" in text
