"""The logo and the accent: known by their content, small when unpacked, shapes only, dark enough to read."""

from __future__ import annotations

import io
import struct
import zlib
from pathlib import Path

import pytest
from PIL import Image

from explainer.errors import InputError
from explainer.orders.shop.colour import LEAST_CONTRAST, contrast_on_white, darkened
from explainer.orders.shop.workshop import Workshop, read_workshop

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="90" height="30"'
SHAPE = '<path d="M2 10V2h6l4 5" fill="none" stroke="#0b4a57"/>'


def shop_with(folder: Path, line: str) -> Workshop:
    path = folder / "workshop.toml"
    path.write_text(f'name = "Larkmere Bench"\n{line}\n', encoding="utf-8")
    return read_workshop(path)


def found_in(folder: Path, name: str, body: bytes) -> str | None:
    """What the refusal says was found; None when the logo is taken."""
    (folder / name).write_bytes(body)
    try:
        shop_with(folder, f'logo = "{name}"')
    except InputError as error:
        (fault,) = error.faults
        assert fault.field == "logo"
        return fault.found
    return None


def picture(kind: str, size: tuple[int, int] = (60, 20), mode: str = "RGB") -> bytes:
    written = io.BytesIO()
    Image.new(mode, size).save(written, kind)
    return written.getvalue()


def drawing(inside: str = SHAPE, more: str = "", before: str = "") -> bytes:
    return f"{before}{HEAD}{more}>{inside}</svg>".encode()


def chunk(kind: bytes, body: bytes) -> bytes:
    """A chunk of a PNG file: length, kind, body, checksum (W3C PNG, third edition, section 5.3)."""
    return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))


def png_that_says(width: int, height: int, rows: bytes, *more: bytes) -> bytes:
    """A PNG whose head states these sizes, whatever its data hold (section 11.2.1: width, height, depth, colour …)."""
    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    data = chunk(b"IDAT", zlib.compress(rows, 9))
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + b"".join(more) + data + chunk(b"IEND", b"")


@pytest.mark.parametrize(
    ("name", "body"),
    [
        ("logo.png", picture("PNG")),
        ("LOGO.PNG", picture("PNG", mode="RGBA")),
        ("logo.jpg", picture("JPEG")),
        ("logo.jpeg", picture("JPEG", mode="CMYK")),
        ("wide.png", picture("PNG", (4000, 100), "1")),
        ("logo.svg", drawing()),
        ("prologue.svg", drawing(before='<?xml version="1.0" encoding="UTF-8"?>\n<!-- ours -->\n')),
        (
            "typed.svg",
            drawing(
                before='<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">'
            ),
        ),
        ("box.svg", b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 90 30"><path d="M0 0h9"/></svg>'),
        ("used.svg", drawing('<defs><path id="a" d="M0 0h9"/></defs>' + '<use xlink:href="#a" x="9"/>' * 50)),
        ("styled.svg", drawing(f"<style>.a {{ fill: #123456 }}</style>{SHAPE}")),
        (
            "shaded.svg",
            drawing('<linearGradient id="g"><stop offset="0"/></linearGradient><path d="M0 0h9v9z" fill="url(#g)"/>'),
        ),
    ],
)
def test_a_picture_that_is_what_its_ending_says_is_taken(tmp_path: Path, name: str, body: bytes):
    assert found_in(tmp_path, name, body) is None


@pytest.mark.parametrize(
    ("name", "body"),
    [
        ("logo.png", picture("JPEG")),
        ("logo.jpg", picture("PNG")),
        ("logo.png", drawing()),
        ("logo.svg", picture("PNG")),
        ("logo.png", b"\x89PNG"),
        ("logo.png", b""),
        ("logo.svg", b""),
        ("logo.png", b"%PDF-1.7 not a picture"),
        ("logo.jpg", b"<html><script>x</script></html>"),
        ("logo.svg", b"<html><script>x</script></html>"),
        ("logo.svg", b"<svg width='9' height='9'/>"),
        ("logo.svg", HEAD.encode()),
    ],
)
def test_another_thing_under_the_name_of_a_picture_is_refused(tmp_path: Path, name: str, body: bytes):
    assert (found_in(tmp_path, name, body) or "").startswith(("no ", "a drawing"))


def test_a_picture_cut_short_is_refused(tmp_path: Path):
    noise = Image.effect_noise((60, 20), 80).convert("RGB")
    for kind, name in (("PNG", "cut.png"), ("JPEG", "cut.jpg")):
        written = io.BytesIO()
        noise.save(written, kind)
        assert found_in(tmp_path, name, written.getvalue()[: len(written.getvalue()) // 2])


@pytest.mark.parametrize("size", [(4001, 20), (20, 4001), (60_000, 60_000), (2_000_000_000, 1)])
def test_a_picture_that_unpacks_to_more_than_a_logo_needs_is_refused_by_its_head(tmp_path: Path, size: tuple[int, int]):
    """A few kilobytes may unpack to gigabytes; the size stands in the head, before the data."""
    assert found_in(tmp_path, "bomb.png", png_that_says(*size, rows=b"\0" * 1000))


def test_a_jpeg_of_too_many_pixels_is_refused(tmp_path: Path):
    assert found_in(tmp_path, "bomb.jpg", picture("JPEG", (4001, 8), "L")) == "4001 by 8 pixels"


def test_a_text_inside_a_picture_that_unpacks_to_a_hundred_megabytes_is_refused(tmp_path: Path):
    """Compressed text chunks (W3C PNG, section 11.3.3.3) are a bomb in a picture of one pixel."""
    bomb = chunk(b"zTXt", b"Comment\0\0" + zlib.compress(b"a" * 100_000_000, 9))
    assert len(bomb) < 200_000

    assert found_in(tmp_path, "text.png", png_that_says(1, 1, b"\0\0", bomb))


def test_a_moving_picture_is_refused(tmp_path: Path):
    written = io.BytesIO()
    frames = [Image.new("L", (9, 9), shade) for shade in (0, 255)]
    frames[0].save(written, "PNG", save_all=True, append_images=frames[1:])

    assert found_in(tmp_path, "moving.png", written.getvalue()) == "a moving picture"


LAUGHS = "".join(f'<!ENTITY l{i} "{f"&l{i - 1};" * 10 if i else "ha"}">' for i in range(10))


@pytest.mark.parametrize(
    "body",
    [
        drawing("<script>alert(1)</script>"),
        drawing("<script xlink:href='x.js'/>"),
        drawing(more=' onload="alert(1)"'),
        drawing('<path d="M0 0h9" onclick="alert(1)"/>'),
        drawing('<image href="file:///etc/hostname" width="9" height="9"/>'),
        drawing('<image xlink:href="data:image/png;base64,AAAA" width="9" height="9"/>'),
        drawing('<use href="other.svg#a"/>'),
        drawing('<use xlink:href="http://127.0.0.1:9/x.svg#a"/>'),
        drawing('<a href="#a"><path d="M0 0h9"/></a>'),
        drawing("<foreignObject><p>x</p></foreignObject>"),
        drawing("<animate attributeName='x'/>"),
        drawing("<set attributeName='x'/>"),
        drawing("<text>Larkmere</text>"),
        drawing('<filter id="f"/>'),
        drawing('<pattern id="p"/>'),
        drawing('<path d="M0 0h9" style="fill: url(http://127.0.0.1:9/x)"/>'),
        drawing('<path d="M0 0h9" fill="URL( \'x.svg#a\')"/>'),
        drawing('<path d="M0 0h9" style="fill: u\\72l(x)"/>'),
        drawing('<path d="M0 0h9" xml:base="http://127.0.0.1:9/"/>'),
        drawing("<style>@import 'x.css';</style>"),
        drawing("<style>@font-face { font-family: f; src: url(x) }</style>"),
        drawing("<style>.a { fill: url(x.svg#a) }</style>"),
        drawing("<style><![CDATA[.a { fill: url(x.svg#a) }]]></style>"),
        drawing(before="<?xml-stylesheet href='x.css'?>"),
        drawing(before='<!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/hostname">]>'),
        drawing("<title>&l9;</title>", before=f"<!DOCTYPE svg [{LAUGHS}]>"),
        drawing("<title>&nbsp;</title>", before='<!DOCTYPE svg SYSTEM "x.dtd">'),
        drawing("<title>&nbsp;</title>"),
        drawing("<g>" * 100 + "</g>" * 100),
        drawing("<g/>" * 10_001),
        drawing('<path id="a" d="M0 0"/><path id="a" d="M1 1"/>'),
        drawing('<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>'),
        drawing('<g id="a"><use href="#a"/></g>'),
        drawing(SHAPE + " " * 500_000),
        b'<svg xmlns="http://www.w3.org/2000/svg"><path d="M0 0h9"/></svg>',
        b'<svg xmlns="http://www.w3.org/2000/svg" width="0" height="30"><path d="M0 0h9"/></svg>',
        b'<svg xmlns="http://www.w3.org/2000/svg" width="1e9" height="1e9"><path d="M0 0h9"/></svg>',
        drawing().decode().encode("utf-16").replace(b"p\0a\0t\0h\0", b"s\0c\0r\0i\0p\0t\0"),
    ],
)
def test_a_drawing_that_does_more_than_show_shapes_is_refused(tmp_path: Path, body: bytes):
    assert found_in(tmp_path, "logo.svg", body)


@pytest.mark.parametrize("link", ['<use href="#{}"/>', '<path d="M0 0h9" clip-path="url(#{})"/>'])
def test_uses_of_uses_that_would_draw_a_thousand_million_shapes_are_refused(tmp_path: Path, link: str):
    """Nine levels of ten: 500 bytes of the kind known as the billion laughs, without any entity."""
    levels = "".join(f'<g id="l{i}">{link.format(f"l{i - 1}") * 10}</g>' for i in range(1, 10))
    body = drawing(f'<g id="l0">{SHAPE}</g>{levels}<use href="#l9"/>')
    assert len(body) < 5000

    assert "when every use is drawn" in (found_in(tmp_path, "logo.svg", body) or "")


def test_a_link_to_a_picture_elsewhere_is_refused(tmp_path: Path):
    (tmp_path / "secret.png").write_bytes(picture("PNG"))
    shop = tmp_path / "shop"
    shop.mkdir()
    (shop / "logo.png").symlink_to(tmp_path / "secret.png")

    with pytest.raises(InputError, match="a link to another folder"):
        shop_with(shop, 'logo = "logo.png"')


def test_a_folder_of_words_elsewhere_is_refused(tmp_path: Path):
    (tmp_path / "elsewhere").mkdir()
    shop = tmp_path / "shop"
    shop.mkdir()
    (shop / "words").symlink_to(tmp_path / "elsewhere")

    with pytest.raises(InputError, match="house_wording"):
        shop_with(shop, 'house_wording = "words"')


@pytest.mark.parametrize(
    ("colour", "ratio"),
    [("#000000", 21.0), ("#ffffff", 1.0), ("#777777", 4.48), ("#767676", 4.54), ("#0000ff", 8.59), ("#ff0000", 4.0)],
)
def test_contrast_on_white_is_that_of_wcag(colour: str, ratio: float):
    """Ends of the scale from WCAG 2.2 (21:1 and 1:1); the others are common practice of checkers: #767676 is the
    lightest grey that passes 4.5:1, #777777 just fails, pure red has 4.0, pure blue 8.59."""
    assert contrast_on_white(colour) == pytest.approx(ratio, abs=0.006)


@pytest.mark.parametrize("colour", ["#0B4A57", "#1f4e79", "#000000", "#595959"])
def test_a_dark_accent_is_taken(tmp_path: Path, colour: str):
    assert shop_with(tmp_path, f'accent = "{colour}"').accent == colour


@pytest.mark.parametrize("colour", ["#5A5A5A", "#0072B2", "#E69F00", "#FFFFFF", "#ff0000", "#00ff00"])
def test_a_pale_accent_is_refused_with_a_darker_one_that_is_taken(tmp_path: Path, colour: str):
    with pytest.raises(InputError) as refused:
        shop_with(tmp_path, f'accent = "{colour}"')
    (fault,) = refused.value.faults
    offered = fault.accepted.rpartition(" ")[2]

    assert (fault.field, offered) == ("accent", darkened(colour))
    assert contrast_on_white(offered) >= LEAST_CONTRAST == 7
    assert shop_with(tmp_path, f'accent = "{offered}"').accent == offered
