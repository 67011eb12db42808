"""The list of topics: each has words, a line, questions, and a condition that exists."""

from __future__ import annotations

import pytest

from explainer.compose.topics import CONDITIONS
from explainer.optics.claims.cautions import RULES
from explainer.resources import root
from explainer.topics.catalogue import Topic, topics


@pytest.mark.parametrize("topic", topics().values(), ids=lambda topic: topic.name)
def test_a_topic_is_complete(topic: Topic):
    assert (root("templates") / f"{topic.template}.md").is_file()
    assert topic.says
    assert topic.questions
    assert topic.needs in CONDITIONS
    assert set(topic.cautions) <= set(RULES)


def test_every_template_is_a_topic():
    held = {f"topics/{path.stem}" for path in (root("templates") / "topics").glob("*.md")}

    assert held <= {topic.template for topic in topics().values()}
