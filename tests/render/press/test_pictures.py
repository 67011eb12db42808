"""Drawings painted once look as if the engine had painted them, and a faulty one is told every time."""

from __future__ import annotations

import subprocess
from datetime import date
from pathlib import Path

import pytest
from many import EXAMPLES

from explainer.errors import RenderError
from explainer.keeping import write_kept
from explainer.orders import read_order
from explainer.render.leaflet import make_leaflet
from explainer.render.press import pdf, pictures, setting

SVG = b'<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="20mm" viewBox="0 0 40 20">%b</svg>'
PAGE = '<html lang="en"><body><img src="figure:a" alt="a" style="width:40mm;height:20mm"></body></html>'


def written(svg: bytes) -> bytes:
    return pdf.write_pdf(
        PAGE,
        assets={"figure:a": svg},
        stylesheets=["@page { size: 60mm 40mm; margin: 5mm }"],
        title="t",
        language="en",
        direction="ltr",
        created=date(2026, 11, 20),
        identifier="t",
    ).data


def raster(data: bytes, folder: Path) -> list[bytes]:
    """Every page as poppler paints it."""
    folder.mkdir()
    (folder / "page.pdf").write_bytes(data)
    subprocess.run(["pdftoppm", "-r", "60", "-png", folder / "page.pdf", folder / "page"], check=True)
    return [path.read_bytes() for path in sorted(folder.glob("*.png"))]


def by_the_engine(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pdf, "pictures", lambda _: {})
    monkeypatch.setattr(setting, "_store", setting._Store())  # blocks that were set hold the pictures of then


@pytest.mark.slow
def test_a_leaflet_looks_the_same_painted_by_copy_and_by_the_engine(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    order = read_order(EXAMPLES / "FL-3125.toml")
    first = make_leaflet(order).pdf
    copied = make_leaflet(order).pdf
    by_the_engine(monkeypatch)
    own = make_leaflet(order).pdf

    assert copied == first
    assert raster(copied, tmp_path / "copied") == raster(own, tmp_path / "own")


@pytest.mark.parametrize(
    "body",
    [
        b'<rect width="30" height="10" fill="#c00" fill-opacity="0.35" stroke="#00c" stroke-opacity="0.5"/>',
        b'<g transform="rotate(20 20 10)" opacity="0.4"><circle cx="20" cy="10" r="8" fill="#0a0"/></g>',
        b'<clipPath id="c"><rect width="9" height="9"/></clipPath><circle cx="9" cy="9" r="8" clip-path="url(#c)"/>',
        b'<linearGradient id="g"><stop offset="0" stop-color="#fff"/><stop offset="1" stop-color="#000"/>'
        b'</linearGradient><rect width="40" height="20" fill="url(#g)"/>',
        b'<path d="M2 2 L38 18" stroke="#000" stroke-width="0.5" stroke-dasharray="2 1" fill="none"/>',
    ],
    ids=["opacities", "group", "clip", "gradient", "dashes"],
)
def test_each_kind_of_painting_looks_the_same(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, body: bytes):
    svg = SVG % body
    written(svg)
    copied = written(svg)
    by_the_engine(monkeypatch)

    assert raster(copied, tmp_path / "copied") == raster(written(svg), tmp_path / "own")


def test_a_drawing_that_is_no_xml_is_refused_every_time():
    for _ in range(2):
        with pytest.raises(RenderError, match="Failed to load image"):
            written(b"<svg")


def test_a_drawing_that_fails_half_way_is_refused_every_time(monkeypatch: pytest.MonkeyPatch):
    from weasyprint import svg

    def fail(*_: object) -> None:
        raise ZeroDivisionError

    monkeypatch.setitem(svg.TAGS, "rect", fail)
    for _ in range(2):
        with pytest.raises(RenderError, match="Failed to render SVG"):
            written(SVG % b'<rect width="7" height="7"/>')


def test_only_so_many_drawings_stay_in_memory():
    for number in range(100):
        pictures.pictures({"figure:a": SVG % (b'<rect width="%d" height="1"/>' % number)})

    kept = pictures._picture.cache_info()
    assert kept.currsize == kept.maxsize == 40


def test_a_painting_is_kept_for_the_next_run_and_never_trusted_when_damaged(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    body = b'<path d="M 1 1 L 9 9" stroke="#123" stroke-opacity="0.5" fill="none"/>'
    first = painted_in_a_new_run(body)
    (kept,) = (tmp_path / "explainer" / "paintings").iterdir()
    assert kept.stat().st_mode & 0o777 == 0o600

    with monkeypatch.context() as unpainted:
        unpainted.setattr(pictures._Picture, "_paint", None)
        assert painted_in_a_new_run(body) == first

    kept.write_bytes(kept.read_bytes()[:-20] + b"1 0 0 rg" + kept.read_bytes()[-12:])
    assert painted_in_a_new_run(body) == first
    for other in ({"operations": "1 0 0 rg"}, {"operations": 1, "opacities": []}, {"opacities": [1], "operations": ""}):
        write_kept(kept, kept.stem, other)
        assert painted_in_a_new_run(body) == first


def painted_in_a_new_run(body: bytes) -> bytes:
    pictures._picture.cache_clear()
    return written(SVG % body)
