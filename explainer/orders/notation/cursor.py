"""Walking along the tokens of one eye: look, take, refuse. The grammar itself stands in the files beside this one."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import NoReturn

from explainer.errors import Fault, InputError
from explainer.optics.spectacles import Side
from explainer.orders.notation.tokens import Token
from explainer.orders.notation.words import COLLISIONS
from explainer.orders.values.texts import quoted

EXAMPLE = "a prescription such as -3.25 -1.25 x 172 Add +2.00, 2Δ base in"


@dataclass(frozen=True, slots=True)
class Rules:
    """What a text is read under: the field for messages, the language, the eye, whether odd steps are confirmed."""

    field: str
    language: str | None = None
    side: Side | None = None
    any_step: bool = False
    scale: str | None = None


@dataclass(slots=True)
class Cursor:
    """A place in a row of tokens. Faults that leave the structure clear are noted; others refuse at once."""

    text: str
    tokens: list[Token]
    rules: Rules
    bare_start: bool = False  # an eye's name without a colon stands right before the first token
    place: int = 0
    faults: list[Fault] = field(default_factory=list)

    def kind(self, ahead: int = 0) -> str:
        """The kind of the token here or further on; "end" behind the last."""
        token = self.look(ahead)
        return token.kind if token else "end"

    def look(self, ahead: int = 0) -> Token | None:
        """The token here or further on."""
        place = self.place + ahead
        return self.tokens[place] if 0 <= place < len(self.tokens) else None

    def take(self, *kinds: str) -> Token | None:
        """The token here if it is of one of these kinds; then the cursor moves on."""
        token = self.look()
        if token is None or token.kind not in kinds:
            return None
        self.place += 1
        return token

    def label(self, *kinds: str) -> Token | None:
        """A word of these kinds with the colon or equals sign that may follow it."""
        token = self.take(*kinds)
        if token:
            self.take("colon")
        return token

    def between(self, *more: str) -> bool:
        """One separator or connecting word, if it stands here. Two in a row, or one at the end, have lost something."""
        token = self.take("sep", "and", *more)
        if token and self.kind() in ("sep", "and", "cx", "end"):
            self.refuse(token, "something on both sides of a separator; a dash in the place of what is empty")
        return token is not None

    def spelled(self, token: Token | None) -> str:
        """The token as it stands in the text, for a message."""
        if token is None:
            return "nothing"
        return quoted(self.text[token.start : token.end] or f"{token.sign.strip('+')}{token.value}")

    def note(self, token: Token | None, accepted: str, found: str | None = None) -> None:
        """Keep a fault and read on."""
        self.faults.append(Fault(self.rules.field, found or self.spelled(token), accepted))

    def refuse(self, token: Token | None, accepted: str, found: str | None = None) -> NoReturn:
        """Keep a fault and stop."""
        self.note(token, accepted, found)
        raise InputError(self.rules.field, self.faults)

    def refuse_rest(self) -> NoReturn:
        """The token here belongs nowhere: say why, as well as can be known."""
        token = self.look()
        if token is None:
            self.refuse(None, EXAMPLE)
        if token.kind == "collides":
            self.refuse(token, COLLISIONS[token.value])
        self.refuse(token, _WHY.get(token.kind, f"nothing that is not understood; {EXAMPLE}"))


_WHY = {
    "fraction": "a prescription without visual acuity",
    "acuity": "a prescription first; acuity is no power",
    "balance": "the power of the balance lens, as the prescriber or the optician settled it",
    "contact": "a spectacle prescription; contact lenses are not read",
    "meridian": 'an axis written "x 172", or Δ behind a prism: 2.5Δ @ 37; "@" names a meridian',
    "os": COLLISIONS["os"],
    "l": COLLISIONS["l"],
    "number": "each number with its sign or name: -3.25 -1.25 x 172 Add +2.00",
    "code": "a prism's amount before its base: 2Δ base in",
    "base": "a prism's amount before its base: 2Δ base in",
    "to": "a prism's amount before its base: 2Δ base in",
    "oblique": "a prism's amount before its base: 2.5 BU&I @ 37",
    "prism": "a prism's amount and base: 2Δ base in",
    "axis": "a cylinder before its axis: -1.25 x 172",
    "stop": "decimals behind a decimal mark: -2.25",
    "empty": "a dash for the cylinder and one for the axis, or none at all",
    "both": "one eye in this place",
    "right": "each eye once, named before its numbers",
    "left": "each eye once, named before its numbers",
}
