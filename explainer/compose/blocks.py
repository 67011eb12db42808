"""The blocks of the leaflet: on which page each stands, in which order, when, and which of them give way.

One line a block. `applies` asks claims, nothing else: what is true for a wearer was decided by the core; here it only
finds a place. Priority A stays, B stands where its condition holds, C goes first when room is short. `moves`: it may
stand on a later page. `stays`: whatever else must go. `text_only`: no box and no picture, so the fold may fall on it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from explainer.optics.claims.ledger import ClaimSet

Condition = Callable[[ClaimSet], bool]
Column = Literal["full", "first", "second"]
Priority = Literal["A", "B", "C"]


def _always(claims: ClaimSet) -> bool:
    return True


def _any(*names: str) -> Condition:
    """Whether one of these claims was issued, and did not answer no."""
    return lambda claims: any(claims.value(name) not in (None, False) for name in names)


def _is(name: str, *values: str) -> Condition:
    return lambda claims: claims.value(name) in values


def _tinted_driver(claims: ClaimSet) -> bool:
    return _any("pair.driving")(claims) and _is("tint.class", "fixed", "photochromic", "photochromic-visible")(claims)


_CHILD = _any("parents.play")


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """One block. `gap_mm` is the room above it where that is fixed; `draft` for drafts alone."""

    name: str
    page: int
    column: Column = "full"
    priority: Priority = "A"
    applies: Condition = _always
    moves: bool = False
    stays: bool = False
    text_only: bool = False
    is_title: bool = False
    gap_mm: float | None = None
    draft: bool = False

    @property
    def gives_way(self) -> bool:
        """Whether its absence is worth telling: titles and the page for notes stand only where they are wanted."""
        return self.page > 0 and not self.is_title


BLOCKS = (
    # page 1: this pair at a glance
    Block(name="head", page=1, stays=True, text_only=True),
    Block(name="draft", page=1, draft=True, gap_mm=3),
    Block(name="title", page=1, stays=True, text_only=True, gap_mm=2.5),
    Block(name="pair", page=1, stays=True, gap_mm=3),
    Block(name="states", page=1, priority="C", applies=_any("say.reactive", "know.clear_glasses", "know.near_only")),
    Block(name="drive", page=1, stays=True, applies=_any("say.driver")),
    Block(name="parents", page=1, stays=True, applies=_CHILD),
    Block(name="know", page=1, priority="B", moves=True, text_only=True),
    Block(name="help", page=1, stays=True),
    # page 2: wearing and keeping
    Block(name="days", page=2),
    Block(name="check", page=2),
    Block(name="for_parents", page=2, priority="B", applies=_CHILD, text_only=True, moves=True),
    Block(name="look_through", page=2, priority="B", applies=_is("lens.design", "progressive", "bifocal"), moves=True),
    Block(name="fit", page=2, moves=True),
    Block(name="clean", page=2, column="first"),
    Block(name="safe", page=2, column="second", text_only=True),
    # page 3: the numbers
    Block(name="title_numbers", page=3, is_title=True, text_only=True),
    Block(name="title_merged", page=3, is_title=True, text_only=True),
    Block(name="changed", page=3, priority="B", applies=_any("wearer.previous")),
    Block(name="numbers", page=3, text_only=True),
    Block(name="pupils", page=3, priority="B", applies=_any("pair.pd", "bench.said")),
    Block(name="turning", page=3, priority="B", applies=_any("right.made.axis", "left.made.axis")),
    Block(name="street", page=3, priority="C", applies=_any("right.sight.kind", "left.sight.kind"), moves=True),
    Block(name="near_range", page=3, priority="B", applies=_any("know.near_only"), moves=True),
    # page 4: lens and light
    Block(name="title_light", page=4, is_title=True, text_only=True),
    Block(name="driving", page=4, priority="B", applies=_tinted_driver, text_only=True),
    Block(name="scenes", page=4, priority="B", applies=_any("say.reactive")),
    Block(name="clearing", page=4, priority="B", applies=_any("say.reactive")),
    Block(name="shades", page=4, priority="B", applies=_is("tint.class", "fixed")),
    Block(name="thickness", page=4, priority="C", applies=_any("thickest.side")),
    Block(name="facts", page=4, priority="C", text_only=True),
    Block(name="safety_source", page=4, draft=True),
    Block(name="imprint", page=4),
    # on no page of its own: a last page that would stay empty
    Block(name="notes", page=0, text_only=True),
)

MERGED_TITLE = "title_merged"
"""The title of the page that two have become."""

LARGE_ORDER = (
    "head draft title help drive parents know pair states days check for_parents look_through fit clean safe "
    "title_numbers changed numbers pupils turning street near_range title_light driving scenes clearing shades "
    "thickness facts safety_source imprint"
).split()
"""Large print: help comes first, and a page is never too short for it."""


def blocks_of(claims: ClaimSet, *, draft: bool = False) -> tuple[Block, ...]:
    """The blocks that apply, page by page, in reading order."""
    return tuple(block for block in BLOCKS if block.applies(claims) and (draft or not block.draft))
