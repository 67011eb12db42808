"""The blocks of the phone page, from top to bottom: the leaflet's own, in the order of one long column.

What holds for an order is asked of the table of blocks; here is only the order. A column has room for every block, so
none gives way. What only the curious read stands in two groups to open.
"""

from __future__ import annotations

from dataclasses import dataclass

from explainer.compose.blocks import blocks_of
from explainer.optics.claims.ledger import ClaimSet


@dataclass(frozen=True, slots=True)
class Group:
    """Blocks that stand together; one with a name is closed until it is opened."""

    blocks: tuple[str, ...]
    name: str = ""


_GROUPS = (
    Group(("draft", "title", "pair", "states", "drive", "parents", "know", "check", "help", "safety_source")),
    Group(("days", "driving", "for_parents", "look_through", "near_range", "fit", "clean", "safe", "changed")),
    Group(("numbers", "pupils", "turning", "street"), "numbers"),
    Group(("scenes", "clearing", "shades", "thickness", "facts"), "light"),
    Group(("imprint",)),
)
BESIDE = frozenset({"head", "title_numbers", "title_merged", "title_light", "notes"})
"""Blocks of the paper that the page has in another form: its own head, titles of pages, a page for notes."""

ANCHORS = (("help", ("help",)), ("check", ("check",)), ("drive", ("driving", "drive")), ("clean", ("clean",)))
"""What is always within reach, and the first of these blocks that stands is where it leads."""


def groups_of(claims: ClaimSet, *, draft: bool = False) -> tuple[Group, ...]:
    """The groups with those of their blocks that apply."""
    applying = {block.name for block in blocks_of(claims, draft=draft)}
    kept = (Group(tuple(name for name in group.blocks if name in applying), group.name) for group in _GROUPS)
    return tuple(group for group in kept if group.blocks)
