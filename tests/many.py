"""Order files by the dozen, and runs of the program in a process of its own."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path

HOME = Path(__file__).parents[1]
EXAMPLES = HOME / "output_examples" / "orders"


def write_orders(folder: Path, count: int, example: str = "FL-3118") -> list[Path]:
    """So many orders, alike but for their numbers and one sphere; the workshop file beside them."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "workshop.toml").write_bytes((EXAMPLES / "workshop.toml").read_bytes())
    text = (EXAMPLES / f"{example}.toml").read_text(encoding="utf-8")
    paths = []
    for number in range(count):
        path = folder / f"M-{number:03}.toml"
        one = text.replace(example, f"M-{number:03}").replace("-5.25", f"-{5 + number % 10 / 4:.2f}")
        path.write_text(one, encoding="utf-8")
        paths.append(path)
    return paths


def start(*words: object) -> subprocess.Popen[str]:
    """The program as a user starts it, in a group of processes of its own; Ctrl-C reaches it.

    A shell has what it starts in the background ignore Ctrl-C, and children inherit that, the tests' too.
    """
    return subprocess.Popen(
        [sys.executable, "-m", "explainer", *map(str, words)],
        cwd=HOME,
        env={**os.environ, "PYTHONPATH": str(HOME)},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL),  # noqa: PLW1509 - the tests have no threads
    )


def is_whole(path: Path) -> bool:
    """Whether a PDF can be read to its end, every page of it, by a reader that is not ours (qpdf, through pikepdf)."""
    import pikepdf

    try:
        with pikepdf.open(path) as pdf:
            return not pdf.check_pdf_syntax() and all(page.Contents.read_bytes() for page in pdf.pages)
    except pikepdf.PdfError:
        return False
