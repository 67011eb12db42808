"""`explainer topics`: what a reply can be about."""

from __future__ import annotations

import json
from dataclasses import asdict

import click

from explainer.cli.common import JSON, guarded


@click.command()
@JSON
@guarded
def topics(*, as_json: bool) -> int:
    """List the topics of replies, with the questions they answer."""
    from explainer.topics.catalogue import topics as known

    if as_json:
        click.echo(json.dumps([asdict(topic) for topic in known().values()], ensure_ascii=False, indent=2))
        return 0
    for topic in known().values():
        click.echo(f"{topic.name}: {topic.says}")
        for question in topic.questions:
            click.echo(f"    {question}")
    return 0
