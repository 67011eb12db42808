"""`explainer sent`: what was made for an order, and what has changed since."""

from __future__ import annotations

import json
from pathlib import Path

import click

from explainer.cli.common import JSON, LANGUAGE, WORKSHOP, guarded, some_there
from explainer.cli.streams import say, say_json, tell
from explainer.errors import visible


@click.command(epilog="Example: explainer sent KOFU --report out/report.jsonl orders/")
@click.argument("wanted", metavar="NUMBER-OR-WORD")
@click.argument("orders", nargs=-1, type=click.Path(path_type=Path), callback=some_there)
@click.option(
    "--report",
    type=click.Path(path_type=Path, exists=True, dir_okay=False),
    required=True,
    help="The report that `make --report` has written.",
)
@LANGUAGE
@WORKSHOP
@JSON
@guarded
def sent(
    *,
    wanted: str,
    orders: tuple[Path, ...],
    report: Path,
    language: str | None,
    workshop: Path | None,
    as_json: bool,
) -> int:
    """Find what was made by order number or check word; with ORDERS, say what has changed since."""
    from explainer.batch.sent import sent as found_in
    from explainer.orders import read_orders

    results = read_orders(list(orders), workshop_path=workshop, language=language) if orders else ()
    found = list(found_in(report, wanted, [result.order for result in results if result.order]))
    for one in found:
        since = f"; changed since: {one.order_now}" if one.order_now else ""
        made = f", {one.made_on}" if one.made_on else ""
        words = f"{one.order} {one.check_word}{made}: {one.file}, {one.language}, {one.file_now}{since}"
        if as_json:
            say_json(json.dumps(one.as_json(), ensure_ascii=False))
        else:
            say(visible(words))
    if not found:
        tell(f"nothing in {report} under {wanted!r}")
    return 0 if found else 1
