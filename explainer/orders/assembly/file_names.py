"""The names of files that are made for an order: number, language and kind, parted by dots, never a person's name.

No two orders share a name: a language holds no dot, so that from the end the parts are always told from the number,
whatever dots and dashes the number has itself. `1234` in `de-DE` and `1234-de` in `DE` stay two files.
"""

from __future__ import annotations

from explainer.orders.assembly.order import Order


def file_name(order: Order, *parts: str, ending: str) -> str:
    """Such as `FL-3107.en-GB.pdf` or `FL-3107.en-GB.large-print.pdf`. `parts` are words of this program, no tags."""
    return ".".join((order.number, order.language, *parts, ending))


def name_key(name: str) -> str:
    """Equal for names that some systems take for the same file: they may not tell small letters from capitals."""
    return name.casefold()
