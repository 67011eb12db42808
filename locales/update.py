"""Brings every catalogue up to date with the sentences of the program, and says how much of each is translated.

    .venv/bin/python locales/update.py              all catalogues
    .venv/bin/python locales/update.py fr           a new language too
    .venv/bin/python locales/update.py --report     only says what is lacking, writes nothing

An entry that stays as it is keeps its lines, however a translator's editor broke them. A reworded sentence gets the
translation of the old wording as a proposal, marked fuzzy, with the old wording beside it: the leaflet prints it in
English until somebody confirms it (takes `fuzzy` and the `#|` lines out). What the program no longer says goes; it
stays in the history of the repository.
"""

from __future__ import annotations

import argparse
import sys
import tomllib
from io import BytesIO
from pathlib import Path

from babel import Locale, UnknownLocaleError
from babel.messages.catalog import Catalog, Message
from babel.messages.extract import DEFAULT_KEYWORDS, extract_from_dir
from babel.messages.pofile import read_po, write_po

from explainer.render.language import is_sound

HERE = Path(__file__).parent
HOME = HERE.parent
WIDTH = 100  # of the lines of an entry
HEAD = """# {name} words of the leaflet and the e-mail.
# Status: draft
msgid ""
msgstr ""
"Language: {code}\\n"
"MIME-Version: 1.0\\n"
"Content-Type: text/plain; charset=utf-8\\n"
"Content-Transfer-Encoding: 8bit\\n"
"""


def messages() -> Catalog:
    """Every sentence of the program, as pyproject.toml says where they stand."""
    settings = tomllib.loads((HOME / "pyproject.toml").read_text(encoding="utf-8"))
    mappings = {each["pattern"]: each for each in settings["tool"]["babel"]["mappings"]}
    methods = [(pattern, each["method"]) for pattern, each in mappings.items()]
    found = Catalog()
    for _, _, message, comments, context in extract_from_dir(HOME, methods, mappings, keywords=DEFAULT_KEYWORDS):
        found.add(message, auto_comments=comments, context=context)
    return found


def updated(text: str, program: Catalog) -> str:
    """A catalogue's text with the sentences of the program, and the lines of all others as they were."""
    head, *entries = text.rstrip("\n").split("\n\n")
    catalogue = read_po(BytesIO(text.encode()))
    before = {message.id: _content(message) for message in catalogue}
    lines = {message.id: entry for entry in entries for message in _of(entry)}
    catalogue.update(program, update_header_comment=False, update_creation_date=False)
    found = [head]
    for message in sorted((each for each in catalogue if each.id), key=lambda each: str(each.id)):
        stays = before.get(message.id) == _content(message)
        found.append(lines[message.id] if stays else _written(message))
    return "\n\n".join(found) + (text[len(text.rstrip("\n")) :] or "\n")


def report(code: str, text: str, program: Catalog) -> str:
    """How much of a catalogue is translated, and what is not."""
    catalogue = read_po(BytesIO(text.encode()))
    wanted = [message.id for message in program if message.id]
    lacking = [each for each in wanted if not (found := catalogue.get(each)) or not is_sound(found)]
    share = 100 * (len(wanted) - len(lacking)) // len(wanted)
    lines = [f"{code}: {len(wanted) - len(lacking)} of {len(wanted)} sentences are translated ({share} %)"]
    return "\n".join([*lines, *(f"  in English: {each}" for each in lacking)])


def _content(message: Message) -> tuple[object, ...]:
    return message.id, message.string, message.fuzzy


def _of(entry: str) -> list[Message]:
    """The message of one entry; none for an entry that is out of use."""
    return [message for message in read_po(BytesIO(entry.encode())) if message.id]


def _written(message: Message) -> str:
    alone, written = Catalog(charset="utf-8"), BytesIO()
    alone[message.id] = message
    write_po(written, alone, width=WIDTH, omit_header=True, no_location=True, include_previous=True)
    return written.getvalue().decode().strip("\n")


def main() -> int:
    """Reads the arguments, updates, reports."""
    parser = argparse.ArgumentParser(description="Brings the catalogues up to date with the sentences of the program.")
    parser.add_argument("codes", nargs="*", metavar="LANGUAGE", help="languages to begin, such as fr")
    parser.add_argument("--report", action="store_true", help="write nothing, only say what is lacking")
    given = parser.parse_args()
    paths = {path.parent.parent.name: path for path in sorted(HERE.glob("*/LC_MESSAGES/explainer.po"))}
    program = messages()
    for code in (*paths, *(code for code in given.codes if code not in paths)):
        try:
            name = Locale.parse(code).english_name
        except (UnknownLocaleError, ValueError):
            parser.error(f"{code!r} is not a language such as fr")
        path = paths.get(code, HERE / code / "LC_MESSAGES" / "explainer.po")
        text = path.read_text(encoding="utf-8") if path.is_file() else HEAD.format(name=name, code=code)
        if not given.report:
            text = updated(text, program)
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        sys.stdout.write(f"{report(code, text, program)}\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
