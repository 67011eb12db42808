"""`explainer topics`: what a reply can be about, and what a customer's message seems to be about."""

from __future__ import annotations

import json
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

import click

from explainer.cli.common import JSON, QUESTION, WORKSHOP, guarded, letter_in
from explainer.cli.completing import message_languages
from explainer.cli.streams import say, say_json

if TYPE_CHECKING:
    from explainer.render.mail.house import HouseTopic


@click.command()
@QUESTION
@click.option(
    "--language", default="en", show_default=True, shell_complete=message_languages, help="Language of the message."
)
@WORKSHOP
@JSON
@guarded
def topics(*, question: Path | None, language: str, workshop: Path | None, as_json: bool) -> int:
    """List the topics of replies, or propose topics for a customer's message."""
    own = _own(workshop)
    if question is not None:
        _propose(letter_in(question).text, language, own, as_json=as_json)
    else:
        _list(own, as_json=as_json)
    return 0


def _own(workshop: Path | None) -> dict[str, HouseTopic]:
    """The workshop's own topics, where its file is named."""
    if workshop is None:
        return {}
    from explainer.orders.shop.workshop import read_workshop
    from explainer.render.mail.house import house_topics

    return house_topics(read_workshop(workshop))


def _list(own: dict[str, HouseTopic], *, as_json: bool) -> None:
    from explainer.topics.catalogue import topics as known

    every = [*known().values(), *(each.topic for each in own.values())]
    if as_json:
        say_json(json.dumps([asdict(topic) for topic in every], ensure_ascii=False, indent=2))
        return
    for topic in every:
        say(f"{topic.name}: {topic.says}")
        for asked in topic.questions:
            say(f"    {asked}")


def _propose(text: str, language: str, own: dict[str, HouseTopic], *, as_json: bool) -> None:
    from explainer.topics.matcher import read_question, reading_lines

    reading = read_question(text, language, {name: each.terms for name, each in own.items()})
    if as_json:
        shown = {
            "urgent": reading.urgent,
            "tier": reading.tier,
            "signs": {sign: list(terms) for sign, terms in reading.signs.items()},
            "proposals": [asdict(each) for each in reading.proposals],
        }
        say_json(json.dumps(shown, ensure_ascii=False, indent=2))
    else:
        say("\n".join(reading_lines(reading)))
