"""Block F of the sheet: whether a translation says what the source says, and says what it is."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from typing import Any

from scoring import columns, words
from scoring.leaflet import Made
from scoring.marks import Mark, apart, item, worst
from scoring.source import classes, is_own, name_of, words_of
from scoring.tagged import joined

from explainer.compose.figures import SPARE_FIGURES

SOURCE = "en"
BODY_PT = 12


def _original(made: Made) -> Made | None:
    return made.beside(language="en-GB")


@item("F1")
def nothing_is_left_untranslated(made: Made) -> Mark:
    """No word of English outside the copies, names and citations; the blocks of the source, one for one.

    What is not translated yet and says so by its language is no fault here: F3 tells how much it is.
    """
    if made.speech == SOURCE:
        return apart("the source language")
    original = _original(made)
    if original is None:
        return Mark(0, "the source cannot be made")
    wrong = [
        f"English: {found!r}" for found in sorted(set(re.findall(words.ENGLISH, _translated(made), re.IGNORECASE)))
    ]
    given_way = _given_way(made, original)
    ours, theirs = _blocks(made, given_way), _blocks(original, given_way)
    wrong += [
        f"{name}: {ours.get(name)} instead of {theirs[name]}" for name in theirs if ours.get(name) != theirs[name]
    ]
    wrong += [f"a section {name} that the source has not" for name in ours if name not in theirs]
    return worst(wrong)


def _share(made: Made) -> list[str]:
    """How much of the page is translated, unless all is."""
    english = sum(len(text.split()) for text in _fallen_back(made))
    return [f"{english} words are not translated yet; so much is: {_part_translated(made, english)}"] if english else []


def _part_translated(made: Made, english: int) -> str:
    ours = len(_translated(made).split())
    return f"{100 * ours // (ours + english)} %"


def _fallen_back(made: Made) -> list[str]:
    """What stands in English, and says so, outside the copies of the safety words."""
    copies, found = _copies(made), []
    for each in made.source.root.iter():
        if each.get("lang") == SOURCE and id(each) not in copies:
            found.append(each.get("alt") or "".join(each.itertext()))
    return found


def _translated(made: Made) -> str:
    """The page without English copies, other people's words and titles of sources; alternative texts with it."""

    def left_out(each: Any) -> bool:
        foreign = each.get("lang") not in (None, made.case.language)
        return foreign or is_own(each) or "basis" in classes(each) or name_of(each) == "bdi"

    pictures = [each for each in made.source.all("img") if "logo" not in (each.get("src") or "")]
    alts = " ".join(each.get("alt") or "" for each in pictures if each.get("lang") != SOURCE)
    return f"{words_of(made.source.root, leave_out=left_out)} {alts}"


def _given_way(made: Made, original: Made) -> frozenset[str]:
    """Pictures of what the words say too, which one of the two had no room for."""
    spare = {name for group in SPARE_FIGURES for name in group}
    return frozenset(spare & (_figures(made).keys() ^ _figures(original).keys()))


def _figures(made: Made) -> dict[str, Any]:
    """Each figure of the page's own language by its name."""
    copies = _copies(made)
    return {
        (image.get("src") or "").removeprefix("figure:"): each
        for each in made.source.all("figure")
        if id(each) not in copies
        for image in each.iter()
        if name_of(image) == "img"
    }


def _blocks(made: Made, given_way: frozenset[str]) -> dict[str, Counter[str]]:
    kinds = ("h1", "h2", "h3", "p", "li", "table", "tr", "figure", "aside")

    def counts(each: Any) -> bool:
        empty = name_of(each) == "p" and not words_of(each).strip()  # what the parser makes of a figure in a paragraph
        return name_of(each) in kinds and not classes(each) & given_way and not empty

    return {
        name: Counter(name_of(each) for each in section.iter() if counts(each))
        for name, section in made.source.sections.items()
        if not name.endswith("-source")
    }


@item("F2")
def numbers_are_those_of_the_source(made: Made) -> Mark:
    """Claim by claim the same value, sign and unit; in text, labels and words of figures; no foreign decimal mark."""
    if made.speech == SOURCE:
        return apart("the source language")
    original = _original(made)
    if original is None:
        return Mark(0, "the source cannot be made")
    ours, theirs = _values(made), _values(original)
    wrong = [
        f"{claim}: {ours.get(claim)} instead of {theirs[claim]}" for claim in theirs if ours.get(claim) != theirs[claim]
    ]
    wrong += [f"{claim} is not in the source" for claim in ours if claim not in theirs]
    wrong += list(_other_numbers(made, original))
    decimal = words.DECIMAL[made.speech]
    other = "," if decimal == "." else "."
    english = {id(kid) for each in made.source.root.iter() if each.get("lang") == SOURCE for kid in each.iter()}
    own = [each for each in made.source.root.iter() if "data-claim" in each.attrib and id(each) not in english]
    strange = [text for text in ("".join(each.itertext()) for each in own) if re.search(rf"\d\{other}\d", text)]
    wrong += [f"decimal mark: {text}" for text in strange]
    return worst(wrong)


def _values(made: Made) -> dict[str, list[tuple[str, ...]]]:
    found: dict[str, list[tuple[str, ...]]] = {}
    copies = _copies(made)
    for each in made.source.root.iter():
        if "data-claim" in each.attrib and id(each) not in copies:
            text = "".join(each.itertext())
            found.setdefault(each.get("data-claim"), []).append(_normal(text, made))
    return found


def _normal(text: str, made: Made) -> tuple[str, ...]:
    """Numbers with their signs and the unit signs, in the source's writing."""
    plain = re.sub("[\u2066-\u2069]", "", text).replace(words.DECIMAL[made.speech], ".")
    for unit, own in words.UNITS.get(made.speech, {}).items():
        plain = re.sub(rf"(?<=\d\s){own}(?!\w)", unit, plain)
    return tuple(re.findall(r"[+\u2212]?\d+(?:\.\d+)?|°C|°|Δ|\bD\b|\bmm\b|\bcm\b|\bnm\b|\bg\b|\bm\b", plain))


def _copies(made: Made) -> set[int]:
    """Everything inside the copies of the safety words, which stand in English on purpose."""
    copies = [section for name, section in made.source.sections.items() if name.endswith("-source")]
    return {id(kid) for copy in copies for kid in copy.iter()}


def _other_numbers(made: Made, original: Made) -> Iterator[str]:
    ours, theirs = _figures(made), _figures(original)
    for name in sorted((ours.keys() | theirs.keys()) - _given_way(made, original)):
        if name not in ours or name not in theirs or _shown(ours[name], made) != _shown(theirs[name], original):
            yield f"{name}: other numbers in its words or on it"


def _shown(figure: Any, made: Made) -> tuple[list[tuple[str, ...]], list[tuple[str, ...]]]:
    """The numbers in the alternative texts of a figure, and those on its labels."""
    words_ = [each.get("alt") or "" for each in figure.iter() if name_of(each) == "img"]
    labels = [words_of(each) for each in figure.iter() if "label" in classes(each)]
    told = sorted(tuple(sorted(_normal(text, made))) for text in words_)
    return told, sorted(_normal(text, made) for text in labels)


@item("F3")
def words_are_those_of_the_termbase(made: Made) -> Mark:
    """Terms, one way of address; whether a native optician has signed, and how much is translated."""
    if made.speech == SOURCE:
        return apart("the source language")
    text = _translated(made)
    wrong = [
        f"not of the termbase: {found}"
        for found in sorted(set(re.findall(words.NOT_TERMBASE.get(made.speech, "$^"), text)))
    ]
    if made.speech in words.INFORMAL:
        wrong += [f"informal: {found!r}" for found in sorted(set(re.findall(words.INFORMAL[made.speech], text)))]
    for side in ("right", "left"):
        if not re.search(words.EYE[made.speech][side], text, re.IGNORECASE):
            wrong.append(f"no word for the {side} eye")
    unsigned = ["no native optician has signed the terms"] if made.spoken.is_draft else []
    return worst(wrong, [*unsigned, *_share(made)])


@item("F4")
def a_draft_says_so(made: Made) -> Mark:
    """Notice in body size on the first page; urgent box and cautions in English too; a contact.

    A page on which anything is not translated is a draft, whoever has signed the catalogue.
    """
    if made.speech == SOURCE:
        return apart("the source language")
    if not (made.spoken.is_draft or _fallen_back(made)):
        return worst([])
    wrong = []
    notices = [" ".join(words_of(each).split()) for each in made.source.all(of="draft")]
    letters = columns.letters_of(made, notices[0]) if notices else []
    if not letters or {glyph.page for glyph in letters} != {0} or min(glyph.size for glyph in letters) < BODY_PT:
        wrong.append("no notice of the draft in body size on the first page")
    workshop = made.order.workshop
    if not any(
        getattr(workshop, name, None) and str(getattr(workshop, name)) in made.text for name in ("phone", "email")
    ):
        wrong.append("nobody to ask")
    return worst([*wrong, *_lost_copies(made)])


def _lost_copies(made: Made) -> Iterator[str]:
    """The source's urgent box and cautions must be in the finished page, marked as English."""
    original = _original(made)
    if original is None:
        yield "the source cannot be made"
        return
    english = {" ".join(n.text.split()) for n in made.tags.walk() if n.lang.startswith(SOURCE)}
    whole = "".join(" ".join(english).split())
    for text in columns.cautions(original):
        if not columns.letters_of(made, text):
            yield f"no English copy of {text[:40]!r}"
        elif "".join(text.split())[:30] not in whole.replace("•", ""):
            yield f"the English copy of {text[:30]!r} is not marked as English"


@item("F5")
def it_runs_from_right_to_left(made: Made) -> Mark:
    """Base direction, signs at the left of their numbers on the drawn page, the dial as in the source."""
    if made.spoken.direction == "ltr":
        return apart("runs from left to right")
    wrong = [] if made.source.all("html")[0].get("dir") == "rtl" else ["the page does not run from right to left"]
    wrong += [
        f"page {sign.page + 1}: a sign on the wrong side near {joined(near)!r}" for sign, near in _turned_signs(made)
    ]
    return worst(wrong)


def _turned_signs(made: Made) -> Iterator[Any]:
    found = [glyph for glyph in made.glyphs if glyph.text.strip()]
    for sign in (glyph for glyph in found if glyph.text in "−+"):
        line = sorted((g for g in found if g.page == sign.page and abs(g.y - sign.y) < 0.5), key=lambda g: g.x)
        after = next((g for g in line if g.x > sign.x), None)
        if after is None or not after.text.isdigit() or after.x - sign.x - sign.advance >= 0.2 * sign.size:
            yield sign, line[:12]
