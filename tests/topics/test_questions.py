"""How well messages are understood: measured on messages that were kept apart from the gathering of words."""

from __future__ import annotations

import re
import tomllib
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from explainer.errors import InputError
from explainer.topics.catalogue import FOLDER, topics
from explainer.topics.matcher import read_question

DATA = Path(__file__).parents[1] / "data"
LEAST_RIGHT = 0.85


@cache
def held(name: str) -> list[dict[str, Any]]:
    return list(tomllib.loads((DATA / name).read_text(encoding="utf-8"))["question"])


HELD, SEEN = held("questions.toml"), held("questions_seen.toml")
URGENT = [each for each in HELD + SEEN if each.get("urgent")]


def first(question: dict[str, Any]) -> str | None:
    proposals = read_question(question["text"], question["language"]).proposals
    return proposals[0].topic if proposals else None


def share_right(questions: list[dict[str, Any]]) -> float:
    asked = [each for each in questions if not each.get("urgent")]
    right = [each for each in asked if (first(each) in each["right"] if each["right"] else first(each) is None)]
    return len(right) / len(asked)


def test_there_are_sixty_messages_in_two_languages():
    assert len(HELD) == 60
    assert {each["language"] for each in HELD} == {"en", "de"}


@pytest.mark.slow
@pytest.mark.parametrize("questions", [HELD, SEEN], ids=["held", "seen"])
def test_the_first_proposal_is_right_for_most(questions: list[dict[str, Any]]):
    assert share_right(questions) >= LEAST_RIGHT


@pytest.mark.parametrize("question", URGENT, ids=lambda each: each["text"][:40])
def test_no_urgent_message_is_met_with_calm(question: dict[str, Any]):
    assert read_question(question["text"], question["language"]).urgent


@pytest.mark.slow
def test_few_messages_raise_a_false_alarm():
    calm = [each for each in HELD + SEEN if not each.get("urgent")]
    alarms = [each["text"] for each in calm if read_question(each["text"], each["language"]).urgent]

    assert len(alarms) / len(calm) < 0.1, alarms


def test_a_denied_sign_still_counts_as_named():
    assert read_question("No flashes, no shadow, only a headache.", "en").urgent


@pytest.mark.parametrize(
    "sign",
    [
        "I have lost the sight of one eye",
        "I see flashes",
        "there are many new dots and threads",
        "a shadow moves over my sight",
        "a curtain moves over my sight",
        "I see double, and it stays when I take the glasses off",
        "my eye hurts a lot",
        "light hurts my eye",
        "my eye was hit",
        "my eye was splashed",
        "weak arm",
        "slurred speech",
        "no sight in both eyes",
    ],
)
def test_every_sign_of_the_urgent_block_is_known(sign: str):
    assert read_question(sign, "en").urgent


@pytest.mark.parametrize("text", ["flahses in my eye", "I see duoble", "a curtian over my eye", "Lichtblize im Auge"])
def test_slips_of_spelling_do_not_hide_a_sign(text: str):
    assert read_question(text, "en").urgent


def test_a_proposal_names_the_terms_that_it_rests_on_and_their_sum():
    best = read_question("why do the lenses stay pale in the car", "en").proposals[0]
    weights = tomllib.loads((FOLDER / "terms_en.toml").read_text(encoding="utf-8"))["car"]

    assert best.topic == "car"
    assert best.score == pytest.approx(sum(weights[term] for term in best.terms))


def test_a_language_without_words_is_refused():
    with pytest.raises(InputError, match="language"):
        read_question("…", "tlh")


@pytest.mark.parametrize("text", ["", "???", "12 34", "🙂", "a" * 50_000])
def test_nothing_is_made_of_nothing(text: str):
    assert read_question(text, "en").proposals == ()


@pytest.mark.parametrize("path", sorted(FOLDER.glob("terms_*.toml")), ids=lambda path: path.stem)
def test_every_topic_has_terms_and_every_term_a_topic(path: Path):
    named = set(tomllib.loads(path.read_text(encoding="utf-8"))) - {"groups"}

    assert named <= set(topics())
    assert set(topics()) - named <= {"urgent", "cautions"}


def test_no_run_of_four_words_of_a_held_message_stands_in_the_data():
    data = " ".join(path.read_text(encoding="utf-8").lower() for path in FOLDER.glob("*_*.toml"))
    for each in HELD:
        words = re.findall(r"\w+", each["text"].lower())
        for place in range(len(words) - 3):
            assert " ".join(words[place : place + 4]) not in data
