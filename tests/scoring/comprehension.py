"""Block B of the sheet: whether the leaflet can be understood, as far as a program can tell."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from scoring import eyes, words
from scoring.leaflet import Made
from scoring.marks import Mark, apart, item, worst
from scoring.reading_ease import FORMULAS, LONGEST, MEAN, lengths
from scoring.source import classes, is_figure, is_own, name_of, words_of
from scoring.tables import cells, named

from explainer.optics.spectacles import SIDES

POINTS, ITEMS = 5, 7
CHUNK, LONG_CHUNK = 110, 150  # the sheet says about 100
_ACTIONS = (
    "Ask Avoid Be Bring Call Change Check Clean Cover Do Drive Hold Keep Lay Let Look Make Never Open Put Read Rest "
    "Rinse See Send Slow Stop Take Tell Turn Try Use Wait Wash Watch Wear Write"
).split()
_PASSIVE = re.compile(
    r"\b(?:is|are|was|were|been|being)\s+(?:\w+ly\s+)?(\w+ed|made|given|worn|sent|held|kept|set|put)\b"
)
_ONE_IN = re.compile(r"(?<![\d.,])\b(?:1|one|eine[rms]?) (?:in|von|out of) \d+\b(?![.,]\d| D)")
_STATES = frozenset({"fixed", "tinted", "cracked", "curved", "needed", "set"})


@item("B2")
def the_summary_is_short_and_tells_what_to_do(made: Made) -> Mark:
    """At most five points in the first block, one of them something to do, said to the reader in the active voice."""
    points = [each for block in made.source.all(of="points") for each in block.iter() if name_of(each) == "li"]
    texts = [" ".join(words_of(each).split()) for each in points]
    wrong = [] if points else ["no points in the first block"]
    wrong += [f"{len(points)} points, at most {POINTS}"] if len(points) > POINTS else []
    lead = " ".join(words_of(each) for each in made.source.all(of="lead")) + " ".join(texts)
    slight = []
    if made.speech == "en":
        sentences = [sentence for text in texts for sentence in re.split(r"(?<=[.!?])\s+", text)]
        if not any(sentence.partition(" ")[0] in _ACTIONS for sentence in sentences):
            wrong.append("no point says what to do")
        slight += [f"passive: {found[0]!r}" for found in _PASSIVE.finditer(lead) if found[1] not in _STATES]
    if not re.search({"en": r"\byou", "de": r"\b(?:Sie|Ihre?)\b"}.get(made.speech, ""), lead, re.IGNORECASE):
        slight.append("the first block does not speak to the reader")
    return worst(wrong, slight)


@item("B3")
def it_reads_easily(made: Made) -> Mark:
    """The formula of the language, and the length of sentences; other people's own words are left out."""
    if made.speech not in FORMULAS:
        return apart(f"no formula is settled for {made.speech}")
    text = prose(made)
    ease = FORMULAS[made.speech](text)
    counted = lengths(text)
    mean = sum(count for count, _ in counted) / len(counted)
    wrong = [f"{count} words: {start} …" for count, start in counted if count > LONGEST]
    wrong += [f"{mean:.1f} words a sentence, at most {MEAN}"] if mean > MEAN else []
    slight = [ease.said] if ease.points == 1 else []
    return worst([*wrong, *([ease.said] if ease.points == 0 else [])], slight)


def prose(made: Made) -> str:
    """The running text in the leaflet's own language: without sources, and without the English copies of a draft."""
    parts = [
        made.source.prose(section)
        for name, section in made.source.sections.items()
        if name != "sources" and not name.endswith("-source")
    ]
    return "\n".join(parts)


@item("B4")
def terms_are_explained_where_they_first_stand(made: Made) -> Mark:
    """Each term of the trade is explained in the section of its first use; 1 for a later one."""
    if made.speech not in words.TERMS:
        return apart(f"no list of terms for {made.speech}")
    sections = [
        (name, section)
        for name, section in made.source.sections.items()
        if name != "sources" and not name.endswith("-source")
    ]
    late, never = [], []
    for term, pattern in words.TERMS[made.speech].items():
        used = [name for name, section in sections if re.search(pattern, _said(section), re.IGNORECASE)]
        told = [name for name, section in sections if _explains(section, term, pattern)]
        if used and not told and term not in words.EVERYDAY:
            never.append(f"{term} (first in {used[0]}) is never explained")
        elif used and told and told[0] != used[0]:
            late.append(f"{term} stands in {used[0]} and is explained in {told[0]}")
    other = [f"not a word of the termbase: {found}" for found in _other_terms(made)]
    return worst(never if len(never) > 2 else [], [*never, *late, *other])


def _said(section: Any) -> str:
    return " ".join(words_of(section, leave_out=is_own).split())


def _explains(section: Any, term: str, pattern: str) -> bool:
    """A sentence that begins with the term in bold, or its short form in brackets behind it, or one behind "is"."""
    if term in words.TOLD_AS:
        return re.search(words.TOLD_AS[term], _said(section), re.IGNORECASE) is not None
    for each in section.iter():
        if name_of(each) in ("strong", "dt", "h3", "h4") and re.search(
            pattern, "".join(each.itertext()), re.IGNORECASE
        ):
            return True
    text = _said(section)
    if term in words.SHORT_FORMS and words.SHORT_FORMS[term] in text:
        return True
    verbs = r"(?:is|are|tells?|means?|moves?|runs?|lets?|has|ist|sind|sagt|zählt|gibt|heißt|bedeutet|reicht|reichen)"
    return (
        re.search(
            rf"(?:{pattern})(?:,? typically)?(?:, [^,;]{{1,24}},| \d[\d.,]*)? {verbs}\b|(?:{pattern}): ",
            text,
            re.IGNORECASE,
        )
        is not None
    )


def _other_terms(made: Made) -> list[str]:
    pattern = words.NOT_TERMBASE.get(made.speech, "$^")
    return sorted(set(re.findall(pattern, prose(made))))


@item("B5")
def nothing_is_left_to_be_added_up(made: Made) -> Mark:
    """With an addition, the power for reading stands in the page for each eye, as a sum."""
    sums = {side: eyes.near_sphere(made.order.spectacles.prescription.eye(side)) for side in SIDES}
    wanted = {
        side: eyes.power_text(value, words.DECIMAL[made.speech]) for side, value in sums.items() if value is not None
    }
    if not wanted:
        return apart("no addition")
    rows: dict[tuple[int, str], dict[str | None, str]] = {}
    for number, table in enumerate(made.tags.all("/Table")):
        for cell in cells(table):
            side = named(cell.column_head, words.EYE[made.speech]) or named(cell.row_head, words.EYE[made.speech])
            rows.setdefault((number, cell.row_head), {})[side] = cell.text
    whole = [row for row in rows.values() if all(row.get(side) == text for side, text in wanted.items())]
    return worst([] if whole else [f"no row holds the reading powers {wanted}"])


@item("B6")
def it_comes_in_small_pieces(made: Made) -> Mark:
    """Words under each heading, items in each list, numbered steps, a list to tick on arrival."""
    wrong, slight = [], []
    for heading, text in _chunks(made):
        count = len(text.split())
        if count > LONG_CHUNK:
            wrong.append(f"{count} words under {heading!r}")
        elif count > CHUNK:
            slight.append(f"{count} words under {heading!r}")
    for each in (each for each in made.source.root.iter() if name_of(each) in ("ul", "ol")):
        items = [kid for kid in each if name_of(kid) == "li"]
        if len(items) > ITEMS:
            wrong.append(f"a list of {len(items)} items: {' '.join(words_of(items[0]).split())[:30]} …")
    if not made.source.all("ol"):
        wrong.append("no numbered steps")
    if not any(name_of(kid) == "li" for block in made.source.all(of="ticks") for kid in block.iter()):
        wrong.append("no list to tick on arrival")
    return worst(wrong, slight)


def _chunks(made: Made) -> Iterator[tuple[str, str]]:
    """Our own words between one heading and the next; each boxed caution is a piece of its own."""
    for name, section in made.source.sections.items():
        if name == "sources" or name.endswith("-source"):
            continue
        heading, parts = name, []
        for each in _leaves(section):
            if name_of(each) in ("h1", "h2", "h3", "aside"):
                yield heading, " ".join(parts)
                heading, parts = " ".join(words_of(each).split())[:40], []
            if not re.fullmatch(r"h\d", name_of(each)):
                parts.append(words_of(each, leave_out=lambda kid: is_figure(kid) or is_own(kid)))
            if name_of(each) == "aside":
                yield heading, " ".join(parts)
                heading, parts = name, []
        yield heading, " ".join(parts)


def _leaves(section: Any) -> Iterator[Any]:
    for kid in section:
        if name_of(kid) in ("div", "section") and "figure-row" not in classes(kid):
            yield from _leaves(kid)
        else:
            yield kid


@item("B7")
def shares_and_risks_say_of_what(made: Made) -> Mark:
    """No "1 in x", no naked per cent, one denominator; a scale of tint has its bar or line."""
    text = made.source.words
    wrong = [f"one in so many: {found!r}" for found in _ONE_IN.findall(text)]
    wrong += [f"naked per cent: {found!r}" for found in re.findall(r"\d+(?:[.,]\d+)?\s*%", text)]
    denominators = set(re.findall(r"\d (?:of|von) (\d+)\b", text)) | set(re.findall(r"\d+ (?:in|von) (\d+) ", text))
    slight = [f"several denominators: {', '.join(sorted(denominators))}"] if len(denominators) > 1 else []
    shades = [claim for claim in made.said if re.match(r"tint\.(?:.+\.)?transmittance|tint\.category$", claim)]
    if shades and not any(name.startswith("tint") for name in _figures(made)):
        slight.append("the darkness of the tint is a number without bar or line")
    return worst(wrong, slight)


def _figures(made: Made) -> list[str]:
    return [name for each in made.source.all("figure") for name in classes(each)]
