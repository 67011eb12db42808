"""The results as tables on paper 120 wide: items from the worst, leaflets from the worst, pages."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from typing import Any

from scoring.marks import ALL_ITEMS, GATES, READERS_ONLY, READERS_TOO
from scoring.sheet import Result


def print_tables(results: list[Result]) -> None:
    """Everything, to standard output."""
    sys.stdout.write("".join(f"{line}\n" for line in lines(results)))


def lines(results: list[Result]) -> Iterator[str]:
    """The tables as lines."""
    yield f"{len(results)} leaflets"
    yield from _not_made(results)
    made = [result for result in results if not result.fault]
    if made:
        yield from _items(made)
        yield from _leaflets(made)
        yield from _pages(made)
    yield ""
    yield "Readers only: " + "; ".join(f"{name} {what}" for name, what in READERS_ONLY.items())
    yield "Readers too: " + ", ".join(sorted(READERS_TOO))
    yield ""
    worst = min(results, key=lambda result: result.share)
    gates = sorted({gate for result in results for gate in result.gates})
    yield f"WORST: {worst.share:.0%} ({worst.case.name}); open gates: {', '.join(gates) or 'none'}"


def _not_made(results: list[Result]) -> Iterator[str]:
    missing = [result for result in results if result.fault]
    if missing:
        yield ""
        yield "NOT MADE, although the order is accepted"
        yield from (f"  {result.case.name}: {result.fault}" for result in missing)


def weight(name: str, results: list[Result]) -> tuple[bool, int, int]:
    """What makes an item urgent: a gate, points lost in the worst leaflet, in how many leaflets."""
    lost = [2 - result.marks[name].points for result in results if result.marks[name].points is not None]  # type: ignore[operator]
    return name in GATES and any(lost), max(lost, default=0), sum(lost)


def _items(results: list[Result]) -> Iterator[str]:
    yield ""
    yield "ITEMS, the heaviest first: worst mark, points lost in all leaflets, leaflets below 2 of those it applies to"
    checked = [name for name in ALL_ITEMS if name in results[0].marks]
    for name in sorted(checked, key=lambda name: weight(name, results), reverse=True):
        marks = [(result, result.marks[name]) for result in results]
        applies = [(result, mark) for result, mark in marks if mark.points is not None]
        if not applies:
            yield f"  {name:3}  -   applies to no leaflet ({marks[0][1].reason})"
            continue
        below = [(result, mark) for result, mark in applies if mark.points != 2]
        result, mark = min(applies, key=lambda pair: (pair[1].points, -len(pair[1].reason)))
        gate = "*" if name in GATES else " "
        lost = sum(2 - (each.points or 0) for _, each in below)
        yield f"{gate} {name:3} {mark.points}  -{lost:<4} {len(below)}/{len(applies)}"
        if below:
            yield f"        {result.case.name}: {mark.reason}"
            yield from _other_reasons(below, mark.reason)


def _other_reasons(below: list[tuple[Result, Any]], shown: str) -> Iterator[str]:
    """Other reasons than the one shown, each with its first leaflet, up to six."""
    seen = set(shown.split("; "))
    count = 0
    for result, mark in below:
        for reason in mark.reason.split("; "):
            key = "".join(sign for sign in reason if not sign.isdigit())
            if reason not in seen and key not in seen and count < 6:
                seen |= {reason, key}
                count += 1
                yield f"          also {result.case.name}: {reason}"


def _leaflets(results: list[Result]) -> Iterator[str]:
    yield ""
    yield "LEAFLETS, the worst first: share of points, open gates, items below 2"
    for result in sorted(results, key=lambda result: (result.share, result.case.name)):
        low = [f"{name}={mark.points}" for name, mark in result.marks.items() if mark.points in (0, 1)]
        gates = ",".join(result.gates) or "-"
        yield f"  {result.share:4.0%}  {gates:8} {result.case.name:60} {' '.join(low)}"


def _pages(results: list[Result]) -> Iterator[str]:
    yield ""
    yield "PAGES: count, smallest type [pt, small x mm], text contrast, empty share, emptiest column (last page apart);"
    yield "       beyond margins, overprinted, orphan headings, torn cautions, loose labels"
    for result in results:
        page = result.pages
        counts = " ".join(str(len(page[key])) for key in ("outside", "overprinted", "orphans", "torn", "loose_labels"))
        yield (
            f"  {result.case.name:60} {page['pages']}p  {page['smallest_pt']:5.2f} {page['smallest_x_mm']:.2f}  "
            f"{page['contrast']:4.1f}  {page['empty']:4.0%}  "
            f"{page['emptiest']:4.0%} {page['where_emptiest']:17} {counts}"
        )
        for key in ("outside", "overprinted", "orphans", "torn", "loose_labels"):
            yield from (f"      {key}: {where}" for where in page[key][:4])


def as_json(results: list[Result]) -> list[dict[str, Any]]:
    """Every mark, reason and measure."""
    return [
        {
            "order": result.case.order.stem,
            "edition": result.case.edition,
            "paper": result.case.paper,
            "language": result.case.language,
            "share": round(result.share, 4),
            "gates": result.gates,
            "fault": result.fault,
            "marks": {name: {"points": mark.points, "reason": mark.reason} for name, mark in result.marks.items()},
            "pages": result.pages,
        }
        for result in results
    ]
