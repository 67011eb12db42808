"""A workshop's logo: what check accepts make draws, and what takes too much is found apart, before any leaflet has it.

Kinds of PNG from its standard (W3C PNG, third edition, section 11.2.1: colour types and depths).
"""

from __future__ import annotations

import io
import random
import struct
import time
import zlib
from pathlib import Path

import pytest
from PIL import Image

from explainer.errors import InputError
from explainer.orders.shop.drawing import clean_drawing
from explainer.orders.shop.logo import checked_logo, drawable
from explainer.render.press import logo, trial
from explainer.render.press.logo import logo_picture

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="90" height="30"'
SHAPE = '<path d="M0 0h9v9z"/>'


def drawing(inside: str = SHAPE) -> bytes:
    return f"{HEAD}>{inside}</svg>".encode()


def png(colour: int, depth: int) -> bytes:
    def chunk(kind: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))

    channels = {0: 1, 2: 3, 3: 1, 4: 2, 6: 4}[colour]
    rows = (b"\0" + b"\x55" * ((16 * depth * channels + 7) // 8)) * 8
    palette = chunk(b"PLTE", bytes(range(3 * min(2**depth, 64)))) if colour == 3 else b""
    head = chunk(b"IHDR", struct.pack(">IIBBBBB", 16, 8, depth, colour, 0, 0, 0))
    return b"\x89PNG\r\n\x1a\n" + head + palette + chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b"")


KINDS = [(0, 1), (0, 2), (0, 4), (0, 8), (0, 16), (2, 8), (2, 16), (3, 1), (3, 4), (4, 8), (4, 16), (6, 8), (6, 16)]


def drawn(body: bytes) -> None:
    import datetime as dt

    from explainer.render.press.pdf import write_pdf

    page = '<html lang="en"><title>x</title><body><img src="logo:workshop" alt="x" style="width: 20mm"></body></html>'
    made = write_pdf(
        page,
        assets={"logo:workshop": body},
        stylesheets=[],
        title="x",
        language="en",
        direction="ltr",
        created=dt.date(2026, 1, 1),
        identifier="x",
    )
    assert made.data.startswith(b"%PDF")


@pytest.mark.parametrize(("colour", "depth"), KINDS)
def test_every_kind_of_png_that_is_accepted_can_be_drawn(tmp_path: Path, colour: int, depth: int):
    path = tmp_path / "logo.png"
    path.write_bytes(png(colour, depth))
    faults: list = []
    checked_logo(tmp_path, "logo.png", faults)

    assert not faults
    drawn(logo_picture(path, "workshop.toml"))


@pytest.mark.parametrize("mode", ["1", "L", "RGB", "CMYK", "YCbCr"])
def test_every_kind_of_jpeg_that_is_accepted_can_be_drawn(tmp_path: Path, mode: str):
    path = tmp_path / "logo.jpg"
    Image.new(mode, (20, 10)).save(path)

    drawn(logo_picture(path, "workshop.toml"))


def test_sixteen_bits_of_grey_keep_their_shades():
    deep = Image.new("I;16", (3, 1))
    deep.frombytes(struct.pack("<3H", 0, 0x8000, 0xFFFF))
    written = io.BytesIO()
    deep.save(written, "PNG")
    shallow = Image.open(io.BytesIO(drawable(written.getvalue())))

    assert (shallow.mode, shallow.tobytes()) == ("L", bytes([0, 128, 255]))


RUNS_AWAY = {
    "a gradient repeated without an end": (
        '<radialGradient id="g" r="0.0000001" spreadMethod="repeat"><stop offset="0"/></radialGradient>'
        '<rect width="90" height="30" fill="url(#g)"/>'
    ),
    "a gradient reflected": '<linearGradient id="g" x2="1e-9" spreadMethod="reflect"/>',
    "selectors inside selectors": "<style>" + "g " * 900 + "{ fill: red }</style>" + "<g>" * 40 + "</g>" * 40,
    "selectors of brothers": "<style>" + "* ~ " * 20 + "* { fill: red }</style>" + SHAPE * 900,
    "a question in a selector": '<style>:not(:is(g:has(path))) { fill: red }</style><path d="M0 0"/>',
    "an attribute in a selector": '<style>[d*="a"] { fill: red }</style>',
    "a function in a style": '<rect width="9" height="9" style="fill: image-set(url(#a))"/>',
    "dashes as fine as dust": '<path d="M0 0H90000" stroke="red" stroke-dasharray="0.0000001 0.0000001"/>',
    "a stroke of no measure": '<path d="M0 0h9" stroke="red" stroke-width="1e30"/>',
    "a place of no measure": '<path d="M0 0L1e60 1e60"/>',
    "numbers that are none": '<rect width="NaN" height="Infinity"/>',
    "a turn of no measure": f'<g transform="{"rotate(9) " * 900}">{SHAPE}</g>',
    "a path drawn ten thousand times": f'<path id="p" d="M0 0{"h1v1" * 9000}"/>' + '<use href="#p"/>' * 2000,
    "a filter by style": '<rect width="9" height="9" filter="url(#f)"/>',
    "a mask by style": '<rect width="9" height="9" style="mask: url(#m)"/>',
    "a marker of its own": '<path d="M0 0h9" marker-start="url(#m)"/>',
}


@pytest.mark.parametrize("inside", RUNS_AWAY.values(), ids=RUNS_AWAY.keys())
def test_what_would_run_away_is_refused_before_it_is_drawn(inside: str):
    begun = time.monotonic()
    copy = clean_drawing(drawing(inside))

    assert isinstance(copy, tuple) or b"url(#m)" not in copy
    assert isinstance(copy, tuple) or "marker" in inside  # dropped as a style that nothing here has
    assert time.monotonic() - begun < 2


def test_elements_of_other_namespaces_are_not_copied_and_print_nothing():
    foreign = (
        '<x:text xmlns:x="urn:x">SECRET</x:text><x:path xmlns:x="urn:x" d="M0 0h9"/><metadata><rdf:a xmlns:rdf="urn:r">'
        "SECRET</rdf:a></metadata><title>SECRET</title><desc>SECRET</desc>"
    )
    copy = clean_drawing(drawing(f"SECRET{foreign}{SHAPE}"))

    assert isinstance(copy, bytes)
    assert b"SECRET" not in copy
    assert copy.count(b"<path") == 1


def test_a_style_sheet_is_written_to_the_shapes_as_browsers_would():
    """The cascade of CSS 2.2, section 6.4: what names more counts more, then what stands later; a shape's own style
    counts most, an attribute least."""
    inside = (
        "<style>path { fill: red } "
        ".a, .b { fill: #00ff00; stroke: blue } .b { fill: #0000ff } #c { fill: black }</style>"
        '<path d="M1 0" fill="white"/><path d="M2 0" class="a"/><path d="M3 0" class="a b"/>'
        '<path d="M4 0" class="a" id="c"/><path d="M5 0" class="a" style="fill: grey"/><rect width="1" height="1"/>'
    )
    copy = clean_drawing(drawing(inside))
    assert isinstance(copy, bytes)
    fills = {part.split(b'"', 1)[0]: part for part in copy.split(b' d="')[1:]}

    assert b'fill="red"' in fills[b"M1 0"]
    assert b'fill="#00ff00" stroke="blue"' in fills[b"M2 0"]
    assert b'fill="#0000ff"' in fills[b"M3 0"]
    assert b'fill="black"' in fills[b"M4 0"]
    assert b'fill="grey"' in fills[b"M5 0"]
    assert b"style" not in copy
    assert b"class" not in copy


def test_what_drawing_programs_write_beside_a_shape_is_dropped_and_the_shape_stays():
    inside = (
        '<g inkscape:label="x" xmlns:inkscape="urn:i" style="display:inline;font-size:12px;paint-order:stroke;'
        '-inkscape-font-specification:Sans;fill:#123456;stroke:none;line-height:1.25">'
        '<path data-name="a" d="M0,0 9,9z"/></g>'
    )
    copy = clean_drawing(drawing(inside))

    assert isinstance(copy, bytes)
    assert b'<g display="inline" fill="#123456" stroke="none"><path d="M0,0 9,9z"></path></g>' in copy


@pytest.mark.slow
def test_a_drawing_that_the_list_lets_through_and_the_engine_cannot_draw_is_found(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    """The trial itself: the copy is exchanged for one that a careless list would have let through."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    logo._drawn.cache_clear()
    hungry = drawing(
        '<linearGradient id="g" x2="0.00001" gradientUnits="userSpaceOnUse" spreadMethod="repeat"><stop offset="0"/>'
        '<stop offset="1" stop-color="red"/></linearGradient><rect width="9999" height="9999" fill="url(#g)"/>'
    )
    monkeypatch.setattr(logo, "drawable", lambda _: hungry)
    path = tmp_path / "logo.svg"
    path.write_bytes(drawing())
    begun = time.monotonic()

    with pytest.raises(InputError, match="a simpler drawing"):
        logo_picture(path, "workshop.toml")

    assert time.monotonic() - begun < 4 * trial.LONGEST_S


def test_a_drawing_is_tried_once_and_then_known_by_its_content(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    tried: list[bytes] = []
    monkeypatch.setattr(logo, "_tried", lambda copy: bool(tried.append(copy)) or True)
    path = tmp_path / "logo.svg"
    for inside in (SHAPE, SHAPE, SHAPE + SHAPE):
        logo._drawn.cache_clear()
        path.write_bytes(drawing(inside))
        logo_picture(path, "workshop.toml")

    assert len(tried) == 2


def test_random_drawings_out_of_the_closed_list_are_drawn_within_the_limits():
    """Whatever the list accepts, the engine draws, quickly; two hundred drawings made by dice."""
    dice = random.Random(4)
    for _ in range(200):
        copy = clean_drawing(drawing("".join(_part(dice) for _ in range(dice.randint(1, 12)))))
        if isinstance(copy, tuple):
            continue
        begun = time.monotonic()
        drawn(copy)
        assert time.monotonic() - begun < 5


def _part(dice: random.Random) -> str:
    def number() -> str:
        return dice.choice(["0", "1", "9", "-4", "0.001", "99999", "-1e4", "1e-9", ".5", "50%"])

    paint = dice.choice(["red", "#123", "none", "url(#g)", "url(#g) blue", "rgb(1,2,3)", "currentColor"])
    more = f'fill="{paint}" stroke="{dice.choice(["none", "red", "url(#g)"])}" stroke-width="{number()}"'
    return dice.choice(
        [
            f'<rect x="{number()}" width="{number()}" height="{number()}" rx="{number()}" {more}/>',
            f'<circle r="{number()}" cx="{number()}" {more}/>',
            f'<ellipse rx="{number()}" ry="{number()}" {more}/>',
            f'<path d="M0 0A{number()} 1 0 0 1 9 9q1 2 {number()} 4t3 3zm1 1c1 2 3 4 5 6" {more}/>',
            f'<polygon points="0 0 {number()} 3 4 5" {more} stroke-dasharray="{number()} 1"/>',
            f'<linearGradient id="g" x1="{number()}" x2="{number()}" gradientTransform="scale({number()})">'
            f'<stop offset="{number()}"/><stop offset="1" stop-color="red"/></linearGradient>',
            f'<radialGradient id="g" r="{number()}" fx="{number()}" cx="{number()}"><stop offset="0"/>'
            f'<stop offset="{number()}" stop-opacity="0.5"/></radialGradient>',
            f'<g transform="scale({number()}) rotate({number()}) skewX({number()})" opacity="0.5">{SHAPE}</g>',
            f'<clipPath id="c"><rect width="{number()}" height="9"/></clipPath><g clip-path="url(#c)">{SHAPE}</g>',
            f'<symbol id="s" viewBox="0 0 {number()} 9">{SHAPE}</symbol><use href="#s" width="{number()}"/>',
        ]
    )
