"""The page fetches names from a table and nothing else: no file, no address, whoever wrote it there."""

from __future__ import annotations

import base64
import io
from datetime import date
from pathlib import Path

import pikepdf
import pytest
from PIL import Image

from explainer.errors import RenderError
from explainer.render.press.fetch import content_type, table_fetcher
from explainer.render.press.pdf import Pdf, write_pdf


def png() -> bytes:
    written = io.BytesIO()
    Image.new("L", (2, 2), 0).save(written, "PNG")
    return written.getvalue()


def page(body: str, assets: dict[str, bytes] | None = None, css: str = "") -> Pdf:
    return write_pdf(
        f'<html lang="en"><title>t</title><body>{body}',
        assets=assets or {},
        stylesheets=[css],
        title="t",
        language="en",
        direction="ltr",
        created=date(2026, 11, 20),
        identifier="t",
    )


SVG = b'<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><path d="M0 0h9v9z"/></svg>'
INLINE = "data:image/png;base64," + base64.b64encode(png()).decode()


def secret_file(folder: Path) -> Path:
    path = folder / "secret.png"
    path.write_bytes(png())
    return path


ADDRESSES = [
    "file:///etc/hostname",
    "FILE:///etc/hostname",
    "file:/etc/hostname",
    "http://127.0.0.1:9/x.png",
    "HTTPS://127.0.0.1:9/x.png",
    "ftp://127.0.0.1/x.png",
    "jar:file:///etc/hostname!/x",
    "figure:not-in-the-table",
    "data:text/html,<b>x</b>",
    "data:image/svg+xml,<svg/>",
    "data:image/png;base64,bm90IGEgcGljdHVyZQ==",
    "data:image/png;base64,***",
]


@pytest.mark.parametrize("address", ADDRESSES)
def test_a_picture_from_elsewhere_stops_the_page(address: str) -> None:
    with pytest.raises(RenderError, match="may not"):
        page(f'<p><img src="{address}" alt="x"></p>')


@pytest.mark.parametrize(
    "body",
    [
        '<link rel="stylesheet" href="{}"><p>x</p>',
        '<link rel="attachment" href="{}"><p>x</p>',
        '<p><a rel="attachment" href="{}">x</a></p>',
        '<style>@import url("{}");</style><p>x</p>',
        '<style>p {{ background: url("{}") }}</style><p>x</p>',
        '<style>@font-face {{ font-family: f; src: url("{}") }} p {{ font-family: f }}</style><p>x</p>',
        '<object data="{}">x</object>',
        '<embed src="{}">',
    ],
)
def test_no_other_way_into_the_files_is_open(body: str, tmp_path: Path) -> None:
    with pytest.raises(RenderError, match="may not fetch"):
        page(body.format(secret_file(tmp_path).as_uri()))


def test_a_style_sheet_cannot_import(tmp_path: Path) -> None:
    with pytest.raises(RenderError, match="may not fetch"):
        page("<p>x</p>", css=f'@import url("{secret_file(tmp_path).as_uri()}");')


def test_a_logo_cannot_draw_in_a_file(tmp_path: Path) -> None:
    """The engine swallows the refusal inside a drawing and logs it, which stops the page as well."""
    address = secret_file(tmp_path).as_uri()
    logo = SVG.replace(b"<path", f'<image href="{address}" width="9" height="9"/><path'.encode())
    with pytest.raises(RenderError, match="Failed to render SVG image logo:workshop"):
        page('<p><img src="logo:workshop" alt="x"></p>', {"logo:workshop": logo})


def test_a_relative_address_is_a_fault() -> None:
    with pytest.raises(RenderError, match="faults"):
        page('<p><img src="secret.png" alt="x"></p>')


def test_names_in_the_table_and_inline_pictures_are_drawn() -> None:
    drawn = SVG.replace(b"<path", f'<image href="{INLINE}" width="9" height="9"/><path'.encode())
    made = page(
        f'<p><img src="figure:a.1" alt="a"><img src="logo:l" alt="b"><img src="{INLINE}" alt="c"></p>',
        {"figure:a.1": drawn, "logo:l": png()},
    )
    assert made.log == ()
    with pikepdf.open(io.BytesIO(made.data)) as pdf:
        images = [item for item in pdf.objects if isinstance(item, pikepdf.Stream) and item.get("/Subtype") == "/Image"]
    assert len(images) >= 2


def test_a_style_sheet_of_the_table_is_used() -> None:
    made = page('<link rel="stylesheet" href="css:extra"><p>x</p>', {"css:extra": b"p { margin-left: 30mm }"})
    plain = page("<p>x</p>")
    assert made.data != plain.data


@pytest.mark.parametrize("name", ["file:///etc/hostname", "figure:../x", "figure:", "picture:x", "figure:a b"])
def test_a_table_with_a_wrong_name_is_refused(name: str) -> None:
    with pytest.raises(RenderError, match="an asset is named"):
        table_fetcher({name: SVG})


@pytest.mark.parametrize(
    ("name", "body", "kind"),
    [
        ("figure:x", png(), "image/png"),
        ("logo:x", b"\xff\xd8\xff\xe0", "image/jpeg"),
        ("font:x", b"\x00\x01\x00\x00", "font/ttf"),
        ("figure:x", SVG, "image/svg+xml"),
        ("css:x", b"p {}", "text/css"),
    ],
)
def test_the_kind_is_told_by_the_first_bytes(name: str, body: bytes, kind: str) -> None:
    assert content_type(name, body) == kind
