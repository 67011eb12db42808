"""Block C of the sheet: type, measure, room on the page."""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from collections.abc import Iterator
from itertools import pairwise

from render.glyphs import Glyph, Line
from render.measure import MM, body_size, running_lines, steps
from scoring import columns, faces, words
from scoring.leaflet import Made
from scoring.marks import Mark, item, worst
from scoring.tagged import joined

BODY_PT, X_HEIGHT_MM, X_HEIGHT_LEAST_MM, X_HEIGHT_ANY_MM = 12, 2.2, 1.9, 1.4
SHORTEST, LONGEST, LONGEST_AT_ALL, LEADING = 45, 75, 80, 1.3
PAGES = {"standard": (4, 5), "large-print": (8, 12)}  # full marks, one mark: four pages, and twice that in large print
LARGE_PT = 16


@item("C1")
def type_is_large_enough(made: Made) -> Mark:
    """The body by size and height of its small x; and nothing too small, labels of figures included."""
    printed = [glyph for glyph in made.glyphs if glyph.text.strip()]
    size = body_size(printed)
    font = Counter(glyph.font for glyph in printed).most_common(1)[0][0]
    height = faces.x_height(font) * size / MM
    wrong = [f"body {size:g} pt"] if size < BODY_PT else []
    wrong += [f"small x of the body {height:.2f} mm"] if height < X_HEIGHT_LEAST_MM else []
    slight = [f"small x of the body {height:.2f} mm"] if X_HEIGHT_LEAST_MM <= height < X_HEIGHT_MM else []
    low = min(printed, key=lambda glyph: faces.x_height(glyph.font) * glyph.size)
    least = faces.x_height(low.font) * low.size / MM
    wrong += [f"page {low.page + 1}: small x of {least:.2f} mm ({low.size:.1f} pt)"] if least < X_HEIGHT_ANY_MM else []
    return worst(wrong, slight)


@item("C2")
def lines_are_easy_to_follow(made: Made) -> Mark:
    """Letters a line, leading, flush start and ragged end, no hyphenation, no value torn."""
    found = running_lines(made.glyphs, gutter=made.gutter, first_page=min(1, made.pages - 1))
    wrong, slight = _measure(made, found)
    leads = steps(found)
    size = body_size([glyph for glyph in made.glyphs if not glyph.artifact])
    if leads and min(leads) < LEADING * size - 0.05:
        wrong.append(f"leading {min(leads) / size:.2f}")
    sides = [[round(line.left) for line in found], [round(line.right) for line in found]]
    begins, ends_at = sides if made.spoken.direction == "ltr" else reversed(sides)
    starts, ends = (Counter(side).most_common(1)[0][1] for side in (begins, ends_at))
    wrong += ["lines do not start flush"] if starts <= 0.15 * len(found) else []
    wrong += ["lines are justified"] if ends >= 0.15 * len(found) else []
    wrong += [f"hyphenated: {each}" for each in _hyphenated(made)]
    slight += [f"torn value: {value}" for value in torn_values(made)]
    return worst(wrong, slight)


def _measure(made: Made, found: list[Line]) -> tuple[list[str], list[str]]:
    """Letters that fit into the column, and the longest line of any paragraph, wide ones too."""
    advance = sum(line.right - line.left for line in found) / sum(len(line.text) for line in found)
    fit = max(line.right - line.left for line in found) / advance
    size = body_size([glyph for glyph in made.glyphs if not glyph.artifact])
    lengths = list(_lengths(made))
    longest = max(count for count, of in lengths if of >= size - 0.05)
    small = max([count for count, of in lengths if of < size - 0.05], default=0)
    wrong = [f"a line of {longest} letters"] if longest > LONGEST_AT_ALL else []
    slight = [f"{fit:.0f} letters fit in a line"] if not SHORTEST <= round(fit) <= LONGEST else []
    slight += [f"a line of {longest} letters"] if LONGEST < longest <= LONGEST_AT_ALL else []
    slight += [f"a line of {small} letters in small print"] if small > LONGEST_AT_ALL else []
    return wrong, slight


def _lengths(made: Made) -> Iterator[tuple[int, float]]:
    """The letters in each line of each paragraph and list item, and their size [pt]."""
    for node in made.tags.all("/P", "/LBody"):
        rows: dict[tuple[int, float], list[Glyph]] = defaultdict(list)
        for glyph in node.letters:
            rows[glyph.page, round(glyph.y, 1)].append(glyph)
        yield from ((len(joined(row)), max(glyph.size for glyph in row)) for row in rows.values())


def _hyphenated(made: Made) -> list[str]:
    """Words cut at the end of a line; a hyphen that the source has too is none."""
    found = [sign for sign in ("\u2010", "\u00ad") if sign in made.tag_text]
    cut = re.findall(r"([^\W\d_]+-) ([^\W\d_]+)", made.tag_text)
    found += [f"{start}{end}" for start, end in cut if f"{start}{end}" not in made.source.words]
    return [each for each in found if each.replace("-", "- ") not in made.source.words]


def torn_values(made: Made) -> list[str]:
    """Values that stand nowhere in the page on one line, from the number to its unit and from the sign on."""
    text, owners = made.spaceless
    values = {"".join(text.split()) for _, text in made.source.claims} - {""}
    return sorted(value for value in values if not any(_on_one_line(found) for found in _places(value, text, owners)))


def _places(words: str, text: str, owners: list[Glyph]) -> Iterator[list[Glyph]]:
    """The letters of each place where these words stand."""
    start = text.find(words)
    while start >= 0:
        yield owners[start : start + len(words)]
        start = text.find(words, start + 1)


def _on_one_line(letters: list[Glyph]) -> bool:
    return len({glyph.page for glyph in letters}) == 1 and (
        max(glyph.y for glyph in letters) - min(glyph.y for glyph in letters) < 0.5 * letters[0].size
    )


@item("C3")
def stress_is_bold_and_figures_stand_straight(made: Made) -> Mark:
    """No italics, underline or rows of capitals; figures of one width; letters that can be told apart."""
    fonts = sorted({glyph.font for glyph in made.glyphs})
    wrong = [f"italics: {font}" for font in fonts if re.search("ital|obliq", font, re.IGNORECASE)]
    wrong += [f"underlined: {each}" for each in ("u", "ins") if made.source.all(each)]
    wrong += ["underline in a style"] if re.search(r"text-decoration[-\w]*\s*:\s*[^;\"]*underline", made.html) else []
    own = {made.order.number, *(made.order.wearer_name or "").split()}
    for capitals in re.findall(r"(?:\b[A-ZÄÖÜ]{2,}\b[ ,]+){3,}\b[A-ZÄÖÜ]{2,}\b", made.source.prose()):
        if not own & set(capitals.split()):
            wrong.append(f"capitals: {capitals!r}")
    slight = []
    for font in fonts:
        opened = faces.face(font)
        widths = {opened["hmtx"][opened.getBestCmap()[ord(digit)]][0] for digit in "0123456789"}
        used = {g.advance / g.size for g in made.glyphs if g.font == font and g.text.isdigit()}
        if len(widths) > 1 and max(used, default=0) - min(used, default=0) > 0.01:
            wrong.append(f"figures of several widths in {font}")
        slight += [f"{a} and {b} look alike in {font}" for a, b in faces.look_alike(font, "0O1lI")]
    return worst(wrong, slight)


@item("C4")
def it_fits_and_nothing_is_torn(made: Made) -> Mark:
    """The budget of paper; nothing cut off, printed over, orphaned or torn."""
    few, many = PAGES[made.case.edition]
    torn = [
        *columns.outside(made),
        *columns.overprinted(made),
        *columns.orphan_headings(made),
        *columns.split_cautions(made),
    ]
    long = f"{made.pages} pages, the budget is {few}"
    return worst([*([long] if made.pages > many else []), *torn], [long] if few < made.pages <= many else [])


@item("C5")
def there_is_large_print(made: Made) -> Mark:
    """Large print: its size, one column, the same facts. The standard edition: says that there is large print."""
    if made.case.edition == "standard":
        said = re.search(words.LARGE_PRINT.get(made.speech, "$^"), made.tag_text, re.IGNORECASE)
        return worst([] if said else ["does not say that there is large print"])
    size = body_size([glyph for glyph in made.glyphs if not glyph.artifact])
    wrong = [f"body {size:g} pt, wanted {LARGE_PT}"] if size < LARGE_PT else []
    wrong += [f"page {page + 1} has two columns" for page in _pages_in_columns(made)]
    other = made.beside(edition="standard")
    if other is not None and set(other.said) != set(made.said):
        differ = sorted(set(other.said) ^ set(made.said))
        wrong.append(f"other facts than the standard edition: {', '.join(differ[:4])}")
    return worst(wrong)


def _pages_in_columns(made: Made) -> list[int]:
    """Pages on which running text stands beside running text."""
    found = running_lines(made.glyphs, gutter=None, first_page=0)
    beside = {
        line.glyphs[0].page
        for line in found
        if any(b.x - a.x - a.advance > 2 * line.size for a, b in pairwise([g for g in line.glyphs if g.text.strip()]))
    }
    return sorted(beside)
