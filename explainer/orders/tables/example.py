"""A table to start from: the header with every column, and two invented orders that read back in."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping

from explainer.orders.tables.columns import COLUMNS

_IN_NOTATION = {
    "order": "TB-0001",
    "date": "2026-11-20",
    "language": "en-GB",
    "wearer_name": "Idris Thornapple",
    "wearer_birth_year": "1979",
    "wearer_uses": "driving screen",
    "written": "2026-10-12",
    "right": "-2.75 -0.50 x 165",
    "left": "-3.00 -0.75 x 12",
    "vertex_mm": "12.5",
    "pd_right_mm": "31.5",
    "pd_left_mm": "32.0",
    "frame_a_mm": "51",
    "frame_b_mm": "37",
    "frame_dbl_mm": "18",
    "frame_ed_mm": "54",
    "frame_material": "acetate",
    "lens_design": "single-vision",
    "lens_material": "high-index-1.60",
    "lens_tint": "clear",
    "lens_coatings": "hard anti-reflection",
    "bench_right": "-2.75 -0.50 x 166",
    "bench_left": "-3.00 -0.75 x 12",
    "bench_prism_right": "0",
    "bench_prism_left": "0.12 in & 0 up",
    "bench_reference_points_mm": "63.5",
}
_IN_NUMBERS = {
    "order": "TB-0002",
    "date": "2026-11-20",
    "language": "de",
    "right_sphere": "+1,25",
    "right_cylinder": "-0,75",
    "right_axis": "90",
    "right_add": "2,00",
    "right_prism": "2,0 in",
    "left_sphere": "+1,50",
    "left_add": "2,00",
    "pd_right_mm": "31,5",
    "pd_left_mm": "31",
    "height_right_mm": "19,5",
    "height_left_mm": "19,5",
    "frame_a_mm": "49,5",
    "frame_b_mm": "36,5",
    "frame_dbl_mm": "19",
    "frame_material": "metal",
    "lens_design": "progressive",
    "lens_material": "hard-resin",
    "lens_tint": "photochromic",
    "lens_tint_colour": "grey",
}


def example_csv() -> str:
    """The header line and two rows, in the delimiter that leaves decimal commas alone."""
    sheet = io.StringIO()
    writer = csv.writer(sheet, delimiter=";", lineterminator="\n")
    writer.writerow(COLUMNS)
    for row in (_IN_NOTATION, _IN_NUMBERS):
        writer.writerow(_cells(row))
    return sheet.getvalue()


def _cells(row: Mapping[str, str]) -> list[str]:
    return [row.get(name, "") for name in COLUMNS]
