"""The front door for written prescriptions: one eye, or both in one text.

Nothing is guessed and nothing is skipped. A text is read to its last character or refused with what is missing and
how to write it. The rules and forms stand in `orders.notation`.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from explainer.errors import Fault, InputError
from explainer.optics.spectacles import SIDES, Side
from explainer.orders.fhir.lens import lens
from explainer.orders.notation.block import block
from explainer.orders.notation.cursor import EXAMPLE, Cursor, Rules
from explainer.orders.notation.eyes import Segment, segments
from explainer.orders.notation.lists import split
from explainer.orders.notation.pair import shared_lengths, with_addition, with_near, with_pds
from explainer.orders.notation.reading import Pair, Reading
from explainer.orders.notation.records import is_records, records
from explainer.orders.notation.table import said_in_lines
from explainer.orders.notation.tokens import Token, clean, tokens_of
from explainer.orders.values.files import json_object

Whom = Literal["right", "left", "eye"]
"""Whose numbers they are; "eye" where the text does not say."""

_BOTH_EYES = "both eyes, each named before its numbers: R -3.25 DS / L -2.75 -0.50 x 8"


def parse_eye(
    text: str,
    *,
    language: str | None = None,
    side: Side | None = None,
    field: str = "prescription",
    any_step: bool = False,
    axis_scale: str | None = None,
) -> Reading:
    """One eye's prescription as written. `side` is the eye the place in the file names, if it names one."""
    rules = Rules(field, tongue(language), side, any_step, axis_scale)
    if text.lstrip()[:1] in ('"', "{"):
        return _fhir_lens(text, rules)
    whole, parts = _segments(text, rules)
    if len(parts) != 1 or parts[0].whose == "both":
        twice = len({part.whose for part in parts}) < len(parts)
        found = "one eye named twice" if twice else "more than one eye"
        raise InputError(field, [Fault(field, found, "the prescription of one eye in this place")])
    named = parts[0].whose
    if side and named not in (None, side):
        accepted = f"the {side} eye in this place"
        raise InputError(field, [Fault(field, f"the {named} eye", accepted)])
    return _read(whole, parts[0], replace(rules, side=side or named))


def parse_pair(
    text: str,
    *,
    language: str | None = None,
    field: str = "prescription",
    any_step: bool = False,
    axis_scale: str | None = None,
) -> Pair:
    """Both eyes of one text, each named in it; or the records of a lens job, right;left."""
    rules = Rules(field, tongue(language), None, any_step, axis_scale)
    if is_records(text):
        return records(text, rules)
    whole, tokens = _tokens(text, rules)
    lists = split(tokens, whole)
    pair = _pair_of(whole, lists.far, rules)
    if lists.addition:
        pair = with_addition(pair, block(Cursor(whole, lists.addition, rules)), rules)
    if lists.near:
        pair = with_near(pair, _pair_of(whole, lists.near, rules), rules, far_is_named=lists.far_is_named)
    if lists.pds_mm:
        pair = with_pds(pair, lists.pds_mm, rules)
    return shared_lengths(pair, rules)


def _pair_of(whole: str, tokens: list[Token], rules: Rules) -> Pair:
    parts = segments(tokens, expected=None)
    sides = [part.whose for part in parts]
    field = rules.field
    twice = next((side for side in sides if side and sides.count(side) > 1), None)
    if twice:
        raise InputError(field, [Fault(field, f"the {twice} eye twice", "each eye once")])
    if None in sides:
        raise InputError(field, [Fault(field, "numbers before an eye is named", _BOTH_EYES)])
    missing = [side for side in SIDES if side not in sides] if "both" not in sides or len(sides) == 2 else []
    if missing:
        raise InputError(field, [Fault(field, f"nothing for the {missing[0]} eye", _BOTH_EYES)])
    pair = Pair(**{side: _of_side(whole, parts, replace(rules, side=side)) for side in SIDES})
    if (pair.right.add_d is None) != (pair.left.add_d is None):
        accepted = 'an addition for each eye, or "Add +2.00 both eyes"'
        raise InputError(field, [Fault(field, "an addition for one eye only", accepted)])
    return pair


def parse_written(text: str, *, language: str | None = None, field: str = "prescription") -> dict[Whom, Reading]:
    """Whatever the text speaks of: both eyes, one named eye, or one eye without a name."""
    if not is_records(text):
        rules = Rules(field, tongue(language))
        fragment = text.lstrip()[:1] in ('"', "{")
        whose = [] if fragment else [part.whose for part in _segments(text, rules)[1]]
        if fragment or whose in ([None], ["right"], ["left"]):
            reading = parse_eye(text, language=language, field=field)
            return {reading.side or "eye": reading}
    pair = parse_pair(text, language=language, field=field)
    return {"right": pair.right, "left": pair.left}


def tongue(language: str | None) -> str | None:
    """The primary part of a language tag, in which words are looked up: "de" of "de-AT"."""
    return language.replace("_", "-").split("-")[0].lower() if language else None


def _tokens(text: str, rules: Rules) -> tuple[str, list[Token]]:
    """The text and its tokens; a table is first said in lines."""
    whole, folded = clean(text, field=rules.field)
    lines = said_in_lines(text, language=rules.language, field=rules.field) if "\n" in folded.strip() else None
    if lines is not None:
        whole, folded = clean(lines, field=rules.field)
    return whole, tokens_of(folded, language=rules.language)


def _segments(text: str, rules: Rules) -> tuple[str, list[Segment]]:
    whole, tokens = _tokens(text, rules)
    parts = segments(tokens, expected=rules.side)
    if not any(part.tokens for part in parts):
        raise InputError(rules.field, [Fault(rules.field, "no power", EXAMPLE)])
    return whole, parts


def _fhir_lens(text: str, rules: Rules) -> Reading:
    """One lens cut out of a FHIR file, with its braces or without."""
    whole = clean(text, field=rules.field)[0].strip()
    data = json_object(whole if whole.startswith("{") else f"{{{whole}}}", source=rules.field)
    found = lens(data, field=rules.field, any_step=rules.any_step, fragment=True)
    if rules.side not in (None, found.side):
        raise InputError(
            rules.field, [Fault(rules.field, f"the {found.side} eye", f"the {rules.side} eye in this place")]
        )
    return found.reading


def _of_side(whole: str, parts: list[Segment], rules: Rules) -> Reading:
    """The reading of one eye, with what is said of both eyes joined to it."""
    own = [_read(whole, part, rules) for part in parts if part.whose == rules.side]
    shared = [_read(whole, part, rules) for part in parts if part.whose == "both"]
    if not own or not shared:
        return (own or shared)[0]
    first, second = own[0], shared[0]
    only_add = replace(second, add_d=None, received="") == Reading(side=rules.side)
    if not only_add or first.add_d is not None:
        accepted = "beside the two eyes at most one addition for both"
        raise InputError(rules.field, [Fault(rules.field, "values for both eyes and for one", accepted)])
    return replace(first, add_d=second.add_d, received=f"{first.received} {second.received}")


def _read(whole: str, part: Segment, rules: Rules) -> Reading:
    if not part.tokens:
        raise InputError(rules.field, [Fault(rules.field, f"nothing for the {part.whose} eye", EXAMPLE)])
    return block(Cursor(whole, part.tokens, rules, part.bare))
