"""What phrases call by name besides claims: shades, uses, signs of the first days, what changed, numbers to call."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import timedelta
from functools import partial
from typing import Any, Literal

from markupsafe import Markup

from explainer.optics.claim import Interval
from explainer.orders import Order
from explainer.orders.assembly.check_word import check_word
from explainer.render.language import Language
from explainer.render.numbers import claim_text, date_text, power_text
from explainer.render.situation_words import (
    CHANGED,
    CHANGED_NAMES,
    FROM_TO,
    GONE,
    NAMES_OF_PARTS,
    NEW,
    SHADES,
    UNUSUAL,
    USES,
    USUAL,
)
from explainer.render.voice import Voice

_NEAR_USES = frozenset({"reading", "close-work"})
Joined = Literal["standard", "or"]


def situation_context(order: Order, voice: Voice) -> dict[str, Any]:
    """Names for the templates of phrases."""
    return {
        "wearer_name": voice.words(order.wearer_name) if order.wearer_name else None,
        "check_word": voice.words(check_word(order), isolate=True),
        "order_date": _date(order, voice, 0),
        "recheck_until": _recheck(order, voice),
        "signer": _shop_words(order, voice, "signer"),
        "signed_readings": order.spectacles.readings is not None,
        "supervisor": _shop_words(order, voice, "supervisor"),
        "power": partial(_power, voice),
        "shade": partial(_shade, voice),
        "uses": partial(_uses, voice),
        "usual_signs": partial(_signs, voice, USUAL, "standard"),
        "unusual_signs": partial(_signs, voice, UNUSUAL, "or"),
        "changed_names": partial(_changed_names, voice),
        "changed_parts": partial(_changed, voice),
        "emergency_number": lambda: _number(order, voice, "emergency"),
        "health_line": lambda: _number(order, voice, "health_line"),
    }


def listed(messages: Iterable[str], language: Language, joined: Joined = "standard") -> str:
    """Words in a row as the language joins them: with its commas, its "and" or its "or"."""
    from babel.lists import format_list

    return format_list([language.gettext(message) for message in messages], style=joined, locale=language.locale)


def _shop_words(order: Order, voice: Voice, name: str) -> Markup | None:
    text = getattr(order.workshop, name, None)
    return voice.words(text) if text else None


def _date(order: Order, voice: Voice, days: int) -> Markup:
    day = (order.posted or order.date) + timedelta(days=days)
    return voice.phrase(partial(date_text, day), apart=True)


def _recheck(order: Order, voice: Voice) -> Markup | None:
    """The last day of the free check: posting, delivery, and the workshop's days."""
    days = recheck_days(order)
    return None if days is None else _date(order, voice, days)


def recheck_days(order: Order) -> int | None:
    """How many days after posting the workshop still looks at a pair free of charge; None if it does not say."""
    days = getattr(order.workshop, "recheck_days", None)
    return None if days is None else days + (getattr(order.workshop, "delivery_days", None) or 0)


def _shade(voice: Voice, scene: str) -> Markup | None:
    """How dark the lenses are in a scene: one word, or from the palest to the darkest."""
    names = [f"shade.{scene}.lightest", f"shade.{scene}.darkest"]
    if not all(name in voice.claims for name in names):
        return None
    pale, dark = (str(voice.claim(name).value) for name in names)

    def speak(language: Language) -> str:
        low, high = (language.gettext(SHADES[word]) for word in (pale, dark))
        return low if pale == dark else language.gettext(FROM_TO) % {"low": low, "high": high}

    return voice.phrase(speak)


def _power(voice: Voice, claim_id: str) -> Markup:
    """A power as it stands in a prescription: with its sign, without its unit."""
    claim = voice.claim(claim_id)
    return voice.phrase(lambda language: power_text(claim, language))


def _uses(voice: Voice) -> Markup | None:
    """What the pair was ordered for and may be promised for."""
    claims = voice.claims
    wanted = [use for use in USES if f"wearer.use.{use}" in claims]
    if "say.near_blurred" in claims:
        wanted = [use for use in wanted if use not in _NEAR_USES]
    if claims.value("pair.driving") not in ("by-day", "yes"):
        wanted = [use for use in wanted if use not in ("driving", "motorcycle")]
    if claims.value("pair.driving") == "by-day":  # night driving is not promised, driving by day is
        wanted = list(dict.fromkeys("driving" if use == "night-driving" else use for use in wanted))
    elif claims.value("pair.driving") != "yes":
        wanted = [use for use in wanted if use != "night-driving"]
    for use in wanted:
        if f"wearer.use.{use}" in claims:
            voice.claim(f"wearer.use.{use}")
    return voice.phrase(lambda language: listed([USES[use] for use in wanted], language)) if wanted else None


def _signs(voice: Voice, words: Mapping[str, str], joined: Joined) -> Markup | None:
    """The signs that the core issued, in a row."""
    held = [name for name in words if voice.claims.value(name)]
    for name in held:
        voice.claim(name)
    return voice.phrase(lambda language: listed([words[name] for name in held], language, joined)) if held else None


def _changed_names(voice: Voice, side: str) -> Markup | None:
    """Which numbers changed since the last prescription, by their names alone."""
    parts = [part for part in NAMES_OF_PARTS if voice.claims.value(f"{side}.changed.{part}")]
    for part in parts:
        voice.claim(f"{side}.changed.{part}")

    def speak(language: Language) -> str:
        return language.gettext(CHANGED_NAMES) % {"parts": listed([NAMES_OF_PARTS[part] for part in parts], language)}

    return voice.phrase(speak) if parts else None


def _changed(voice: Voice, side: str) -> Markup | None:
    """Which numbers changed since the last prescription, with both values."""
    parts = [part for part in CHANGED if voice.claims.value(f"{side}.changed.{part}")]
    if not parts:
        return None

    def speak(language: Language) -> str:
        return listed([_change(voice, side, part, language) for part in parts], language)

    return voice.phrase(speak)


def _change(voice: Voice, side: str, part: str, language: Language) -> str:
    texts = {}
    for name in ("then", "now"):
        claim_id = f"{side}.{name}.{part}"
        if claim_id in voice.claims:
            claim = voice.claim(claim_id)
            texts[name] = claim_text(claim, language) if part == "axis" else power_text(claim, language)
    words = CHANGED if len(texts) == 2 else NEW if "now" in texts else GONE
    return language.gettext(words[part]) % texts


def _number(order: Order, voice: Voice, line: str) -> Markup | None:
    """A number to call: the workshop's own, else the country's."""
    own = getattr(order.workshop, line, None)
    if own:
        return voice.words(own)
    value = voice.claims.value(f"country.{line}")
    if value is None or isinstance(value, Interval):
        return None
    voice.claim(f"country.{line}")
    return voice.words(str(value), isolate=True)
