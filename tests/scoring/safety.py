"""Block E of the sheet: what keeps people safe, and their data private."""

from __future__ import annotations

import re
import stat
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from scoring import caution_table, columns, mail, words
from scoring.leaflet import Made
from scoring.marks import Mark, item, worst
from scoring.source import classes, name_of, words_of

from explainer.render.files import write_file
from explainer.render.leaflet import leaflet_name
from explainer.render.numbers import date_text

BOXED, CAUTION_WORDS = 5, 25


@item("E1")
def the_urgent_box_is_there(made: Made) -> Mark:
    """In its own frame on the first or last page: six signs, today, the local number, do not blame the glasses."""
    boxes = [each for each in made.source.all(of="urgent") if each.get("lang") in (None, made.case.language)]
    if not boxes:
        return Mark(0, "no urgent box")
    said = " ".join(words_of(boxes[0]).split())
    wrong = list(_lost_signs(made, boxes[0], said))
    if not re.search(words.TODAY[made.speech], said, re.IGNORECASE):
        wrong.append("does not say today")
    if not re.search(words.BLAME[made.speech], said, re.IGNORECASE):
        wrong.append("does not say that the glasses are not to blame")
    wrong += [*_numbers_of_country(made, said), *_place_and_frame(made, said)]
    return worst([*wrong, *mail.urgent_is_first(made, boxes[0])])


def _lost_signs(made: Made, box: Any, said: str) -> Iterator[str]:
    items = [each for each in box.iter() if name_of(each) == "li"]
    if len(items) < 6:
        yield f"{len(items)} signs, wanted six"
    for sign, pattern in words.SIGNS[made.speech].items():
        if not re.search(pattern, said, re.IGNORECASE):
            yield f"no {sign}"


def _numbers_of_country(made: Made, said: str) -> Iterator[str]:
    workshop = made.order.workshop
    known = words.EMERGENCY.get(getattr(workshop, "country", None) or "")
    given = set(re.findall(r"\b\d{2,3}\b", getattr(workshop, "emergency", None) or ""))
    shown = set(re.findall(r"\b\d{2,3}\b", said))
    if not given:
        yield "no emergency number"
    if given - shown:
        yield f"{', '.join(sorted(given - shown))} is not in the box"
    if known is not None and not given <= known:
        yield f"{', '.join(sorted(given - known))} is no emergency number of the country"


def _place_and_frame(made: Made, said: str) -> Iterator[str]:
    letters = columns.letters_of(made, said)
    if not letters:
        yield "the box is not whole in the page"
        return
    pages = {glyph.page for glyph in letters}
    if pages not in ({0}, {made.pages - 1}):
        yield f"on page {min(pages) + 1}, neither the first nor the last"
    left, right = min(g.x for g in letters), max(g.x + g.advance for g in letters)
    low, high = min(g.y for g in letters), max(g.y for g in letters)
    framed = any(
        shape.page == letters[0].page
        and shape.box[0] < left
        and shape.box[2] > right
        and shape.box[1] < low
        and shape.box[3] > high
        and shape.box[2] - shape.box[0] < (right - left) + 80
        and shape.box[3] - shape.box[1] < (high - low) + 120
        for shape in made.shapes
    )
    if not framed:
        yield "no frame round it"


@item("E2")
def cautions_have_three_parts(made: Made) -> Mark:
    """Hazard, consequence, what to do; a signal word on each box; at most five boxes; no triangle."""
    blocks = [each for each in made.source.root.iter() if classes(each) & {"caution", "caution-line"}]
    own = [each for each in blocks if not _is_foreign(made, each)]
    boxed = [each for each in own if "caution" in classes(each)]
    wrong = [f"{len(boxed)} boxes, at most {BOXED}"] if len(boxed) > BOXED else []
    wrong += ["no caution"] if not own else []
    slight = []
    for each in own:
        signal = [kid for kid in each.iter() if "signal" in classes(kid)]
        if each in boxed and not signal:
            wrong.append(f"no signal word: {' '.join(words_of(each).split())[:40]!r}")
        text = " ".join(words_of(each, leave_out=lambda kid: "signal" in classes(kid)).split())
        sentences = [part for part in re.split(r"(?<=[.!?:])\s+", text) if part]
        if len(sentences) < 3:
            slight.append(f"{len(sentences)} parts: {text[:40]!r}")
        if not any(name_of(kid) == "strong" for kid in each.iter()):
            slight.append(f"nothing stressed: {text[:40]!r}")
        slight += [f"{len(s.split())} words: {s[:40]!r}" for s in sentences if len(s.split()) > CAUTION_WORDS]
    wrong += ["a triangle"] if re.search("[⚠△▲]", made.tag_text) else []
    return worst(wrong, slight)


def _is_foreign(made: Made, each: Any) -> bool:
    copies = [kid for kid in made.source.root.iter() if kid.get("lang") not in (None, made.case.language)]
    return any(each is kid for copy in copies if name_of(copy) != "html" for kid in copy.iter())


@item("E3")
def cautions_fire_by_the_truth_table(made: Made) -> Mark:
    """Those the order calls for stand in the finished page, and no others."""
    said = caution_table.words(made.spoken)
    must, may = caution_table.called_for(made.order.spectacles)
    there = {name for name, (_, pattern) in said.items() if pattern.search(made.tag_text)}
    wrong = [f"missing: {name}" for name in sorted(must - there)]
    return worst([*wrong, *(f"without reason: {name}" for name in sorted(there - must - may))])


@item("E5")
def it_says_who_and_what(made: Made) -> Mark:
    """Who made it up and how to reach them, order, device, use, care, incidents, date, version, legal profile."""
    workshop = made.order.workshop
    text = made.tag_text + " " + made.text
    foot = made.text if made.spoken.direction == "ltr" else made.html  # copies of Arabic come out in pieces, see D5
    contact = [getattr(workshop, name, None) for name in ("phone", "email")]
    blocks = {
        "maker-up": bool(workshop) and " ".join(str(getattr(workshop, "name", "")).split()) in " ".join(text.split()),
        "contact": all(each is None or each in text for each in contact) and any(contact),
        "order": made.order.number in made.source.words,
        "date": date_text(made.order.date, made.spoken) in " ".join(text.split()),
        "version": bool(re.search(r"\bversion|fassung|إصدار", foot, re.IGNORECASE)),
        "care": "care" in made.source.sections,
        "legal profile": bool(re.search(words.LEGAL_PROFILE, text)),
        **{name: bool(re.search(p, text, re.IGNORECASE)) for name, p in words.DUTY.get(made.speech, {}).items()},
    }
    lost = [f"no {name}" for name, there in blocks.items() if not there]
    return worst(lost if len(lost) > 2 else [], lost)


@item("E6")
def it_keeps_what_is_private(made: Made) -> Mark:
    """No name or prescription in file name, metadata, bookmarks or what is told; the file for its owner only."""
    order = made.order
    canaries = [part for part in re.split(r"[\s-]+", order.wearer_name or "") if len(part) > 2]
    eyes_ = [order.received_right, order.received_left]
    described = {
        "file name": leaflet_name(order, made.case.edition),
        "metadata": _metadata(made),
        "bookmarks": " ".join(_titles(made.opened.Root)),
        "what is told": " ".join([*order.notes, *order.warnings]),
    }
    wrong = [
        f"{found} in the {where}"
        for where, text in described.items()
        for found in ["a name"] * any(name.lower() in text.lower() for name in canaries)
        + ["a prescription"] * any(len(eye) > 6 and eye in text for eye in eyes_)
    ]
    if _mode_of_a_file() != 0o600:
        wrong.append("the file is open to others")
    if made.html.count("http://") + made.html.count("https://"):
        wrong.append("an address on the network in the page")
    return worst([*wrong, *_unneeded(made)])


def _unneeded(made: Made) -> list[str]:
    """The year of birth is for us and not for the page."""
    age = made.order.spectacles.wearer.age_years
    if age is None:
        return []
    year = re.search(r"^birth_year = (\d{4})", made.case.order.read_text(encoding="utf-8"), re.MULTILINE)
    return ["the year of birth on the page"] if year and re.search(rf"\b{year[1]}\b", _without_sources(made)) else []


def _without_sources(made: Made) -> str:
    return " ".join(words_of(each) for name, each in made.source.sections.items() if name != "sources")


def _metadata(made: Made) -> str:
    described = str({key: str(value) for key, value in made.opened.docinfo.items()})
    if "/Metadata" in made.opened.Root:
        described += made.opened.Root.Metadata.read_bytes().decode("utf-8")
    return described


def _titles(node: Any) -> Iterator[str]:
    item_ = node.Outlines.get("/First") if "/Outlines" in node else node.get("/First")
    while item_ is not None:
        yield str(item_.get("/Title", ""))
        yield from _titles(item_)
        item_ = item_.get("/Next")


def _mode_of_a_file() -> int:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "a.pdf"
        write_file(path, b"%PDF")
        return stat.S_IMODE(path.stat().st_mode)
