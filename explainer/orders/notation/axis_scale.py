"""Italian prescriptions count the left axis on one of two scales. Which one is asked for, never guessed."""

from __future__ import annotations

from explainer.optics.spectacles import Side

OPEN_SCALE = "a left axis that may be on the TABO or the INTERNAZIONALE scale"
ASK_SCALE = 'the scale behind the axis (x 172 TABO), or axis_scale = "TABO" in the same table'


def scale_is_open(axis_deg: float | None, *, language: str | None, side: Side | None) -> bool:
    """Whether an axis could mean two directions: only for the left eye, and not where both scales agree."""
    return language == "it" and side == "left" and axis_deg not in (None, 90, 180)
