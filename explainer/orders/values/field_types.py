"""The kinds of single values that order and workshop files hold, each with its own refusal."""

from __future__ import annotations

import datetime as dt
import re
from typing import Annotated, Any

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field, WithJsonSchema
from pydantic_core import PydanticCustomError

from explainer.orders.values.texts import quoted, trouble

AS_TEXT, AS_FIELDS = "as text", "as fields"
"""Names of the branches of a union; the space keeps them apart from every field name."""

ORDER_NUMBER = r"[A-Za-z0-9][A-Za-z0-9._-]{0,39}"
LANGUAGE = r"[a-z]{2,3}(-[A-Za-z0-9]{2,8})*"
EMAIL = r"[A-Za-z0-9_+-][A-Za-z0-9._+-]{0,63}@[A-Za-z0-9.-]{1,120}\.[A-Za-z]{2,24}"
FILE_NAME = r"\w[\w .()+-]{0,99}(/\w[\w .()+-]{0,99}){0,3}"


class Strict(BaseModel):
    """Base of all file models: no unknown fields, no conversions, nothing infinite, nothing changed afterwards."""

    model_config = ConfigDict(extra="forbid", strict=True, frozen=True, allow_inf_nan=False)


def refusal(found: str, accepted: str) -> PydanticCustomError:
    """A fault in our words, carried through pydantic."""
    return PydanticCustomError("explainer", "refused", {"found": found, "accepted": accepted})


def _text(limit: int, *, lines: bool = False) -> AfterValidator:
    def check(value: str) -> str:
        text = value.replace("\r\n", "\n") if lines else value
        wrong = trouble(text, limit=limit, lines=lines)
        if wrong:
            raise refusal(wrong, f"1 to {limit} plain characters{'' if lines else ' on one line'}")
        return text.strip()

    return AfterValidator(check)


def _without_encoded_word(value: str) -> str:
    """A name that stands in the head of mails too, where an encoded word (RFC 2047) would be read as something else."""
    if re.search(r"=\?|\?=", value):
        raise refusal("an encoded word of mail (=? … ?=)", "the name as it is written")
    return value


def _matching(pattern: str, accepted: str) -> AfterValidator:
    compiled = re.compile(pattern)

    def check(value: str) -> str:
        if not compiled.fullmatch(value) or ".." in value:
            raise refusal(quoted(value), accepted)
        return value

    return AfterValidator(check)


def _as_date(value: Any) -> Any:
    if isinstance(value, dt.date) and not isinstance(value, dt.datetime):
        return value
    if isinstance(value, str) and re.fullmatch(r"\d{4}-\d{2}-\d{2}", value):
        try:
            return dt.date.fromisoformat(value)
        except ValueError:
            pass
    found = quoted(value) if isinstance(value, str) else "something that is no date"
    raise refusal(found, "a date as year-month-day: 2026-11-20")


Date = Annotated[dt.date, BeforeValidator(_as_date), WithJsonSchema({"type": "string", "format": "date"})]
Line = Annotated[str, _text(200)]
ShownName = Annotated[str, _text(200), AfterValidator(_without_encoded_word)]
ShortLine = Annotated[str, _text(60)]
Paragraph = Annotated[str, _text(1500, lines=True)]
Name = Annotated[str, _text(120)]
Notation = Annotated[str, Field(description="a prescription as written, such as -3.25 -1.25 x 172 Add +2.00")]
OrderNumber = Annotated[
    str,
    _matching(ORDER_NUMBER, "up to 40 letters, digits, dots, dashes, underscores, beginning with a letter or digit"),
    Field(json_schema_extra={"pattern": f"^{ORDER_NUMBER}$"}),
]
Language = Annotated[
    str,
    _matching(LANGUAGE, "a language tag such as en-GB, de or pt-BR"),
    Field(json_schema_extra={"pattern": f"^{LANGUAGE}$"}),
]
FileName = Annotated[str, _matching(FILE_NAME, "a file beside this one or in a folder below it")]
PageAddress = Annotated[
    str,
    _matching(
        r"https://[A-Za-z0-9-]+(\.[A-Za-z0-9-]+)+(:\d{2,5})?(/[A-Za-z0-9_~.-]+)*/[A-Za-z0-9_~-]*"
        r"\{page\}[A-Za-z0-9_~./-]{0,20}",
        "an address with {page} where a page's own name goes, such as https://pages.example/{page}.html",
    ),
    Field(max_length=90),
]
Colour = Annotated[
    str,
    _matching(r"#[0-9A-Fa-f]{6}", "a colour as #rrggbb, such as #1f4e79"),
    Field(json_schema_extra={"pattern": "^#[0-9A-Fa-f]{6}$"}),
]
Country = Annotated[str, _matching(r"[A-Z]{2}", "a country code of two capital letters, such as GB")]
Email = Annotated[
    str,
    _matching(EMAIL, "care@example.org"),
]


def text_or_fields(value: Any) -> str | None:
    """Which branch of "a text or a table" a value belongs to."""
    return AS_TEXT if isinstance(value, str) else AS_FIELDS if isinstance(value, (dict, BaseModel)) else None


def text_or_number(value: Any) -> str:
    """Which branch of "a text or a number" a value belongs to."""
    return AS_TEXT if isinstance(value, str) else AS_FIELDS
