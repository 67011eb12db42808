"""Which topics of a reply apply to an order. Decided by the order alone, as the leaflet's sections are."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from explainer.compose.document import Document
from explainer.errors import Fault
from explainer.optics.claims.ledger import ClaimSet
from explainer.topics.catalogue import Topic, topics

Condition = Callable[[Document, ClaimSet], bool]


def _section(name: str) -> Condition:
    return lambda document, claims: name in document.sections


CONDITIONS: Mapping[str, tuple[Condition, str]] = {
    "": (lambda document, claims: True, ""),
    "car": (_section("car"), "the lenses have no tint, or nothing is known of it in a car"),
    "tint": (_section("tint"), "the lenses have no tint"),
    "photochromic": (lambda document, claims: "photochromic" in document.flags, "the lenses do not react to light"),
    "lens": (_section("lens"), "the order names no lens material"),
    "direction": (_section("direction"), "the lenses have no cylinder, so no axis"),
    "pd": (lambda document, claims: "pair.pd" in claims, "the order gives no distance between the pupils"),
    "sight": (_section("sight"), "the lenses have no power, or are for reading"),
    "bench": (_section("bench"), "no lens of this pair was read at the bench"),
}


def applies(topic: Topic, document: Document, claims: ClaimSet) -> bool:
    """Whether the order has what the topic is about."""
    return CONDITIONS[topic.needs][0](document, claims)


def topic_faults(
    names: tuple[str, ...], known: Mapping[str, Topic], document: Document, claims: ClaimSet
) -> list[Fault]:
    """One fault for every name that is no topic, or a topic of something that this order has not."""
    accepted = ", ".join(name for name, topic in known.items() if applies(topic, document, claims))
    faults = []
    for name in names:
        if name not in known:
            faults.append(Fault("topic", f"{name}, which is no topic", accepted))
        elif not applies(known[name], document, claims):
            faults.append(Fault("topic", f"{name}, but {CONDITIONS[known[name].needs][1]}", accepted))
    return faults


def applicable(document: Document, claims: ClaimSet) -> tuple[str, ...]:
    """The names of all topics of the program that apply."""
    return tuple(name for name, topic in topics().items() if applies(topic, document, claims))
