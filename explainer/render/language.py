"""A reader's language: catalogue, direction, status of the translation, number locale."""

from __future__ import annotations

import gettext
import re
from dataclasses import dataclass
from functools import cache
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from explainer.errors import MissingText
from explainer.render.american import American
from explainer.resources import root
from explainer.surroundings import dates

if TYPE_CHECKING:
    from babel import Locale
    from babel.messages.catalog import Catalog, Message

Status = Literal["source", "draft", "reviewed"]
_VALUES = re.compile(r"%\((\w+)\)s")
_RIGHT_TO_LEFT = frozenset({"ar", "fa", "he", "ur"})
_AMERICAN = frozenset({"US", "PH", "PR"})
_FEET = frozenset({"US", "LR"})
_FAHRENHEIT = frozenset({"US", "LR", "BS", "BZ", "KY", "PW"})


class Untranslated(MissingText):
    """A catalogue lacks the translation of a message."""


class _Strict(gettext.GNUTranslations):
    """Translations that never fall back to the source language in silence."""

    def gettext(self, message: str) -> str:
        found = self._catalog.get(message)  # type: ignore[attr-defined]
        if not found:
            raise Untranslated(f"the catalogue has no translation of: {message[:80]!r}")
        return str(found)

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        found = self._catalog.get((msgid1, self.plural(n)))  # type: ignore[attr-defined]
        if not found:
            raise Untranslated(f"the catalogue has no translation of: {msgid1[:80]!r}")
        return str(found)


@dataclass(frozen=True, slots=True)
class Language:
    """One language as a reader needs it. `code` is a BCP 47 tag such as en-GB."""

    code: str
    status: Status
    translations: gettext.NullTranslations
    locale: Locale

    @property
    def direction(self) -> Literal["ltr", "rtl"]:
        """Writing direction of the page."""
        return "rtl" if self.locale.language in _RIGHT_TO_LEFT else "ltr"

    @property
    def is_draft(self) -> bool:
        """Whether a qualified person has yet to check the translation."""
        return self.status == "draft"

    @property
    def uses_fahrenheit(self) -> bool:
        """Whether readers of this locale think in degrees Fahrenheit."""
        return self.locale.territory in _FAHRENHEIT

    @property
    def uses_feet(self) -> bool:
        """Whether readers of this locale think in inches and feet."""
        return self.locale.territory in _FEET

    @property
    def english(self) -> Language:
        """The source language, with this locale's habits where English has both; for what is not translated."""
        return language("en-US" if self.uses_fahrenheit else "en")

    def gettext(self, message: str) -> str:
        """The message in this language; Untranslated when the catalogue has no sound translation of it."""
        return self.translations.gettext(message)


def available() -> tuple[str, ...]:
    """Language codes that have a catalogue, English (the source) first."""
    found = sorted(path.parent.parent.name for path in root("locales").glob("*/LC_MESSAGES/explainer.po"))
    return ("en", *found)


@cache
def has_language(code: str) -> bool:
    """Whether there is a catalogue for that code; quicker than reading it."""
    dates()
    from babel import Locale, UnknownLocaleError

    try:
        return Locale.parse(code, sep="-").language in available()
    except (UnknownLocaleError, ValueError):
        return False


@cache
def language(code: str) -> Language:
    """The language of that code; MissingText when there is no catalogue for it."""
    dates()  # before anything else of Babel's loads it
    from babel import Locale, UnknownLocaleError

    try:
        locale = Locale.parse(code, sep="-")
    except (UnknownLocaleError, ValueError):
        raise MissingText(f"{code!r} is not a language code such as en-GB or de") from None
    if locale.language == "en":
        words = American() if locale.territory in _AMERICAN else gettext.NullTranslations()
        return Language(code, "source", words, locale)
    path = root("locales") / locale.language / "LC_MESSAGES" / "explainer.po"
    if not path.is_file():
        raise MissingText(f"there is no catalogue for {code!r}; there are: {', '.join(available())}")
    catalogue = read_catalogue(path)
    return Language(code, _status(catalogue), _compile(catalogue), locale)


def read_catalogue(path: Path) -> Catalog:
    """The catalogue file, parsed; MissingText when it cannot be read."""
    from babel.messages.pofile import PoFileError, read_po

    try:
        with path.open("rb") as file:
            return read_po(file, abort_invalid=True)
    except (OSError, PoFileError, UnicodeDecodeError, ValueError) as error:
        raise MissingText(f"the catalogue {path.name} of {path.parent.parent.name} cannot be read: {error}") from None


def is_sound(message: Message) -> bool:
    """Whether a message is translated, confirmed, and takes in just the values that the source does."""
    if not isinstance(message.id, str) or not isinstance(message.string, str) or not message.string or message.fuzzy:
        return False
    names = _VALUES.findall(message.id)
    if sorted(_VALUES.findall(message.string)) != sorted(names):
        return False
    try:
        message.string % dict.fromkeys(names, "")
    except (ValueError, TypeError, KeyError):
        return False
    return True


def _compile(catalogue: Catalog) -> _Strict:
    from babel.messages.mofile import write_mo

    for message in catalogue:
        if message.id and not is_sound(message):
            message.string = ""
    compiled = BytesIO()
    write_mo(compiled, catalogue)
    compiled.seek(0)
    return _Strict(compiled)


def _status(catalogue: Catalog) -> Status:
    """The line `Status: draft` or `Status: reviewed` in the catalogue's header comment; draft when it is missing."""
    found = re.search(r"^#?\s*Status:\s*(draft|reviewed)\s*$", catalogue.header_comment, re.MULTILINE)
    return "reviewed" if found and found[1] == "reviewed" else "draft"
