"""A proposal for [export] as TOML text, ready to be looked over: every line in doubt begins with "# ?"."""

from __future__ import annotations

import json
from collections.abc import Iterator

from explainer.orders.tables.proposal import (
    Guess,
    Sample,
    date_forms,
    guesses,
    has_words,
    is_frame_size,
    is_power,
    shop_words,
    unsigned,
    word_for,
)

DOUBT = "# ? "


def proposed_toml(sample: Sample) -> str:
    """The whole table."""
    found = guesses(sample)
    lines = [
        "# Proposed from an export. Look at each line; where one in doubt is right, take away its mark.",
        "[export]",
        *([f'encoding = "{sample.encoding}"'] if sample.encoding != "utf-8" else []),
        *_dates(sample, found),
        *_signs(sample, found),
        *_order_numbers(sample, found),
        "",
        "[export.columns]",
        *(_column(guess, sample) for guess in found),
        *_missing(found),
    ]
    for guess in found:
        if guess.column and has_words(guess.column):
            lines += ["", f"[export.values.{guess.column}]", *_words(guess.column, sample.cells(guess.heading))]
    return "\n".join(lines) + "\n"


def doubts(text: str) -> int:
    """How many lines of a proposal a person has to decide."""
    return sum(line.startswith(DOUBT) for line in text.splitlines())


def _dates(sample: Sample, found: list[Guess]) -> Iterator[str]:
    cells = [cell for guess in found if guess.column in ("date", "written") for cell in sample.cells(guess.heading)]
    forms = date_forms(cells)
    if len(forms) == 1:
        yield f'dates = "{forms[0]}"'
    elif forms:
        yield f'{DOUBT}dates = "{forms[0]}"   # or {" or ".join(forms[1:])}: no day here is after the twelfth'
    elif cells:
        yield f'{DOUBT}dates = "dd/mm/yyyy"   # not one form: {_quoted(cells[0])}'


def _signs(sample: Sample, found: list[Guess]) -> Iterator[str]:
    bare = {g.heading: unsigned(sample.cells(g.heading)) for g in found if g.column and is_power(g.column)}
    headings = [heading for heading, count in bare.items() if count]
    if headings:
        listed = ", ".join(map(_quoted, headings))
        yield f"{DOUBT}numbers_with_sign = [{listed}]"
        yield f"#   {sum(bare.values())} powers have no sign: only if the shop keeps numbers, where none means plus."


def _order_numbers(sample: Sample, found: list[Guess]) -> Iterator[str]:
    numbers = [cell for guess in found if guess.column == "order" for cell in sample.cells(guess.heading)]
    parts = []
    if numbers and all(number.startswith("#") for number in numbers):
        parts.append('drop = "#"')
    if any("/" in number for number in numbers):
        parts.append('instead_of = { "/" = "-" }')
    if parts:
        yield f"order_numbers = {{ {', '.join(parts)} }}"


def _column(guess: Guess, sample: Sample) -> str:
    sizes = is_frame_size(sample.cells(guess.heading)) if guess.column is None else ()
    if sizes:
        return f"{_quoted(guess.heading)} = {json.dumps(sizes)}   # lens width, bridge and arm as stamped"
    line = f'{_quoted(guess.heading)} = "{guess.column or ""}"'
    if guess.sure:
        return line + ("   # left out" if guess.column == "" else "")
    return f"{DOUBT}{line}"


def _missing(found: list[Guess]) -> Iterator[str]:
    columns = {guess.column for guess in found}
    ways = ({"right", "left"}, {"right_sphere", "left_sphere"}, {"text"}, {"fhir"}, {"job"})
    if not any(way <= columns for way in ways):
        yield f"{DOUBT}no heading for the prescription was found: right_sphere, left_sphere …, or text"
    for needed in ("order", "date"):
        if needed not in columns:
            yield f'{DOUBT}no heading for "{needed}" was found'


def _words(column: str, cells: list[str]) -> Iterator[str]:
    for word in shop_words(column, cells):
        ours = word_for(column, word)
        yield f'{_quoted(word)} = "{ours}"' if ours else f'{DOUBT}{_quoted(word)} = ""'


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)
