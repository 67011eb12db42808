"""The lenses that darken in light: which of the tints they are."""

from __future__ import annotations

from typing import Literal, TypeGuard, get_args

ReactiveClass = Literal["photochromic", "photochromic-visible"]
"""Dyes that react to ultraviolet alone, and dyes that react to violet light too."""

REACTIVE: frozenset[str] = frozenset(get_args(ReactiveClass))


def is_reactive(tint: str | None) -> TypeGuard[ReactiveClass]:
    """Whether a tint is one that darkens in light.

    Parameters: tint the kind of tint, or None where none was given.
    Returns: yes or no.
    Raises: nothing.
    Equation: member of a closed set; exact.
    Reference: common practice.
    """
    return tint in REACTIVE
