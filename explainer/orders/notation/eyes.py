"""Which tokens belong to which eye: the text is cut at the words that name an eye."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from explainer.optics.spectacles import Side
from explainer.orders.notation.tokens import Token

Whose = Literal["right", "left", "both"]
EYES: dict[str, Whose] = {"right": "right", "left": "left", "both": "both"}


@dataclass(frozen=True, slots=True)
class Segment:
    """The tokens of one eye (None: no eye named), and whether the eye's name stood bare, without a colon behind it."""

    whose: Whose | None
    tokens: list[Token]
    bare: bool = False


def segments(tokens: list[Token], *, expected: Side | None) -> list[Segment]:
    """Cut the tokens at the eye words; what stands before the first belongs to no named eye."""
    tokens = _without_brackets_round_eyes(tokens)
    if expected == "left" or any(token.kind == "right" for token in tokens):
        tokens = [_left_if_letter(token) for token in tokens]
    tokens = _without_row_number(tokens)
    cuts = [i for i, token in enumerate(tokens) if token.kind in EYES]
    ends = [*cuts[1:], len(tokens)]
    head = tokens[: cuts[0]] if cuts else tokens
    head = _before_an_eye(head) if len(head) > 1 and cuts else head
    found = [] if not head or _is_heading(head) else [Segment(None, head)]
    for start, end in zip(cuts, ends, strict=bool(cuts)):
        behind = tokens[start + 1 : end]
        _add(found, tokens[start], _before_an_eye(behind) if end < len(tokens) else behind)
    return found


def _add(found: list[Segment], eye: Token, behind: list[Token]) -> None:
    whose = EYES[eye.kind]
    colon = bool(behind) and behind[0].kind == "colon"
    body = behind[1:] if colon or (behind and behind[0].value in (",", ";")) else behind
    last = found[-1] if found else None
    if last and not last.tokens and last.whose == whose:
        found[-1] = Segment(whose, body, bare=not colon)  # RIGHT (OD): the same eye named twice over
    elif whose == "both" and not body and last and (kept := _addition_at_end(last.tokens)) is not None:
        found[-1] = Segment(last.whose, _before_an_eye(last.tokens[:kept]), last.bare)  # ... Add +2.00 both eyes
        found.append(Segment("both", [token for token in last.tokens[kept:] if token.kind != "for"]))
        if not found[-2].tokens and found[-2].whose is None:
            del found[-2]
    else:
        found.append(Segment(whose, body, bare=not colon))


def _addition_at_end(tokens: list[Token]) -> int | None:
    """Where "Add +2.00 for" begins, if the tokens end with it."""
    end = len(tokens) - 1 if tokens and tokens[-1].kind == "for" else len(tokens)
    if end < 2 or tokens[end - 1].kind != "number":
        return None
    label = end - 3 if tokens[end - 2].kind == "colon" else end - 2
    return label if label >= 0 and tokens[label].kind == "add" else None


def _left_if_letter(token: Token) -> Token:
    """L, which may also mean "for distance": beside an R, or where the left eye is expected, it is the left eye."""
    return Token("left", "", token.start, token.end) if token.kind == "l" else token


def _without_brackets_round_eyes(tokens: list[Token]) -> list[Token]:
    drop: set[int] = set()
    for i in range(1, len(tokens) - 1):
        if tokens[i].kind in EYES and tokens[i - 1].kind == "open" and tokens[i + 1].kind == "close":
            drop |= {i - 1, i + 1}
    return [token for i, token in enumerate(tokens) if i not in drop]


def _without_row_number(tokens: list[Token]) -> list[Token]:
    """A table's row number, 1 or 2, right before the first eye's name."""
    for length in (1, 2):
        head = tokens[:length]
        behind = tokens[length] if len(tokens) > length else None
        if head and behind and behind.kind in EYES and head[0].kind == "number":
            numbered = head[0].value in ("1", "2") and not head[0].sign
            return tokens[length:] if numbered and all(t.kind in ("stop", "close") for t in head[1:]) else tokens
    return tokens


def _is_heading(tokens: list[Token]) -> bool:
    """A word such as "Rx:" or "distance:" before the first eye."""
    kinds = [token.kind for token in tokens if token.kind not in ("colon", "sep")]
    return bool(kinds) and all(kind in ("rx", "distance", "for") for kind in kinds)


def _before_an_eye(tokens: list[Token]) -> list[Token]:
    """Without the separator or the "and" that leads to the next eye."""
    return tokens[:-1] if tokens and tokens[-1].kind in ("sep", "and") else tokens
