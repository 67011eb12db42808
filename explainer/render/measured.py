"""What a page may say of the bench: lists of what was read, what was not, what is inside its limits and what is not.

All of them are empty where nothing was read. Inside and outside are named only where the limits are the reader's.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from markupsafe import Markup

from explainer.optics.claims.bench_said import QUANTITIES
from explainer.optics.spectacles import SIDES
from explainer.orders import Order
from explainer.render.labels import MEASURED, OF_ONE_LENS
from explainer.render.language import Language
from explainer.render.voice import Voice


def measured_context(order: Order, voice: Voice) -> dict[str, Any]:
    """The lists by the names that templates ask for, and the name of the limits."""
    at_home = "bench.standard.at_home" in voice.claims
    return {
        "read_parts": lambda: _parts(voice, "read"),
        "unread_parts": lambda: _parts(voice, "not_read"),
        "inside_parts": lambda: _parts(voice, "inside") if at_home else None,
        "outside_parts": lambda: _parts(voice, "outside") if at_home else None,
        "all_inside": lambda: _all_inside(voice),
        "limits_name": lambda: _limits(order, voice),
    }


def _parts(voice: Voice, name: str) -> Markup | None:
    """The quantities of one kind in one row, or None; nothing where the page may not speak of measuring."""
    if "bench.said" not in voice.claims:
        return None
    found = list(_each(voice, name))
    if not found:
        return None
    return voice.phrase(lambda language: _row([word(language) for word in found], language), apart=True)


def _row(words: list[str], language: Language) -> str:
    from babel.lists import format_list

    return format_list(words, locale=language.locale)


def _each(voice: Voice, name: str) -> Iterator[Callable[[Language], str]]:
    for quantity in QUANTITIES:
        claim_id = f"bench.{name}.{quantity}"
        if claim_id not in voice.claims or (name == "not_read" and _partly_read(voice, claim_id, quantity)):
            continue
        yield _word(quantity, voice.claim(claim_id).value)


def _partly_read(voice: Voice, claim_id: str, quantity: str) -> bool:
    """Whether some of it was read, so that the page may not say that it was not: half a reading is for the sheet."""
    parts = {"prism": ("prism.horizontal", "prism.vertical"), "power": ("sphere", "cylinder")}.get(quantity, ())
    where = voice.claims.value(claim_id)
    sides = [side for side in SIDES if where in ("all", side)]
    return any(f"bench.{side}.{part}.reading" in voice.claims for side in sides for part in parts)


def _word(quantity: str, where: object) -> Callable[[Language], str]:
    """The quantity, of one lens where it holds for one only."""

    def said(language: Language) -> str:
        word = language.gettext(MEASURED[quantity])
        return language.gettext(OF_ONE_LENS[where]) % {"quantity": word} if where in OF_ONE_LENS else word

    return said


def _all_inside(voice: Voice) -> bool:
    """Whether each quantity that was read is inside limits that hold for the reader; one without limits is not."""
    if "bench.said.inside" not in voice.claims:
        return False
    read = [quantity for quantity in QUANTITIES if f"bench.read.{quantity}" in voice.claims]
    return all(f"bench.inside.{quantity}" in voice.claims for quantity in read)


def _limits(order: Order, voice: Voice) -> Markup | None:
    """The limits by name: the workshop's own name for its own copy."""
    if "bench.standard" not in voice.claims:
        return None
    own = order.bench_rules.own
    if own is None:
        return voice.say("bench.standard")
    voice.claim("bench.standard")
    return voice.words(own.name)
