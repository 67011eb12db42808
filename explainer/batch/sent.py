"""What a report says was made for an order, and how it stands today: the paper, and the order it was made from."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from explainer.batch.documents import Settings
from explainer.batch.report import read_report, sha256
from explainer.batch.run import made_from
from explainer.orders import Order
from explainer.orders.assembly.check_word import check_word


@dataclass(frozen=True, slots=True)
class Sent:
    """One document of a report. `file_now` and `order_now` are words of closed sets; `order_now` None if not asked."""

    order: str
    check_word: str
    language: str
    made_on: str | None
    file: str
    file_now: str
    order_now: str | None = None

    def as_json(self) -> dict[str, Any]:
        """The public form."""
        return {
            "order": self.order,
            "check_word": self.check_word,
            "language": self.language,
            "made_on": self.made_on,
            "file": self.file,
            "file_now": self.file_now,
            "order_now": self.order_now,
        }


def sent(report: Path, wanted: str, orders: Iterable[Order] = ()) -> Iterator[Sent]:
    """What was made under that order number or check word, in the order of the report. RenderError for no report."""
    now = {(order.number.casefold(), order.language): order for order in orders}
    for line in read_report(report):
        if line.get("state") != "made" or wanted.casefold() not in _called(line):
            continue
        order = now.get((str(line["order"]).casefold(), str(line.get("language"))))
        yield Sent(
            order=str(line["order"]),
            check_word=str(line.get("check_word")),
            language=str(line.get("language")),
            made_on=line.get("made_on"),
            file=str(line["file"]),
            file_now=_file_now(report.parent / str(line["file"]), line),
            order_now=_order_now(order, line) if order else None,
        )


def _called(line: Mapping[str, Any]) -> set[str]:
    return {str(line.get("order")).casefold(), str(line.get("check_word")).casefold()}


def _file_now(path: Path, line: Mapping[str, Any]) -> str:
    """Whether the paper is still what was made: "as made", "changed" or "gone"."""
    try:
        return "as made" if sha256(path.read_bytes()) == line.get("sha256") else "changed"
    except OSError:
        return "gone"


def _order_now(order: Order, line: Mapping[str, Any]) -> str:
    """What has changed since: "nothing" means that the same paper comes out again, byte for byte."""
    if made_from(order, _settings(line.get("settings"))) == line.get("made_from"):
        return "nothing"
    if check_word(order) != line.get("check_word"):
        return "the order or its workshop"
    return "the program or its words"


def _settings(written: object) -> Settings:
    """The settings that a report's line holds; the usual ones where it holds none that we know."""
    if not isinstance(written, dict):
        return Settings()
    try:
        return Settings(**{**written, "documents": tuple(written.get("documents", ()))})
    except TypeError:
        return Settings()
