"""`explainer headings`: from a shop's export to a first [export] for the workshop file."""

from __future__ import annotations

from pathlib import Path

import click

from explainer.cli.common import guarded
from explainer.cli.streams import say, tell


@click.command(epilog="Example: explainer headings shop-orders.csv >> workshop.toml")
@click.argument("export", type=click.Path(path_type=Path, exists=True, dir_okay=False))
@guarded
def headings(*, export: Path) -> int:
    """Propose which heading of a shop's export is which field of ours, as a table for the workshop file."""
    from explainer.orders.tables.proposal import sample_of
    from explainer.orders.tables.proposed_toml import doubts, proposed_toml

    text = proposed_toml(sample_of(export))
    say(text, nl=False)
    tell(f'in doubt, marked "# ?": {doubts(text)}; what they leave open is refused until it is decided')
    return 0
