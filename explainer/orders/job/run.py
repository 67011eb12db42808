"""The job files of a run: which files they are, which order each belongs to, and which stand alone."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from explainer.errors import Fault, InputError
from explainer.orders.job.file import Job, read_job
from explainer.orders.job.records import LARGEST_JOB, read_records, record_lines
from explainer.orders.values.field_types import FILE_NAME
from explainer.orders.values.files import read_text
from explainer.places import is_folder, real

ENDINGS = (".job", ".dcs", ".oma", ".vca", ".txt")
_RECORD = re.compile(r"(_?[A-Z][A-Z0-9_]{0,15})=")


class Jobs:
    """The job files named in a run or lying in its folders. A file that an order uses is no order of its own."""

    def __init__(self, paths: Iterable[Path] = ()) -> None:
        self.files: list[Path] = []
        self._by_number: dict[str, list[Path]] = defaultdict(list)
        self._known: set[Path] = set()
        self._used: set[Path] = set()
        self._orders: set[str] = set()
        for path in paths:
            self._add(path)

    def _add(self, path: Path) -> None:
        if real(path) in self._known:
            return
        self._known.add(real(path))
        self.files.append(path)
        number = _number_in(path)
        if number:
            self._by_number[number.lower()].append(path)

    def use(self, path: Path) -> None:
        """Mark a file as used by an order."""
        self._used.add(real(path))

    def alone(self) -> list[Path]:
        """The files that no order uses."""
        return [path for path in self.files if real(path) not in self._used]

    def doubles(self, path: Path) -> list[Fault]:
        """What is wrong with a file that stands alone: that its number is that of an order, or of another file."""
        number = (_number_in(path) or "").lower()
        others = len(self._by_number.get(number, [path])) - 1 + (number in self._orders)
        return [Fault("JOB", f"a number that stands in {others} other place(s)", "each number once")] if others else []

    def for_order(self, data: dict[str, Any], path: Path, faults: list[Fault]) -> Job | None:
        """The job of an order: the file it names, else the one with the order's number."""
        named = _named_for_a_part(data, path.parent)
        for each in named:
            self.use(each)
        number = data.get("order")
        if isinstance(number, str) and number.lower() in self._by_number:
            self._orders.add(number.lower())
        if data.get("job") is not None:
            return self._read(path.parent / data["job"], faults) if _is_file_name(data["job"]) else None
        known = self._by_number.get(number.lower(), []) if isinstance(number, str) else []
        found = [each for each in known if real(each) not in {real(part) for part in named}]
        if len(found) > 1:
            names = ", ".join(each.name for each in found)
            faults.append(
                Fault("job", f"{len(found)} job files with this number: {names}", "one, or job = in the order")
            )
            for each in found:
                self.use(each)
            return None
        return self._read(found[0], faults) if found else None

    def _read(self, path: Path, faults: list[Fault]) -> Job | None:
        self.use(path)
        try:
            return read_job(path)
        except InputError as error:
            faults.extend(Fault(f"job: {fault.field}", fault.found, fault.accepted) for fault in error.faults)
            return None


def parted(paths: Iterable[Path | str]) -> tuple[list[Path], Jobs]:
    """The paths without the job files named among them, and all job files named or lying in the named folders."""
    others: list[Path] = []
    jobs: list[Path] = []
    for path in map(Path, paths):
        if is_folder(path):
            inside = _in_folder(path)
            jobs += inside
            if not inside or _has_others(path):
                others.append(path)
        elif path.suffix.lower() in ENDINGS:
            jobs.append(path)
        else:
            others.append(path)
    return others, Jobs(jobs)


def data_of_job(path: Path) -> tuple[dict[str, Any], Job]:
    """A job file as an order of its own: its number, and its date if the private record _DATE gives one."""
    job = read_job(path)
    data: dict[str, Any] = {"prescription": {}}
    if job.number is not None:
        data["order"] = job.number
    if job.date_text is not None and re.fullmatch(r"\d{4}-\d{2}-\d{2}", job.date_text):
        data["date"] = job.date_text
    return data, job


def _in_folder(folder: Path) -> list[Path]:
    try:
        files = sorted(path for path in folder.iterdir() if path.suffix.lower() in ENDINGS and not is_folder(path))
    except OSError:
        return []  # the walk over orders says that the folder cannot be read
    return [path for path in files if path.suffix.lower() != ".txt" or _is_job(path)]


def _has_others(folder: Path) -> bool:
    return any(path.suffix.lower() not in (*ENDINGS, "") and not is_folder(path) for path in folder.iterdir())


def _named_for_a_part(data: dict[str, Any], folder: Path) -> list[Path]:
    """The files that an order names for its trace or its readings alone; they are not its job."""
    inner = ((data.get(table), name) for table, name in (("frame", "trace"), ("bench", "job")))
    names = (table.get(name) for table, name in inner if isinstance(table, dict))
    return [folder / name for name in names if isinstance(name, str) and _is_file_name(name)]


def _is_file_name(value: object) -> bool:
    return isinstance(value, str) and re.fullmatch(FILE_NAME, value) is not None


def _is_job(path: Path) -> bool:
    """Whether a plain text begins with a record and has a record JOB; what else is wrong with it is told later."""
    try:
        lines = [line for line in record_lines(read_text(path, largest=LARGEST_JOB)) if line]
    except InputError:
        return False
    labels = [found[1] if (found := _RECORD.match(line)) else None for line in lines]
    return bool(labels) and labels[0] is not None and "JOB" in labels


def _number_in(path: Path) -> str | None:
    """The job's number, read as the job itself will be; None if the file is no job or has none."""
    try:
        return read_records(path)[1].text("JOB")
    except InputError:
        return None
