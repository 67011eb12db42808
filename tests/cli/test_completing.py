"""What the shell completes, asked as bash asks it: the words so far and which of them is being written."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from explainer.cli import main
from explainer.render.language import available
from explainer.topics.books import languages
from explainer.topics.catalogue import topics


def completed(*words: str) -> list[str]:
    """The values that bash is offered for the last of the words; each line is `kind,value`."""
    line = " ".join(("explainer", *words))
    asked = {"_EXPLAINER_COMPLETE": "bash_complete", "COMP_WORDS": line, "COMP_CWORD": str(len(words))}
    result = CliRunner().invoke(main, env=asked, prog_name="explainer")
    assert not result.stderr
    return [line.partition(",")[2] for line in result.stdout.splitlines() if line]


def test_topics_are_offered_by_name():
    assert set(completed("reply", "order.toml", "--topic", "")) == set(topics())
    assert set(completed("reply", "order.toml", "--topic", "car")) == {name for name in topics() if name[:3] == "car"}


def test_a_topic_given_is_not_offered_again():
    assert "car" not in completed("reply", "order.toml", "--topic", "car", "--topic", "")


@pytest.mark.parametrize("command", ["make", "check", "reply", "start"])
def test_languages_of_leaflets_are_offered(command: str):
    assert set(completed(command, "order.toml", "--language", "")) == set(available())
    assert completed(command, "order.toml", "--language", "d") == ["de"]


def test_languages_of_messages_are_those_that_can_be_read():
    assert set(completed("topics", "--language", "")) == set(languages())


def test_the_workshops_own_topics_are_offered_where_its_file_is_named(tmp_path: Path):
    (tmp_path / "words" / "topics").mkdir(parents=True)
    voucher = "# Vouchers\n\nYes, we take them.\n"
    (tmp_path / "words" / "topics" / "voucher.md").write_text(voucher, encoding="utf-8")
    shop = tmp_path / "workshop.toml"
    shop.write_text(
        'name = "Fernlight"\ncountry = "GB"\nlanguage = "en-GB"\nhouse_wording = "words"\n', encoding="utf-8"
    )

    assert completed("reply", "order.toml", "--workshop", str(shop), "--topic", "vou") == ["voucher"]


def test_a_workshop_file_that_cannot_be_read_leaves_our_topics(tmp_path: Path):
    shop = tmp_path / "workshop.toml"
    shop.write_text("name = [", encoding="utf-8")

    assert set(completed("reply", "order.toml", "--workshop", str(shop), "--topic", "")) == set(topics())
