"""The road: who may drive in this pair, when, and which other glasses are needed. No ban beyond the figures."""

from __future__ import annotations

from explainer.optics.claims.ledger import Asked
from explainer.optics.claims.situations.asking import both_eyes, child, design, reactive, told
from explainer.optics.claims.situations.pair import plano_pair, prism

_DRIVING = ("driving", "night-driving", "motorcycle")
_ASKED = (*_DRIVING, "cycling", "screen", "reading", "close-work", "outdoors", "snow", "water", "sport", "workshop")


def light_reactive(ask: Asked) -> bool:
    """Light-reactive lenses."""
    return reactive(ask)


def clear_glasses(ask: Asked) -> bool:
    """A tint that stays too dark for dusk and night: clear glasses are needed too."""
    return ask.value("tint.class") == "fixed" and ask.value("drive.night") == "no" and not unknown(ask)


def clearing(ask: Asked) -> bool:
    """Light-reactive lenses need time to clear."""
    return reactive(ask) and bool(ask.value("tint.tail"))


def never(ask: Asked) -> bool:
    """No driving at any hour: too dark, unknown, or for near only."""
    return too_dark(ask) or unknown_tint(ask) or near_only(ask)


def too_dark(ask: Asked) -> bool:
    """Darker than any road allows."""
    return not child(ask) and ask.value("tint.class") == "fixed" and ask.value("drive.day") == "no"


def unknown(ask: Asked) -> bool:
    """A fixed tint that nobody described."""
    return ask.value("tint.class") == "fixed" and ask.value("drive.day") is None


def unknown_tint(ask: Asked) -> bool:
    """The same, for a driver: no permission follows from what is not known."""
    return not child(ask) and unknown(ask)


def near_only(ask: Asked) -> bool:
    """Reading glasses blur the road."""
    return not child(ask) and design(ask) == "reading"


def fixed_dark(ask: Asked) -> bool:
    """Dark all the time: not at dusk or at night."""
    return not child(ask) and clear_glasses(ask) and not too_dark(ask) and not near_only(ask)


def night_tint(ask: Asked) -> bool:
    """Only when clear again."""
    return not child(ask) and reactive(ask) and ask.value("drive.night") == "when-clear" and not near_only(ask)


def stays_dark(ask: Asked) -> bool:
    """Light-reactive lenses that stay too dark for the night even when clear, by the workshop's data."""
    return not child(ask) and reactive(ask) and ask.value("drive.night") == "no" and not near_only(ask)


def not_ordered(ask: Asked) -> bool:
    """Uses were given, and driving is not among them."""
    if child(ask) or never(ask):
        return False
    asked = [use for use in _ASKED if ask.value(f"wearer.use.{use}")]
    return bool(asked) and not set(asked) & set(_DRIVING) and told(ask, "road.not_ordered")


def double(ask: Asked) -> bool:
    """Prism: who sees double must not drive."""
    return not child(ask) and not near_only(ask) and both_eyes(ask) and prism(ask) and told(ask, "road.double")


def one_eye(ask: Asked) -> bool:
    """New to one eye: somebody else decides."""
    return not child(ask) and not never(ask) and not both_eyes(ask) and told(ask, "road.one_eye")


def changed(ask: Asked) -> bool:
    """A change that the wearer will notice."""
    return not child(ask) and not never(ask) and bool(ask.value("caution.big_change"))


def settling(ask: Asked) -> bool:
    """New lenses with a power, without a change that is known to be great."""
    return not child(ask) and not never(ask) and not plano_pair(ask) and not changed(ask)


def strong_sun(ask: Asked) -> bool:
    """Light-reactive lenses on record get darker than any road allows."""
    return not child(ask) and not never(ask) and reactive(ask) and ask.value("drive.day") == "not-when-darkest"


def glare(ask: Asked) -> bool:
    """A driver in a closed car with light-reactive lenses."""
    return not child(ask) and not never(ask) and reactive(ask) and told(ask, "road.glare")


def open_air(ask: Asked) -> bool:
    """Nothing between the sun and the lens: open cars and motorcycles, as ordered."""
    return glare(ask) and bool(ask.value("wearer.use.motorcycle"))


def driving(ask: Asked) -> str | None:
    """Whether one can drive in them, in a word."""
    if child(ask):
        return None
    if never(ask):
        return "never"
    if not_ordered(ask):
        return "ask"
    if reactive(ask) or ask.value("drive.night") == "no":
        return "by-day"
    return "yes"


def plate(ask: Asked) -> bool:
    """Where the law asks a driver to read a number plate."""
    return not child(ask) and not never(ask) and ask.value("country.plate") is not None


RULES = {
    "say.reactive": light_reactive,
    "know.clear_glasses": clear_glasses,
    "know.clearing": clearing,
    "drive.too_dark": too_dark,
    "drive.unknown_tint": unknown_tint,
    "drive.near_only": near_only,
    "drive.never": never,
    "drive.fixed_dark": fixed_dark,
    "drive.night_tint": night_tint,
    "drive.stays_dark": stays_dark,
    "drive.not_ordered": not_ordered,
    "drive.double": double,
    "drive.one_eye": one_eye,
    "drive.changed": changed,
    "drive.settling": settling,
    "drive.strong_sun": strong_sun,
    "drive.glare": glare,
    "drive.open": open_air,
    "know.open_air": open_air,
    "drive.plate": plate,
    "pair.driving": driving,
}
