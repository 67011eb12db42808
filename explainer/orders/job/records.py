"""The records of a job file of the spectacle trade's Data Communication Standard: LABEL=value, one a line.

Two-eye values are right;left. A question mark or an empty value is "unknown". A number has a sign only where it is
minus: in this format, and only here, a power without a sign is plus. One value for two eyes is never spread over both.
"""

from __future__ import annotations

import re
from pathlib import Path

from explainer.errors import Fault, InputError
from explainer.orders.values.files import read_text
from explainer.orders.values.texts import quoted

LARGEST_JOB = 1_000_000
MOST_LINES = 20_000
_RECORD = re.compile(r"(_?[A-Z][A-Z0-9_]{0,15})=(.*)")
_NUMBER = re.compile(r"[+-]?(?:[0-9]{1,4}(?:\.[0-9]{1,4})?|\.[0-9]{1,4})")
_UNKNOWN = ("", "?")

Values = dict[str, list[str]]


class Records:
    """The records of one file by label, and the faults met while they are looked at."""

    def __init__(self, source: str, values: Values) -> None:
        self.source = source
        self.values = values
        self.faults: list[Fault] = []

    def text(self, label: str) -> str | None:
        """The one value of a record; None if it is missing or unknown."""
        found = self.values.get(label, [])
        if len(found) > 1:
            self.fault(label, "this record twice", "each record once")
        return found[0] if found and found[0] not in _UNKNOWN else None

    def both(self, label: str) -> tuple[str | None, str | None]:
        """The values of the right and the left eye; (None, None) if the record is missing or unknown."""
        text = self.text(label)
        if text is None:
            return None, None
        parts = [part.strip() for part in text.split(";")]
        if len(parts) != 2:
            self.fault(label, f"{len(parts)} value{'s' * (len(parts) != 1)}", "a value for each eye: right;left")
            return None, None
        right, left = (None if part in _UNKNOWN else part for part in parts)
        return right, left

    def numbers(self, label: str, low: float, high: float, unit: str = "mm") -> tuple[float | None, float | None]:
        """The numbers of both eyes, each inside the range."""
        right, left = (self._number(label, part, low, high, unit) for part in self.both(label))
        return right, left

    def _number(self, label: str, part: str | None, low: float, high: float, unit: str) -> float | None:
        if part is None:
            return None
        value = float(part) if _NUMBER.fullmatch(part) else None
        if value is None or not low <= value <= high:
            self.fault(label, quoted(part), f"a number of {low:g} to {high:g} {unit}".rstrip())
            return None
        return value + 0.0

    def fault(self, label: str, found: str, accepted: str) -> None:
        """Keep a fault of that record, once."""
        fault = Fault(label, found, accepted)
        if fault not in self.faults:
            self.faults.append(fault)

    def check(self) -> None:
        """Refuse the file if anything was wrong."""
        if self.faults:
            raise InputError(self.source, self.faults)


def read_records(path: Path) -> tuple[str, Records]:
    """The text of a job file and its records, or a refusal with the line that is none."""
    text = read_text(path, largest=LARGEST_JOB)
    lines = record_lines(text)
    if len(lines) > MOST_LINES:
        raise InputError(str(path), [Fault("file", f"{len(lines)} lines", f"at most {MOST_LINES}")])
    values: Values = {}
    for number, line in enumerate(lines, 1):
        if not line:
            continue
        record = _RECORD.fullmatch(line)
        if record is None:
            found = "no record" if line.isprintable() else "a control character"
            raise InputError(str(path), [Fault(f"line {number}", found, "LABEL=value on each line")])
        values.setdefault(record.group(1), []).append(record.group(2).strip())
    if not values:
        raise InputError(str(path), [Fault("file", "no record", "LABEL=value on each line")])
    return text, Records(str(path), values)


def record_lines(text: str) -> list[str]:
    """The lines of a job file without blanks round them: some programs end lines with CR alone, some indent them."""
    return [line.strip(" \t") for line in re.split(r"\r\n|\r|\n", text)]
