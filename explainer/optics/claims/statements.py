"""The closed list of everything the core may state: statement, unit, digits, and the words a word may take."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Literal, get_args

from explainer.errors import FactError
from explainer.optics.claim import Interval, Value
from explainer.optics.facts import FOLDER

UNITS = frozenset(
    {"D", "prism_D", "deg", "mm", "cm", "g", "percent", "ratio", "count", "mrad", "nm", "s", "celsius", "years"}
    | {"days", "min", "word", "yes-no", "category"}
)
Rounding = Literal["nearest", "down", "away"]
_PARTS = {"<eye>": "(right|left)", "<material>": r"([a-z0-9_.-]+)"}
_EYE_NAMES = {"right": "right lens", "left": "left lens", "pair": "the pair"}


@dataclass(frozen=True, slots=True)
class Statement:
    """What a claim id means: the sentence for the evidence table, and what its value may be."""

    pattern: str
    says: str
    unit: str
    digits: int
    size: bool
    among: tuple[str, ...]
    low: float | None
    high: float | None
    rounding: Rounding

    def check(self, claim_id: str, value: Value) -> None:
        """Refuses a value of the wrong kind or outside the stated range."""
        if self.unit == "word":
            if value not in self.among:
                raise FactError(f"claim {claim_id} = {value!r} is not one of {', '.join(self.among)}")
        elif self.unit == "yes-no":
            if not isinstance(value, bool):
                raise FactError(f"claim {claim_id} = {value!r} is not yes or no")
        else:
            self._check_range(claim_id, value)

    def _check_range(self, claim_id: str, value: Value) -> None:
        if isinstance(value, str | bool):
            raise FactError(f"claim {claim_id} = {value!r} is not a number")
        low, high = (value.low, value.high) if isinstance(value, Interval) else (value, value)
        if (self.low is not None and low < self.low) or (self.high is not None and high > self.high):
            raise FactError(f"claim {claim_id} = {value} is outside its stated range {self.low} to {self.high}")


@lru_cache(maxsize=4096)
def statement(claim_id: str) -> Statement:
    """The statement of a claim id, its own before one for many; FactError when the core has none."""
    plain = every_statement().get(claim_id)
    if plain is not None:
        return plain
    for pattern, found in _compiled():
        if pattern.fullmatch(claim_id):
            return found
    raise FactError(f"no statement covers the claim id {claim_id}")


def sentence(claim_id: str) -> str:
    """The statement as a person reads it in the evidence table."""
    found = statement(claim_id)
    first, _, rest = claim_id.partition(".")
    names = re.findall(r"<(\w+)>", found.pattern)
    values = re.fullmatch(_as_regex(found.pattern), claim_id)
    filled = found.says
    for name, value in zip(names, values.groups() if values else (), strict=False):
        filled = filled.replace(f"<{name}>", value.replace("_", " "))
    return f"{_EYE_NAMES[first]}: {filled}" if first in _EYE_NAMES and rest else filled


@cache
def every_statement() -> Mapping[str, Statement]:
    """All statements by pattern."""
    found: dict[str, Statement] = {}
    for path in sorted(FOLDER.glob("statements*.toml")):
        with path.open("rb") as file:
            found |= {pattern: _read(pattern, entry) for pattern, entry in tomllib.load(file).items()}
    return found


@cache
def _compiled() -> tuple[tuple[re.Pattern[str], Statement], ...]:
    varied = ((pattern, entry) for pattern, entry in every_statement().items() if "<" in pattern)
    return tuple((re.compile(_as_regex(pattern)), entry) for pattern, entry in varied)


def _as_regex(pattern: str) -> str:
    parts = re.split(r"(<\w+>)", pattern)
    return "".join(_PARTS.get(part, "([a-z0-9_-]+)") if part.startswith("<") else re.escape(part) for part in parts)


def _read(pattern: str, entry: dict[str, object]) -> Statement:
    unit = str(entry.get("unit", ""))
    if unit not in UNITS:
        raise FactError(f"statement {pattern} has no unit, or an unknown one: {unit!r}")
    rounding = next((way for way in get_args(Rounding) if way == entry.get("rounding", "nearest")), None)
    if rounding is None:
        raise FactError(f"statement {pattern} is rounded in an unknown way: {entry['rounding']!r}")
    among = entry.get("among", [])
    span = entry.get("range", [None, None])
    if not isinstance(among, list) or not isinstance(span, list) or (unit == "word" and not among):
        raise FactError(f"statement {pattern} needs a list `among` of words, or a `range` of two numbers")
    return Statement(
        pattern=pattern,
        says=str(entry["says"]),
        unit=unit,
        digits=int(str(entry.get("digits", 2))),
        size=bool(entry.get("size", False)),
        among=tuple(map(str, among)),
        low=span[0],
        high=span[1],
        rounding=rounding,
    )
