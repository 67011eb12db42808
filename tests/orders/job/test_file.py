"""Job files of the trade's Data Communication Standard: what the sample job states, and refusals by label.

The labels and what they stand for: the published record syntax as seen in tests/data/dcs_job.txt; base 0 is the
observer's right (ISO 8429), so base in for the right eye.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from explainer.errors import InputError
from explainer.orders.job.file import Job, read_job

JOB = Path(__file__).parents[2] / "data" / "dcs_job.txt"
SMALL = "OMAV=03.10\nJOB=LT-7\nDO=B\nSPH=1.25;-0.50\nCYL=-0.75;0.00\nAX=20;0\n"


def read(text: str, folder: Path) -> Job:
    path = folder / "lt-7.job"
    path.write_bytes(text.encode())
    return read_job(path)


def refused(text: str, folder: Path, *, use: bool = False) -> str:
    try:
        job = read(text, folder)
        job.prescription()
        if use and job.inspected:
            job.inspected.readings(job.name)
    except InputError as error:
        return str(error)
    return "read"


def test_the_sample_job_says_prescription_distances_box_trace_material_and_design() -> None:
    """The records of the file itself: SPH, CYL, AX, ADD, IPD, BVD, HBOX, VBOX, DBL, FED, LIND 1.498, LTYPE PR."""
    job = read_job(JOB)
    eyes = job.prescription()

    assert job.number == "L424775600"
    right, left = eyes["right"], eyes["left"]
    assert (right.sphere_d, right.cylinder_d, right.axis_deg, right.add_d) == (-0.5, -1.25, 140, 1.25)
    assert (left.sphere_d, left.cylinder_d, left.axis_deg, left.add_d) == (0.5, -3.0, 15, 1.25)
    assert job.measurements == {"pd_right_mm": 31.0, "pd_left_mm": 31.0}
    assert job.vertex_mm == 14.0
    assert job.box == {"a_mm": 51.0, "b_mm": 44.01, "dbl_mm": 20.0, "ed_mm": 52.0}
    assert (job.material, job.design) == ("hard-resin", "progressive")
    assert job.trace is not None
    assert {side: len(outline) for side, outline in job.trace.outlines.items()} == {"right": 360, "left": 360}


def test_a_power_without_a_sign_is_plus_in_this_format_and_in_no_other(tmp_path: Path) -> None:
    assert read(SMALL, tmp_path).prescription()["right"].sphere_d == 1.25


def test_an_addition_of_zero_is_none_and_an_unknown_value_is_not_written(tmp_path: Path) -> None:
    eyes = read(SMALL + "ADD=0.00;0.00\nBVD=?;13\nIPD=;\n", tmp_path).prescription()

    assert eyes["right"].add_d is None
    assert read(SMALL + "BVD=?;13\n", tmp_path).vertex_mm == 13


@pytest.mark.parametrize(
    ("records", "right", "left"),
    [
        ("PRVM=2;2\nPRVA=0;0", (2, 0), (-2, 0)),
        ("PRVM=2;2\nPRVA=180;180", (-2, 0), (2, 0)),
        ("PRVM=1.5;1\nPRVA=90;270", (0, 1.5), (0, -1)),
        ("PRVM=0.00;1\nPRVA=0;0", (0, 0), (-1, 0)),
    ],
)
def test_a_prescribed_prism_has_its_base_where_the_angle_points(
    records: str, right: tuple[float, float], left: tuple[float, float], tmp_path: Path
) -> None:
    eyes = read(SMALL + records, tmp_path).prescription()

    assert (eyes["right"].prism_in_pd, eyes["right"].prism_up_pd) == right
    assert (eyes["left"].prism_in_pd, eyes["left"].prism_up_pd) == left


@pytest.mark.parametrize(
    ("index", "kind", "material"),
    [
        ("1.498", "1", "hard-resin"),
        ("1.498", None, "hard-resin"),
        ("1.586", "2", "polycarbonate"),
        ("1.530", "1", "urethane-1.53"),
        ("1.597", "1", "high-index-1.60"),
        ("1.665", "1", "high-index-1.67"),
        ("1.740", "1", "high-index-1.74"),
        ("1.523", "3", "crown-glass"),
        ("1.523", None, None),
        ("1.60", "3", None),
        ("1.586", "1", None),
        ("1.60", None, None),
        ("1.56", "1", None),
        ("1.498", "2", None),
    ],
)
def test_a_material_is_named_only_where_index_and_type_fit_one(
    index: str, kind: str | None, material: str | None, tmp_path: Path
) -> None:
    """Indices: published, see optics/facts/material.toml. Types 1 plastic, 2 polycarbonate, 3 glass: memory."""
    records = f"LIND={index};{index}\n" + (f"LMATTYPE={kind};{kind}\n" if kind else "")
    job = read(SMALL + records, tmp_path)

    assert job.material == material
    assert any("LIND" in note for note in job.notes) == (material is None)


def test_two_unlike_lenses_have_no_one_material_or_design(tmp_path: Path) -> None:
    job = read(SMALL + "LIND=1.498;1.586\nLMATTYPE=1;2\nLTYPE=SV;PR\n", tmp_path)

    assert (job.material, job.design) == (None, None)


def test_the_optical_centre_height_is_taken_for_single_vision_only(tmp_path: Path) -> None:
    assert read(SMALL + "OCHT=18;18.5\nLTYPE=SV;SV\n", tmp_path).measurements["height_left_mm"] == 18.5
    assert "height_left_mm" not in read(SMALL + "OCHT=16;16\nLTYPE=PR;PR\n", tmp_path).measurements
    assert read(SMALL + "SEGHT=19;20\nLTYPE=PR;PR\n", tmp_path).measurements["height_left_mm"] == 20


@pytest.mark.parametrize(
    ("text", "label"),
    [
        (SMALL.replace("SPH=1.25;-0.50", "SPH=1.25"), "SPH"),
        (SMALL.replace("SPH=1.25;-0.50", "SPH=1;2;3"), "SPH"),
        (SMALL.replace("SPH=1.25;-0.50", "SPH=1.25;?"), "sphere"),
        (SMALL.replace("SPH=1.25;-0.50", "SPH=1.25;30.00"), "25"),
        (SMALL.replace("SPH=1.25;-0.50", "SPH=?;?"), "SPH"),
        (SMALL.replace("SPH=1.25;-0.50\n", ""), "SPH"),
        (SMALL.replace("AX=20;0\n", ""), "half a cylinder"),
        (SMALL.replace("AX=20", "AX=200"), "200"),
        (SMALL + "SPH=1.25;-0.50\n", "SPH"),
        (SMALL + "PRVM=2;0\n", "prism"),
        (SMALL + "PRVIN=2.00;0.00\n", "PRVIN"),
        (SMALL.replace("03.10", "09.00"), "OMAV"),
        (SMALL + "STATUS=17\n", "STATUS"),
        (SMALL.replace("DO=B", "DO=X"), "DO"),
        (SMALL + "TRCFMT=6;360;E;R;F\nR=6167514141\n", "trace format 6"),
        (SMALL + "TRCFMT=1;360;U;R;F\n", "equal angles"),
        (SMALL + "IPD=31.00;?\n", "IPD"),
        (SMALL + "IPD=62;62\n", "IPD"),
        (SMALL + "BVD=12;14\n", "BVD"),
        (SMALL + "FED=500;500\n", "FED"),
        (SMALL + "HBOX=151.00;151.00\n", "HBOX"),
        (SMALL + "hello\n", "line 7"),
        (SMALL + "\x1cJOB=9\x1d\n", "control character"),
        ("", "no record"),
    ],
    ids=range(24),
)
def test_what_is_not_understood_is_refused_by_its_label(text: str, label: str, tmp_path: Path) -> None:
    assert label in refused(text, tmp_path)


def test_a_label_of_the_laboratory_is_passed_over_and_a_private_one_too(tmp_path: Path) -> None:
    job = read(SMALL + "KPRVM=0.40;1.20\nXSTATUS=R;1;x;W\nXSTATUS=L;1;x;W\n_SECRET=Odalys\nCLIENT=Odalys\n", tmp_path)

    assert job.prescription()["right"].prism_in_pd == 0
    assert "Odalys" not in " ".join(job.notes)


READ = SMALL + "INSSPH=1.27;-0.49\nINSCYL=-0.77;0.00\nINSAX=21.00;0\nINSPRPRVM=0.25;0\nINSPRPRVA=0;0\nINSCTHK=2.1;1.9\n"


def test_inspection_values_are_readings_when_they_are_asked_for(tmp_path: Path) -> None:
    found = read(READ, tmp_path).inspected
    assert found is not None
    readings = found.readings("lt-7.job")

    assert readings.right is not None
    assert (readings.right.sphere_d, readings.right.cylinder_d, readings.right.axis_deg) == (1.27, -0.77, 21)
    assert readings.right.prism_in_pd == 0.25
    assert readings.left is not None
    assert (readings.left.cylinder_d, readings.left.axis_deg) == (0, None)
    assert readings.centre_thickness_left_mm == 1.9


def test_values_that_repeat_the_computed_design_are_no_readings() -> None:
    """In the sample job INSSPH and INSCYL are LDDRSPH and LDDRCYL to the hundredth: computed, not read."""
    found = read_job(JOB).inspected
    assert found is not None
    with pytest.raises(InputError, match="computed"):
        found.readings("dcs_job.txt")


@pytest.mark.parametrize(
    ("old", "new", "label"),
    [
        ("INSAX=21.00;0\n", "", "INSAX"),
        ("INSPRPRVA=0;0\n", "", "INSPRPRVA"),
        ("INSSPH=1.27;-0.49", "INSSPH=?;?", "INSSPH"),
        ("INSSPH=1.27;-0.49", "INSSPH=1.27;x", "INSSPH"),
        ("INSPRPRVM=0.25;0\n", "INSPRPRVH=0.25;0\n", "INSPRPRVH"),
    ],
)
def test_readings_that_are_not_whole_are_refused(old: str, new: str, label: str, tmp_path: Path) -> None:
    assert label in refused(READ.replace(old, new), tmp_path, use=True)


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_all_line_ends_are_read(end: str, tmp_path: Path) -> None:
    assert read(SMALL.replace("\n", end), tmp_path).number == "LT-7"
