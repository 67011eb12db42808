"""The fields of both files in words: for the JSON Schema, and as a reference to read."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any, Literal, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from explainer.orders.assembly.models import OrderFile
from explainer.orders.shop.workshop import WorkshopFile

FILES: dict[str, type[BaseModel]] = {"order": OrderFile, "workshop": WorkshopFile}


def fields(file: str) -> Iterator[tuple[str, FieldInfo, str]]:
    """Every field of a file by its path, with its words; the parts of an eye only below the prescription."""
    yield from _fields(file, FILES[file], "")


def words(file: str, path: str, found: FieldInfo | None = None) -> str:
    """What a field means; empty if nobody has said so."""
    said = found.description if found else None
    table = _words()[file]
    in_eye = path.partition(".right.")[2] or path.partition(".left.")[2]
    return said or table.get(path) or (_words()["eye"].get(in_eye, "") if in_eye else "")


def reference() -> str:
    """Both files as one text in Markdown: a line a field, with what it takes."""
    lines = ["# Fields of the order file and of the workshop file", ""]
    lines += ["Written by `explainer schema --fields`; do not change it by hand.", ""]
    for file, title in (("order", "Order file"), ("workshop", "Workshop file")):
        lines += [f"## {title}", "", "| field | meaning | takes |", "| --- | --- | --- |"]
        lines += [f"| `{path}` | {said} | {_takes(found)} |" for path, found, said in fields(file)]
        lines.append("")
    return "\n".join(lines)


def described(schema: dict[str, Any], file: str) -> dict[str, Any]:
    """A JSON Schema with words at every field that has none of its own."""
    definitions = schema.get("$defs", {})

    def walk(node: dict[str, Any], path: str) -> None:
        for name, inner in node.get("properties", {}).items():
            place = f"{path}{name}"
            said = words(file, place)
            if said and "description" not in inner:
                inner["description"] = said
            for reference_ in _references(inner):
                below = definitions.get(reference_.rpartition("/")[2], {})
                if below.get("title") != "EyeTable" and place.count(".") < 3:
                    walk(below, f"{place}.")

    walk(schema, "")
    return schema


def _fields(file: str, model: type[BaseModel], path: str) -> Iterator[tuple[str, FieldInfo, str]]:
    for name, found in model.model_fields.items():
        place = f"{path}{name}"
        yield place, found, words(file, place, found)
        if path and place.split(".", maxsplit=1)[0] != "prescription" and name in ("right", "left"):
            continue
        for inner in _models(found.annotation):
            yield from _fields(file, inner, f"{place}.")


def _models(annotation: Any) -> Iterator[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for inner in get_args(annotation):
        yield from _models(inner)


def _takes(found: FieldInfo) -> str:
    choices = list(dict.fromkeys(_choices(found.annotation)))
    if choices:
        return ", ".join(choices)
    kinds = {name for name in ("bool", "int", "float", "date") if name in str(found.annotation)}
    plain = {"bool": "yes or no: true, false", "int": "a whole number", "float": "a number", "date": "a date"}
    for kind in ("date", "bool", "float", "int"):
        if kind in kinds:
            return plain[kind]
    return "a table" if any(True for _ in _models(found.annotation)) else "text"


def _choices(annotation: Any) -> Iterator[str]:
    if get_origin(annotation) is Literal:
        yield from (str(choice) for choice in get_args(annotation))
    else:
        for inner in get_args(annotation):
            yield from _choices(inner)


def _references(node: Any) -> Iterator[str]:
    if isinstance(node, dict):
        if "$ref" in node:
            yield node["$ref"]
        for inner in node.values():
            yield from _references(inner)
    elif isinstance(node, list):
        for inner in node:
            yield from _references(inner)


@cache
def _words() -> dict[str, dict[str, str]]:
    return tomllib.loads((Path(__file__).parent / "fields.toml").read_text(encoding="utf-8"))
