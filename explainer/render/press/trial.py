"""One drawing on a page of its own, in a process of its own that may use only so much time and memory."""

from __future__ import annotations

import contextlib
import datetime as dt
import sys

LONGEST_S = 20
MOST_MEMORY = 2_000_000_000
LARGEST_PAGE = 5_000_000
CANNOT_TELL = 3
"""The exit code when the engine itself is missing: the page will tell that."""

_PAGE = (
    '<!doctype html><html lang="en"><head><title>logo</title></head>'
    '<body><img src="logo:workshop" alt="logo" style="max-width: 60mm; max-height: 25mm"></body></html>'
)


def _limit() -> None:
    """Let the system end this process when it takes too much; where it cannot, the parent's clock alone counts."""
    with contextlib.suppress(ImportError, ValueError, OSError):
        import resource

        resource.setrlimit(resource.RLIMIT_CPU, (LONGEST_S, LONGEST_S))
        resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))


def main() -> int:
    """Draws what standard input holds; 0 when it can be drawn."""
    from explainer.errors import RenderError
    from explainer.render.press.engine import engine
    from explainer.render.press.pdf import write_pdf

    try:
        engine()
    except RenderError:
        return CANNOT_TELL
    _limit()
    made = write_pdf(
        _PAGE,
        assets={"logo:workshop": sys.stdin.buffer.read()},
        stylesheets=[],
        title="logo",
        language="en",
        direction="ltr",
        created=dt.date(2000, 1, 1),
        identifier="logo",
    )
    return 0 if len(made.data) <= LARGEST_PAGE else 1


if __name__ == "__main__":
    sys.exit(main())
