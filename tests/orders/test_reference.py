"""Every field of the order file and of the workshop file has words, and there are no words for fields that are not."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from explainer.orders import reference
from explainer.orders.schema import schemas

WORDS = tomllib.loads((Path(reference.__file__).parent / "fields.toml").read_text(encoding="utf-8"))


@pytest.mark.parametrize("file", reference.FILES)
def test_every_field_has_words(file: str):
    assert [path for path, _, said in reference.fields(file) if not said] == []


@pytest.mark.parametrize("file", reference.FILES)
def test_no_words_for_what_is_no_field(file: str):
    assert set(WORDS[file]) - {path for path, _, _ in reference.fields(file)} == set()


def test_the_schema_carries_the_words():
    order = schemas()["order"]["properties"]
    assert "number" in order["order"]["description"]


def test_the_reference_has_a_line_for_each_field():
    text = reference.reference()
    for file in reference.FILES:
        for path, _, said in reference.fields(file):
            assert f"| `{path}` | {said} |" in text
