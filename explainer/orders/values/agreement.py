"""How far two statements of one length may be apart and still be one length [mm]: what a ruler shows, no more."""

from __future__ import annotations

ONE_LENGTH_MM = 0.5
"""Distances of pupils, heights, vertex distances and diameters, each read twice or by two people."""

ONE_BOX_MM = 1.0
"""Sides of the box: one measured at the frame, the other by its trace."""
