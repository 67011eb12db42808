"""What the shell completes after `--topic` and `--language`, where its completion is switched on (README).

Whatever cannot be read completes to nothing: a shell that waits for a word is no place for a refusal.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click
from click.shell_completion import CompletionItem

from explainer.errors import ExplainerError

if TYPE_CHECKING:
    from explainer.topics.catalogue import Topic


def topic_names(context: click.Context, _: click.Parameter, begun: str) -> list[CompletionItem]:
    """Topics that begin so, each with what it says; the workshop's own too where its file is named before."""
    from explainer.topics.catalogue import topics

    every = [*topics().values(), *_own(context.params.get("workshop"))]
    given = context.params.get("names") or ()
    return [
        CompletionItem(each.name, help=each.says)
        for each in every
        if each.name.startswith(begun) and each.name not in given
    ]


def leaflet_languages(_: click.Context, __: click.Parameter, begun: str) -> list[str]:
    """Languages of leaflets that begin so."""
    from explainer.render.language import available

    return _beginning(available(), begun)


def message_languages(_: click.Context, __: click.Parameter, begun: str) -> list[str]:
    """Languages of messages that begin so."""
    from explainer.topics.books import languages

    return _beginning(languages(), begun)


def _beginning(words: tuple[str, ...], begun: str) -> list[str]:
    return [each for each in words if each.startswith(begun)]


def _own(workshop: object) -> list[Topic]:
    if not isinstance(workshop, str | Path):
        return []
    from explainer.orders.shop.workshop import read_workshop
    from explainer.render.mail.house import house_topics

    try:
        return [each.topic for each in house_topics(read_workshop(Path(workshop))).values()]
    except (ExplainerError, OSError):
        return []
