"""Laid-out text as strips: the pieces between which it may be cut, from one column to the next.

The engine has set a part once, as wide as a column and as long as it needs. Where it may be cut follows from the style
sheet: not inside what stays whole, not after a heading, not so that one line stands alone. A cut moves nothing: the
fragment's boxes keep their places, and only the boxes round them are copied.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any, NamedTuple

MM_PER_PX = 25.4 / 96
_NO_BREAK = ("avoid", "avoid-page", "avoid-column")


class Strip(NamedTuple):
    """What stays together: the engine's boxes, their extent [mm], and whether the next strip must follow directly."""

    boxes: tuple[Any, ...]
    top_mm: float
    bottom_mm: float
    tied: bool = False

    @property
    def height_mm(self) -> float:
        """From the top to the bottom."""
        return self.bottom_mm - self.top_mm


def strips(box: Any, longest_mm: float) -> list[Strip]:
    """The strips of a laid-out box in order. What is longer than a whole column is cut wherever that can be."""
    from weasyprint.formatting_structure import boxes

    if _stays_whole(box, boxes, longest_mm):
        return [_strip(box)]
    if any(isinstance(child, boxes.LineBox) for child in box.children):
        return _lines(box, boxes)
    found: list[Strip] = []
    before: list[Any] = []  # what is out of the flow goes with the box it stands before
    last: Any = None
    for child in box.children:
        if not _in_flow(child):
            before.append(child)
            continue
        first, *rest = strips(child, longest_mm)
        if last is not None and (_avoids(last, "break_after") or _avoids(child, "break_before")):
            found[-1] = found[-1]._replace(tied=True)
        found += [first._replace(boxes=(*before, *first.boxes)), *rest]
        before, last = [], child
    return _with_rest(found, before)


def is_tied_to_next(box: Any) -> bool:
    """Whether no break may follow a laid-out box, or the last box in it."""
    last = [child for child in getattr(box, "children", ()) if _in_flow(child)][-1:]
    return _avoids(box, "break_after") or any(map(is_tied_to_next, last))


def emptied(page_box: Any) -> Any:
    """The engine's page without what its body holds, for `fragment`."""
    html = page_box.children[0]
    return page_box.copy_with_children([html.copy_with_children([html.children[0].copy_with_children([])])])


def fragment(empty_page: Any, body: Sequence[Any], kept: Sequence[Strip]) -> Any:
    """The engine's page box with only these strips of a part's boxes, where they were."""
    wanted = {id(box) for strip in kept for box in strip.boxes}
    left = [part for part in (_only(box, wanted) for box in body) if part is not None]
    (html,) = empty_page.children
    filled = html.children[0].copy_with_children(left)
    return empty_page.copy_with_children([html.copy_with_children([filled])])


def pictures_in(strip: Strip) -> Iterator[str]:
    """The alternative texts of the pictures in a strip."""
    for box in strip.boxes:
        for found in box.descendants(placeholders=True):
            if found.element_tag == "img":
                yield found.element.get("alt", "")


def _strip(box: Any) -> Strip:
    top = box.border_box_y()
    return Strip((box,), top * MM_PER_PX, (top + box.border_height()) * MM_PER_PX)


def _stays_whole(box: Any, boxes: Any, longest_mm: float) -> bool:
    if not isinstance(box, boxes.BlockBox) or box.is_table_wrapper or not any(map(_in_flow, box.children)):
        return True
    framed = box.padding_top or box.padding_bottom or box.border_top_width or box.border_bottom_width
    return (framed or _avoids(box, "break_inside")) and box.border_height() * MM_PER_PX <= longest_mm


def _lines(box: Any, boxes: Any) -> list[Strip]:
    """The lines of a paragraph, one by one but for the first few and the last few."""
    lines = [child for child in box.children if isinstance(child, boxes.LineBox)]
    others = tuple(child for child in box.children if not isinstance(child, boxes.LineBox))
    first, last = box.style["orphans"], box.style["widows"]
    if len(lines) < first + last:
        return [_strip(box)]
    groups = [lines[:first], *([line] for line in lines[first:-last]), lines[-last:]]
    found = [_of_lines(group) for group in groups]
    return [found[0]._replace(boxes=(*others, *found[0].boxes)), *found[1:]]


def _of_lines(lines: Sequence[Any]) -> Strip:
    top, bottom = lines[0].position_y, lines[-1].position_y + lines[-1].height
    return Strip(tuple(lines), top * MM_PER_PX, bottom * MM_PER_PX)


def _with_rest(found: list[Strip], rest: Sequence[Any]) -> list[Strip]:
    """What is out of the flow after the last box goes with that one."""
    return [*found[:-1], found[-1]._replace(boxes=(*found[-1].boxes, *rest))] if rest else found


def _only(box: Any, wanted: set[int]) -> Any | None:
    """The box with nothing in it but what is wanted; None if that is nothing, itself if that is everything."""
    if id(box) in wanted or not getattr(box, "children", ()):
        return box if id(box) in wanted else None
    parts = [_only(child, wanted) for child in box.children]
    kept = [part for part in parts if part is not None]
    if not kept or all(part is child for part, child in zip(parts, box.children, strict=True)):
        return box if kept else None
    return _cut(box, kept, at_start=parts[0] is None, at_end=parts[-1] is None)


def _cut(box: Any, kept: Sequence[Any], *, at_start: bool, at_end: bool) -> Any:
    """A copy of a box round what is kept, open where it was cut."""
    bottom = box.content_box_y() + box.height
    copy = box.copy_with_children(kept)
    copy.remove_decoration(at_start, at_end)
    if at_start:
        copy.position_y = kept[0].position_y
    if at_end:
        bottom = kept[-1].position_y + kept[-1].margin_height()
    copy.height = bottom - copy.content_box_y()
    return copy


def _in_flow(box: Any) -> bool:
    return bool(box.is_in_normal_flow()) and not box.is_outside_marker


def _avoids(box: Any, name: str) -> bool:
    return box.style[name] in _NO_BREAK
