"""The one function that turns a claim into characters: sign, minus, decimal mark, range, unit."""

from __future__ import annotations

import math
from datetime import date

from explainer.errors import MissingText
from explainer.optics.claim import Claim, Interval
from explainer.optics.claims.rounding import rounded
from explainer.optics.claims.statements import Rounding, statement
from explainer.render.labels import NAMES, WORDS
from explainer.render.language import Language
from explainer.render.situation_words import SITUATION_WORDS
from explainer.surroundings import dates

_WORDS = WORDS | SITUATION_WORDS
MINUS = "\N{MINUS SIGN}"
_METRES_FROM_CM, _FEET_FROM_CM = 99.5, 183.0
_SIGNED = frozenset({"D"})
_READING = ".reading"


def _(message: str) -> str:
    """Marks a message for extraction."""
    return message


BARE = "%(number)s"
UNIT_WORDS = {
    "D": _("%(number)s D"),
    "prism_D": _("%(number)s Δ"),
    "deg": _("%(number)s°"),
    "mm": _("%(number)s mm"),
    "cm": _("%(number)s cm"),
    "m": _("%(number)s m"),
    "g": _("%(number)s g"),
    "nm": _("%(number)s nm"),
    "mrad": _("%(number)s mrad"),
    "percent": _("%(number)s %%"),
    "inch": _("%(number)s inches"),
    "foot": _("%(number)s feet"),
    "celsius": _("%(number)s °C"),
    "fahrenheit": _("%(number)s °F"),
    "s": _("%(number)s seconds"),
    "min": _("%(number)s minutes"),
    "days": _("%(number)s days"),
    "years": _("%(number)s years"),
    "m/s": _("%(number)s m/s"),
    "ratio": BARE,
    "count": BARE,
    "category": BARE,
}
RANGE = _("%(low)s to %(high)s")


PRISM_BASES = {
    ("horizontal", True): _("%(amount)s base in"),
    ("horizontal", False): _("%(amount)s base out"),
    ("vertical", True): _("%(amount)s base up"),
    ("vertical", False): _("%(amount)s base down"),
}


def claim_text(claim: Claim, language: Language, *, bare: bool = False) -> str:
    """A claim's value as the reader sees it, not isolated. `bare` leaves the unit, never the sign, to the head."""
    if claim.unit == "word":
        return word_text(claim, language)
    if isinstance(claim.value, bool | str):
        raise MissingText(f"claim {claim.id} is {claim.value!r}; it has no number to print")
    if bare:
        signed = claim.unit in _SIGNED and not statement(claim.id).size
        return _bare(claim.value, _digits(claim), language, signed=signed, rounding=statement(claim.id).rounding)
    if claim.id.removesuffix(_READING).endswith((".prism.horizontal", ".prism.vertical")):
        return _prism(claim, language)
    if claim.unit == "s":
        return _duration(claim.value, language)
    if claim.unit == "cm":
        return _length(claim, language)
    size, rounding = statement(claim.id).size, statement(claim.id).rounding
    value = abs(claim.value) if size and not isinstance(claim.value, Interval) else claim.value
    text = quantity(
        value, claim.unit, _digits(claim), language, signed=claim.unit in _SIGNED and not size, rounding=rounding
    )
    if claim.unit == "celsius" and language.uses_fahrenheit and not isinstance(claim.value, Interval):
        text += f" ({quantity(claim.value * 1.8 + 32, 'fahrenheit', 0, language)})"
    return text


def quantity(
    value: float | Interval,
    unit: str,
    digits: int,
    language: Language,
    *,
    signed: bool = False,
    rounding: Rounding = "nearest",
) -> str:
    """A number or range with its unit."""
    if isinstance(value, Interval):
        number = _range(value, digits, language, signed=signed)
    else:
        number = number_text(value, digits, language, signed=signed, rounding=rounding)
    if unit not in UNIT_WORDS:
        raise MissingText(f"there are no words for the unit {unit!r}")
    words = UNIT_WORDS[unit]
    return (language.gettext(words) if words != BARE else words) % {"number": number}


def number_text(
    value: float, digits: int, language: Language, *, signed: bool = False, rounding: Rounding = "nearest"
) -> str:
    """A plain number: rounded, never minus zero, U+2212, the locale's decimal mark, Latin digits."""
    from babel.numbers import format_decimal

    shown = rounded(value, digits, rounding)
    pattern = "0" + ("." + "0" * digits if digits else "")
    text = format_decimal(abs(shown), format=pattern, locale=language.locale, numbering_system="latn")
    sign = MINUS if shown < 0 else "+" if signed and shown > 0 else ""
    return sign + text


def power_text(claim: Claim, language: Language) -> str:
    """A power with its sign and without its unit, as it stands in a prescription."""
    value = claim.value
    if isinstance(value, bool | str | Interval):
        raise MissingText(f"claim {claim.id} is {value!r}; a power is one number")
    return number_text(value, _digits(claim), language, signed=True)


def word_text(claim: Claim, language: Language) -> str:
    """The reader's word for a claim that is a member of a closed set."""
    for key in (f"{claim.id}={claim.value}", f"{claim.id.rpartition('.')[2]}={claim.value}"):
        if key in _WORDS:
            return language.gettext(_WORDS[key]) % {"name": NAMES.get(str(claim.value), "")}
    raise MissingText(f"there are no words for {claim.id} = {claim.value}")


def date_text(day: date, language: Language) -> str:
    """A date with the month as a word, since short dates are read differently in different countries."""
    return str(dates().format_date(day, format="long", locale=language.locale))


def _bare(value: float | Interval, digits: int, language: Language, *, signed: bool, rounding: Rounding) -> str:
    if isinstance(value, Interval):
        return _range(value, digits, language, signed=signed)
    return number_text(value, digits, language, signed=signed, rounding=rounding)


def _prism(claim: Claim, language: Language) -> str:
    """A prism, prescribed or read: its amount, and its base as a word instead of a sign."""
    value = claim.value
    if isinstance(value, str | Interval):
        raise MissingText(f"claim {claim.id} is {value!r}; a prescribed prism is one number")
    amount = quantity(abs(value), claim.unit, _digits(claim), language)
    direction = claim.id.removesuffix(_READING).rpartition(".")[2]
    return language.gettext(PRISM_BASES[direction, value >= 0]) % {"amount": amount}


def _digits(claim: Claim) -> int:
    """What was received or read prints digit for digit: −0.125 must not print as −0.13, nor axis 77.5 as 78."""
    value = claim.value
    if claim.unit == "count" and isinstance(value, float) and value.is_integer():
        return 0
    if isinstance(value, float) and claim.basis.value in ("ordered", "measured"):
        found = (d for d in range(claim.digits, 4) if math.isclose(value, round(value, d), abs_tol=1e-6))
        return next(found, claim.digits if claim.unit == "prism_D" else 3)  # an angle's part was not received so
    return claim.digits


def _range(value: Interval, digits: int, language: Language, *, signed: bool) -> str:
    """A range, rounded outward."""
    shown = value.outward(digits)
    ends = {name: number_text(getattr(shown, name), digits, language, signed=signed) for name in ("low", "high")}
    return ends["low"] if shown.low == shown.high else language.gettext(RANGE) % ends


def _length(claim: Claim, language: Language) -> str:
    """Centimetres, from a metre on metres; inches and feet where readers think in them. Never finer than is known."""
    value = claim.value
    assert not isinstance(value, bool | str)
    longest = value.high if isinstance(value, Interval) else value
    if language.uses_feet:
        per, unit = (2.54, "inch") if longest < _FEET_FROM_CM else (30.48, "foot")
    else:
        per, unit = (1.0, "cm") if longest < _METRES_FROM_CM else (100.0, "m")
    scaled = Interval(value.low / per, value.high / per) if isinstance(value, Interval) else value / per
    digits = claim.digits if unit in ("cm", "inch") else 1
    whole = isinstance(scaled, float) and (abs(scaled - round(scaled)) < 0.05 or scaled >= 10)
    return quantity(scaled, unit, 0 if whole else digits, language)


def _duration(value: float | Interval, language: Language) -> str:
    """Seconds up to a minute and a half, minutes above."""
    longest = value.high if isinstance(value, Interval) else value
    if longest < 90:
        return quantity(value, "s", 0, language)
    minutes = Interval(value.low / 60, value.high / 60) if isinstance(value, Interval) else value / 60
    return quantity(minutes, "min", 0, language)
