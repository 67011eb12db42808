"""`explainer topics`: what a reply can be about, and what a customer's message seems to be about."""

from __future__ import annotations

import json
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, TextIO

import click

from explainer.cli.common import JSON, WORKSHOP, guarded

if TYPE_CHECKING:
    from explainer.render.mail.house import HouseTopic


@click.command()
@click.option("--question", type=click.File(encoding="utf-8"), help="A customer's message; - reads it from the input.")
@click.option("--language", default="en", show_default=True, help="Language of the message.")
@WORKSHOP
@JSON
@guarded
def topics(*, question: TextIO | None, language: str, workshop: Path | None, as_json: bool) -> int:
    """List the topics of replies, or propose topics for a customer's message."""
    own = _own(workshop)
    if question is not None:
        _propose(question.read(), language, own, as_json=as_json)
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
        click.echo(json.dumps([asdict(topic) for topic in every], ensure_ascii=False, indent=2))
        return
    for topic in every:
        click.echo(f"{topic.name}: {topic.says}")
        for asked in topic.questions:
            click.echo(f"    {asked}")


def _propose(text: str, language: str, own: dict[str, HouseTopic], *, as_json: bool) -> None:
    from explainer.topics.matcher import read_question, reading_lines

    reading = read_question(text, language, {name: each.terms for name, each in own.items()})
    if as_json:
        shown = {
            "urgent": reading.urgent,
            "signs": {sign: list(terms) for sign, terms in reading.signs.items()},
            "proposals": [asdict(each) for each in reading.proposals],
        }
        click.echo(json.dumps(shown, ensure_ascii=False, indent=2))
    else:
        click.echo("\n".join(reading_lines(reading)))
