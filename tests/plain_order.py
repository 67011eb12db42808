"""An order as plain data, without a fault: what tests change and the fuzzer starts from."""

from __future__ import annotations

from typing import Any

Data = dict[str, Any]

PLAIN: Data = {
    "order": "TK-0417",
    "date": "2026-10-05",
    "language": "en-GB",
    "wearer": {"name": "Odalys Brackenwhistle", "birth_year": 1971, "uses": ["driving"]},
    "prescription": {"written": "2026-09-21", "right": "+1.75 -0.50 x 63", "left": "+2.25 DS", "vertex_mm": 12.5},
    "measurements": {"pd_right_mm": 32.0, "pd_left_mm": 31.5},
    "frame": {"a_mm": 51.0, "b_mm": 36.0, "dbl_mm": 18.0, "ed_mm": 54.0, "material": "metal"},
    "lens": {"design": "single-vision", "material": "urethane-1.53", "tint": "clear", "coatings": ["hard"]},
    "bench": {"right": "+1.78 -0.52 x 62", "left": "+2.24 DS", "pd_mm": 63.5},
    "previous": {"right": "+1.25 -0.50 x 60", "left": "+1.75 DS"},
}
