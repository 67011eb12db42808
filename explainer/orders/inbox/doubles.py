"""Order numbers that stand more than once in a run: two orders with one number would make one leaflet of two people.

All files are gone through once before any order is used. Of each number only a hash is kept, eight bytes; where
hashes meet, a second walk tells equal numbers from chance. So a million orders need little room.
"""

from __future__ import annotations

from array import array
from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise
from pathlib import Path

from explainer.errors import Fault, InputError, Unforeseen
from explainer.orders.inbox.entries import numbers
from explainer.orders.shop.export import ExportTable

_MOST_NAMED = 3
ExportOf = Callable[[Path], ExportTable | None]


class Survey:
    """What is known of all files before the first order is used: which are broken, which numbers stand twice."""

    def __init__(self, files: Sequence[Path], export_of: ExportOf) -> None:
        self._export_of = export_of
        self.broken: dict[Path, InputError] = {}
        self._places: dict[str, list[str]] = defaultdict(list)
        self._times: dict[str, int] = defaultdict(int)
        hashes = array("q", (hash(number) for path in files for number, _ in self._numbers(path)))
        self._known = array("q", sorted(hashes))
        self._used = bytearray(len(self._known))
        again = {one for one, next_one in pairwise(self._known) if one == next_one}
        if again:
            self._look_closer([path for path in files if path not in self.broken], again)

    def fault(self, number: str, source: str) -> Fault | None:
        """What is wrong with an order of this number in this place: that the number stands elsewhere too."""
        others = self._times.get(number.lower(), 1) - 1
        if others < 1:
            return self._fault_since(number)
        named = [place for place in self._places[number.lower()] if place != source][:_MOST_NAMED]
        more = f" and {others - len(named)} more" if others > len(named) else ""
        return Fault("order", f"{number}, as in {'; '.join(named)}{more}", "each number once")

    def _fault_since(self, number: str) -> Fault | None:
        """What is wrong with a number that stood once, or not at all, when the files were gone through."""
        wanted = hash(number.lower())
        place = bisect_left(self._known, wanted)
        last = bisect_right(self._known, wanted)
        free = next((at for at in range(place, last) if not self._used[at]), None)
        if free is not None:
            self._used[free] = 1
            return None
        found = f"{number}, which has come into the file since it was gone through"
        return Fault("order", found, "files that nobody changes while they are read")

    def _numbers(self, path: Path) -> Iterator[tuple[str, str]]:
        """The numbers of one file, in small letters, with their places; a file that breaks on the way is marked."""
        try:
            for number, source in numbers(path, self._export_of(path)):
                yield number.lower(), source
        except InputError as error:
            self.broken[path] = error
        except Exception as error:
            self.broken[path] = Unforeseen(str(path), error)

    def _look_closer(self, files: Sequence[Path], again: set[int]) -> None:
        for path in files:
            for number, source in self._numbers(path):
                if hash(number) in again:
                    self._times[number] += 1
                    if len(self._places[number]) <= _MOST_NAMED:
                        self._places[number].append(source)
