"""Which of the topics proposed are answered: few, those that a message really asks about, in the order asked."""

from __future__ import annotations

from collections.abc import Collection

from explainer.topics.catalogue import OTHER, URGENT
from explainer.topics.matcher import Proposal, Reading

MOST = 3
SURE = 3.0


def answered(reading: Reading, has: Collection[str]) -> tuple[str, ...]:
    """The best topic that the order has something of, and up to two more that rest on enough words of their own.

    Where an urgent sign is named, that alone. Where nothing fits, the topic that a person answers.
    """
    if reading.urgent:
        return (URGENT,)
    found = [each for each in reading.proposals if each.topic in has]
    if not found or found[0].topic == OTHER:
        return (OTHER,)
    chosen = [found[0], *(each for each in found[1:] if _sure(each))][:MOST]
    return tuple(each.topic for each in sorted(chosen, key=lambda each: each.first))


def _sure(proposal: Proposal) -> bool:
    return proposal.topic != OTHER and proposal.alone >= SURE
