"""Pages of one leaflet: none missing, none turned round, none from before a correction; in both ways of reading."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pikepdf
import pytest
from click.testing import CliRunner
from many import EXAMPLES

from explainer.cli import main

CODES = ("en-GB", "de", "ar")


def run(*words: object):
    return CliRunner().invoke(main, [str(word) for word in words])


@pytest.fixture(scope="module")
def leaflets(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("pages")
    for code in CODES:
        assert run("make", EXAMPLES / "FL-3125.toml", "-o", folder, "--language", code).exit_code == 0
    (folder / "workshop.toml").write_bytes((EXAMPLES / "workshop.toml").read_bytes())
    text = (EXAMPLES / "FL-3125.toml").read_text("utf-8")
    (folder / "old.toml").write_text(text.replace("Bartholomew", "Barthold"), "utf-8")
    for code in CODES:
        assert run("make", folder / "old.toml", "-o", folder / "old", "--language", code).exit_code == 0
    return folder


def rearranged(path: Path, out: Path, change: Callable[[list], list], other: Path | None = None) -> Path:
    with pikepdf.open(path) as pdf, pikepdf.open(other or path) as more:
        pages = change([*pdf.pages, *more.pages])
        new = pikepdf.new()
        new.Root.Lang = pdf.Root.Lang
        new.pages.extend(pages)
        new.save(out)
    return out


@pytest.mark.slow
@pytest.mark.parametrize("code", CODES)
def test_an_order_knows_its_own_leaflet(leaflets: Path, code: str):
    result = run("check", EXAMPLES / "FL-3125.toml", "--against", leaflets / f"FL-3125.{code}.pdf")

    assert result.exit_code == 0, result.output


@pytest.mark.slow
@pytest.mark.parametrize("code", CODES)
def test_pages_that_are_missing_turned_round_or_from_another_day_are_found(leaflets: Path, tmp_path: Path, code: str):
    good, old = leaflets / f"FL-3125.{code}.pdf", leaflets / "old" / f"FL-3125.{code}.pdf"
    with pikepdf.open(good) as pdf:
        count = len(pdf.pages)
    with pikepdf.open(old) as pdf:
        assert len(pdf.pages) == count
    changes: dict[str, Callable[[list], list]] = {
        "turned round": lambda pages: pages[:count][::-1],
        "two exchanged": lambda pages: [pages[1], pages[0], *pages[2:count]],
        "one twice": lambda pages: [pages[0], pages[0], *pages[2:count]],
        **{f"without {at + 1}": lambda pages, at=at: pages[:at] + pages[at + 1 : count] for at in range(count)},
        **{
            f"page {at + 1} from before": lambda pages, at=at: [*pages[:at], pages[count + at], *pages[at + 1 : count]]
            for at in range(count)
        },
    }
    for name, change in changes.items():
        paper = rearranged(good, tmp_path / "paper.pdf", change, old)
        result = run("check", EXAMPLES / "FL-3125.toml", "--against", paper)
        assert result.exit_code == 1, name
        assert "foot of page" in result.stderr, (name, result.stderr)


@pytest.mark.slow
@pytest.mark.parametrize("code", CODES)
def test_eyes_exchanged_are_found_in_every_direction_of_reading(leaflets: Path, tmp_path: Path, code: str):
    text = (EXAMPLES / "FL-3125.toml").read_text("utf-8")
    text = text.replace("\nright = ", "\nkeep = ").replace("\nleft = ", "\nright = ").replace("\nkeep = ", "\nleft = ")
    (tmp_path / "workshop.toml").write_bytes((EXAMPLES / "workshop.toml").read_bytes())
    (tmp_path / "order.toml").write_text(text, "utf-8")
    result = run("check", tmp_path / "order.toml", "--against", leaflets / f"FL-3125.{code}.pdf")

    assert result.exit_code == 1
    assert 'row "' in result.stderr or "bench" in result.stderr
