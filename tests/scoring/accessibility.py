"""Block D of the sheet: whether everybody can read it, with eyes, ears or a copy of the text."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from itertools import pairwise

import page as validator
import pikepdf
from scoring import colour, mail
from scoring.leaflet import Made
from scoring.marks import Mark, apart, item, worst
from scoring.source import name_of
from scoring.tagged import drawn, joined

from explainer.figures import draw
from explainer.figures.cache import cached
from explainer.render.figures import label_text

PRESCRIPTION = frozenset({"dial", "ladder"})  # figures whose values may not be lost
TEXT_CONTRAST, LINE_CONTRAST = 7.0, 3.0
_SCALES = re.compile(r"tick|scale_bar|at_celsius|category_\d|step$|one_rung")
_NUMBER = re.compile(r"\d+(?:[.,]\d+)?")
_LIST_MARKS = re.compile(r"•|\d+\.")


@item("D1")
def it_passes_pdf_ua(made: Made) -> Mark:
    """The machine rules of PDF/UA-1 (ISO 14289-1)."""
    report = validator.validate_pdf_bytes(made.pdf, profile=validator.ValidationProfile.PDF_UA_1)
    wrong = [f"{failure.rule_id}: {failure.message}"[:90] for failure in report.failures]
    return worst(wrong if wrong or report.is_compliant else ["not compliant"])


@item("D2")
def it_is_read_aloud_in_order(made: Made) -> Mark:
    """Title, language, languages of foreign runs, headings without gaps, bookmarks, and the order of the source."""
    root = made.opened.Root
    wrong = []
    if not ("/ViewerPreferences" in root and root.ViewerPreferences.get("/DisplayDocTitle", False)):
        wrong.append("the title is not shown")
    if made.order.number not in str(made.opened.docinfo.get("/Title", "")):
        wrong.append("the title does not name the order")
    if str(root.get("/Lang", "")) != made.case.language:
        wrong.append(f"language {root.get('/Lang', 'missing')} instead of {made.case.language}")
    foreign = {each.get("lang") for each in made.source.root.iter() if each.get("lang")} - {made.case.language}
    wrong += [f"no run is marked as {lang}" for lang in foreign if lang not in {n.lang for n in made.tags.walk()}]
    levels = [int(node.kind[2:]) for node in made.tags.walk() if re.fullmatch(r"/H\d", node.kind)]
    if levels[:1] != [1] or any(after - before > 1 for before, after in pairwise(levels)):
        wrong.append(f"headings jump: {levels[:6]}")
    if "/Outlines" not in root or int(root.Outlines.get("/Count", 0)) == 0:
        wrong.append("no bookmarks")
    return worst([*wrong, *_out_of_order(made), *_said_otherwise(made)])


def _out_of_order(made: Made) -> Iterator[str]:
    """The first place where what is read aloud is not what is written; list marks are made by the engine."""
    written = _words(made.source.words)
    spoken = _without_list_marks(written, _words(made.tag_text))
    if spoken != written:
        at = next((n for n, (a, b) in enumerate(zip(written, spoken, strict=False)) if a != b), len(spoken))
        yield f"read aloud: {' '.join(spoken[at : at + 5])!r}, written: {' '.join(written[at : at + 5])!r}"


def _without_list_marks(written: list[str], spoken: list[str]) -> list[str]:
    """What is spoken without "1." and the like that the source does not have at that place."""
    kept: list[str] = []
    for word in spoken:
        place = len(kept)
        if _LIST_MARKS.fullmatch(word) and (place >= len(written) or written[place] != word):
            continue
        kept.append(word)
    return kept


@item("D3")
def figures_speak_their_values(made: Made) -> Mark:
    """Each figure has an alternative text with the values of its labels; heads of tables know what they head."""
    printed = made.tags.all("/Figure")
    wrong, slight = [f"a figure on page {page} without words" for page in _silent(made)], []
    for name, request in made.document.figures.items():
        images = [
            image.get("alt") or ""
            for each in made.source.all("figure", of=name)
            for image in each.iter()
            if name_of(image) == "img"
        ]
        if not images:
            continue
        if not any(node.alt == images[0] for node in printed):
            wrong.append(f"{name}: its words are not in the PDF")
        spoken = set(_NUMBER.findall(images[0]))
        drawing = cached(request.name, draw, request.values)
        shown = [
            label_text(label, made.spoken)
            for label in drawing.labels
            if label.value is not None and not _SCALES.search(label.key)
        ]
        lost = [text for text in shown if not set(_NUMBER.findall(text)) <= spoken]
        told = [f"{name}: {text!r} is in the picture and not in its words" for text in dict.fromkeys(lost)]
        (wrong if name in PRESCRIPTION else slight).extend(told)
        if len(images[0].split()) < 4:
            wrong.append(f"{name}: only {images[0]!r}")
    wrong += [
        f"a head of a table without scope: {n.text[:30]!r}" for n in made.tags.all("/TH") if not n.attribute("/Scope")
    ]
    wrong += _images_without_words(made)
    return worst(wrong, slight)


def _silent(made: Made) -> list[int]:
    pages = {page.objgen: number + 1 for number, page in enumerate(made.opened.pages)}
    return [
        pages.get(n.tag.Pg.objgen, 0) if "/Pg" in n.tag else 0 for n in made.tags.all("/Figure") if not n.alt.strip()
    ]


def _images_without_words(made: Made) -> list[str]:
    return [
        f"{each.get('src')}: no alternative text"
        for each in made.source.all("img")
        if not (each.get("alt") or "").strip()
    ]


@item("D4")
def it_can_be_seen_by_everyone(made: Made) -> Mark:
    """Text 7:1 against what lies under it, lines of figures 3:1 against white."""
    least, glyph = made.contrast
    wrong = []
    if least < TEXT_CONTRAST:
        wrong.append(f"page {glyph.page + 1}: text at {least:.1f}:1")
    wrong += [
        f"page {shape.page + 1}: a line at {ratio:.1f}:1" for ratio, shape in colour.pale_lines(made, LINE_CONTRAST)
    ]
    return worst(wrong[:1] + sorted(set(wrong[1:])))


@item("D5")
def copied_text_is_the_source(made: Made) -> Mark:
    """The words that a copy of the text gives are the words of the source; true minus; every font inside."""
    pieces = _words if made.spoken.direction == "ltr" else _letters
    feet = joined([glyph for glyph in made.glyphs if glyph.artifact])
    written, copied = Counter(pieces(made.source.words)), Counter(pieces(made.text)) - Counter(pieces(feet))
    lost, added = written - copied, copied - written
    added = Counter({word: count for word, count in added.items() if not _LIST_MARKS.fullmatch(word)})
    wrong = [f"lost in copying: {', '.join(sorted(lost)[:4])}"] if lost else []
    wrong += [f"only in the copy: {', '.join(sorted(added)[:4])}"] if added else []
    wrong += [f"a hyphen for a minus: {each!r}" for each in re.findall(r"(?<![\w-])-\d[\d.,]*", _ours(made))]
    wrong += [f"unread markup: {each!r}" for each in re.findall(r"\*\*|\{\{|\{%|%\(\w*|</?\w+>", made.tag_text)[:2]]
    wrong += ["a character that stands for nothing"] if re.search("[\ufffd\ue000-\uf8ff]", made.text) else []
    wrong += [f"font not embedded: {name}" for name in _fonts_outside(made)]
    return worst(wrong)


def _words(text: str) -> list[str]:
    """Words without marks of direction; a line may end at a hyphen, so a word does too."""
    return re.sub(r"(?<=\w)-(?=\w)", "- ", re.sub(r"[\u200b-\u200f\u2060-\u2069\u00ad]", "", text)).split()


def _said_otherwise(made: Made) -> Iterator[str]:
    """Words that a tag gives for letters which are not those that it prints."""
    for said, letters in made.tags.runs():
        if said is not None and Counter(_letters(said)) != Counter(_letters(drawn(letters))):
            yield f"read aloud: {said[:40]!r}, printed: {drawn(letters)[:40]!r}"


def _ours(made: Made) -> str:
    return made.source.prose()


def _letters(text: str) -> list[str]:
    """Letters alone: where a copy is put together from the right, words come out in pieces and brackets turned."""
    return [sign for sign in text if sign.isalpha()]


def _fonts_outside(made: Made) -> list[str]:
    found = [
        each
        for each in made.opened.objects
        if isinstance(each, pikepdf.Dictionary) and str(each.get("/Type", "")) == "/FontDescriptor"
    ]
    return [str(each.FontName) for each in found if not {"/FontFile", "/FontFile2", "/FontFile3"} & set(each.keys())]


@item("D6")
def the_mail_is_for_everyone(made: Made) -> Mark:
    """A reply on every topic of the order, looked at once for each language."""
    if (made.case.edition, made.case.paper) != ("standard", "A4"):
        return apart("the replies are those of the standard edition on A4")
    return worst(mail.faults(made))
