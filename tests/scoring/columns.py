"""The columns of the finished pages: what stands in each, where it ends, what is torn, cut off or printed over."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from render.glyphs import Glyph, Line
from render.measure import HEIGHT, MM, WIDTH
from scoring.leaflet import Made
from scoring.source import classes, words_of
from scoring.tagged import joined

from explainer.render.press.sheet import Sheet, sheet

HEADS = ("/H1", "/H2", "/H3", "/H4")
UNPRINTED_MM = 3.0  # printers leave an edge of the paper white; common practice
Place = tuple[int, int]  # page and column, counted from 0


@dataclass(frozen=True)
class Column:
    """One column of one page: its lines from the top, and the boxes [pt] of the figures in it."""

    place: Place
    lines: tuple[Line, ...]
    figures: tuple[tuple[float, float, float, float], ...]

    @property
    def lowest(self) -> float:
        """The lowest edge of anything in it [pt]."""
        return min([line.y for line in self.lines] + [low for _, low, _, _ in self.figures])


def grid(made: Made) -> Sheet:
    return sheet(made.case.paper, made.case.edition)


def place_of(made: Made, glyph: Glyph) -> Place:
    return glyph.page, int(made.gutter is not None and glyph.x >= made.gutter)


def columns(made: Made) -> list[Column]:
    """Every column with something in it, in the order of reading."""
    text: dict[Place, list[Line]] = defaultdict(list)
    drawn: dict[Place, list[tuple[float, float, float, float]]] = defaultdict(list)
    for line in made.lines:
        text[place_of(made, line.glyphs[0])].append(line)
    pages = {page.objgen: number for number, page in enumerate(made.opened.pages)}
    for node in made.tags.all("/Figure"):
        box = node.attribute("/BBox")
        if box is not None and "/Pg" in node.tag:
            left, low, right, high = (float(side) for side in box)
            column = int(made.gutter is not None and (left + right) / 2 >= made.gutter)
            drawn[pages[node.tag.Pg.objgen], column].append((left, low, right, high))
    found = sorted({*text, *drawn})
    return [Column(place, tuple(sorted(text[place], key=lambda line: -line.y)), tuple(drawn[place])) for place in found]


def outside(made: Made) -> Iterator[str]:
    """Letters beyond the margins, or in the gap between the columns of later pages."""
    on = grid(made)
    width, side = WIDTH[made.case.paper], on.side_mm * MM
    bottom, top = on.bottom_mm * MM, HEIGHT[made.case.paper] - on.top_mm * MM
    for glyph in made.glyphs:
        if not glyph.text.strip():
            continue
        across = glyph.x < side - 0.5 or glyph.x + glyph.advance > width - side + 0.5
        lowest = UNPRINTED_MM * MM + 0.25 * glyph.size if glyph.artifact else bottom - 0.5
        down = not lowest <= glyph.y <= top
        if across or down:
            yield f"page {glyph.page + 1}: {_around(made, glyph)!r} stands beyond the margin"
    if made.gutter is not None:
        half = on.gap_mm * MM / 2
        for line in made.lines:
            if line.glyphs[0].page and line.left < made.gutter - half + 0.5 < line.right - 0.5:
                yield f"page {line.glyphs[0].page + 1}: {line.text[:40]!r} runs into the gap between the columns"


def _around(made: Made, glyph: Glyph) -> str:
    """What a letter belongs to, in a few words."""
    beside = [other for other in made.glyphs if (other.page, other.step) == (glyph.page, glyph.step)]
    return next((line.text[:40] for line in made.lines if glyph in line.glyphs), joined(beside)[:40])


def overprinted(made: Made) -> Iterator[str]:
    """Pieces of text over each other, each pair once: boxes of their letters share a good part."""
    by_page: dict[int, list[Glyph]] = defaultdict(list)
    for glyph in made.glyphs:
        if glyph.text.strip():
            by_page[glyph.page].append(glyph)
    for page, letters in by_page.items():
        pairs = {tuple(sorted((one.step, other.step))): (one, other) for one, other in _over_each_other(letters)}
        for one, other in pairs.values():
            yield f"page {page + 1}: {_around(made, one)!r} and {_around(made, other)!r} overlap"


def _over_each_other(letters: list[Glyph]) -> Iterator[tuple[Glyph, Glyph]]:
    letters = sorted(letters, key=lambda glyph: glyph.x)
    for number, glyph in enumerate(letters):
        for other in letters[number + 1 :]:
            if other.x >= glyph.x + 0.7 * glyph.advance:
                break
            apart = other.mark != glyph.mark or (glyph.artifact and other.step != glyph.step)
            if apart and abs(other.y - glyph.y) < 0.6 * min(glyph.size, other.size):
                yield glyph, other


def orphan_headings(made: Made) -> Iterator[str]:
    """Headings with nothing below them in their column."""
    heads = {(g.page, g.mark) for node in made.tags.all(*HEADS) for g in node.letters}
    for column in columns(made):
        if not column.lines:
            continue
        last = column.lines[-1]
        is_head = all((g.page, g.mark) in heads for g in last.glyphs if g.text.strip())
        if is_head and not any(high <= last.y + 2 for _, _, _, high in column.figures):
            yield f"page {column.place[0] + 1}: the heading {last.text[:40]!r} ends a column"


def cautions(made: Made) -> list[str]:
    """The words of each caution as the page was written, the signal word before a boxed one."""
    return [
        " ".join(words_of(each).split())
        for each in made.source.root.iter()
        if classes(each) & {"caution", "caution-line", "urgent"}
    ]


def split_cautions(made: Made) -> Iterator[str]:
    """Cautions and urgent boxes that are torn between columns or pages."""
    for caution in cautions(made):
        found = letters_of(made, caution)
        if not found:
            yield f"the caution {caution[:40]!r} is not whole in the page"
            continue
        on = {place_of(made, glyph) for glyph in found}
        if len(on) > 1:
            yield f"page {min(on)[0] + 1}: the caution {caution[:40]!r} is torn"


def letters_of(made: Made, words: str) -> list[Glyph]:
    """The letters that print these words, list marks apart; none when they are not in the page in one piece."""
    text, owners = made.spaceless
    wanted = "".join(words.split())
    start = text.find(wanted)
    return [] if start < 0 else owners[start : start + len(wanted)]


def empty_shares(made: Made) -> dict[Place, float]:
    """The part of each column's height that stays empty below its last line or figure."""
    on = grid(made)
    bottom = on.bottom_mm * MM
    height = HEIGHT[made.case.paper] - (on.top_mm + on.bottom_mm) * MM
    there = {column.place: max(0.0, column.lowest - bottom) / height for column in columns(made)}
    every = [(page, column) for page in range(made.pages) for column in range(on.columns)]
    return {place: there.get(place, 1.0) for place in every}


def smallest(made: Made) -> Glyph:
    """The smallest letter that is printed."""
    return min((glyph for glyph in made.glyphs if glyph.text.strip()), key=lambda glyph: glyph.size)
