"""Whole runs thrown at the program: folders of orders that collide, house wording that hides, logos, damaged caches.

Each kind is a function that takes dice and a folder, tries once, and says in a word what became of it. What must hold
is asserted there.
"""

from __future__ import annotations

import hashlib
import json
import os
import random
import re
import shutil
import subprocess
import sys
import time
from collections import Counter
from collections.abc import Callable
from html import unescape
from pathlib import Path

from plain_order import PLAIN

from explainer.compose.plan import compose
from explainer.errors import InputError, RenderError, Unforeseen
from explainer.optics.claims import explain
from explainer.orders import read_order, read_orders
from explainer.orders.assembly.file_names import name_key
from explainer.orders.shop.drawing import clean_drawing
from explainer.render.house.sections import checked_phrases
from explainer.render.house.speaking import own_words
from explainer.render.language import language
from explainer.render.leaflet import leaflet_name
from explainer.render.sections import Speaker
from explainer.render.tables import page_context
from explainer.render.voice import Voice

HOME = Path(__file__).parents[2]
EXAMPLES = HOME / "output_examples" / "orders"
Kind = Callable[[random.Random, Path], str]

NUMBERS = ("A-1", "a-1", "A-1.", "A-1-", "A.1", "A-2", "A-1-de", "A_1", "A-10", "B")
BREAKS = ("", "", "", "\ufeff", " ", "\r")


def orders(dice: random.Random, folder: Path) -> str:
    """Several files of several kinds with numbers that collide: who is accepted is unique, and has his own power."""
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir()
    meant: dict[str, set[float]] = {}
    for at in range(dice.randint(1, 7)):
        number, quarter = dice.choice(NUMBERS), dice.randint(1, 30)
        meant.setdefault(number.lower(), set()).add(-quarter / 4)
        _one_file(dice, folder, at, number, -quarter / 4)
    if dice.random() < 0.3:
        victim = dice.choice(list(folder.iterdir()))
        data = bytearray(victim.read_bytes())
        for _ in range(dice.randint(1, 5)):
            data[dice.randrange(len(data))] = dice.randrange(256)
        victim.write_bytes(bytes(data))
        meant = {}
    results = list(read_orders([folder] if dice.random() < 0.6 else sorted(folder.iterdir())))
    assert not any(isinstance(result.error, Unforeseen) for result in results), [str(r.error) for r in results]
    read = [result.order for result in results if result.order]
    for order in read:
        powers = meant.get(order.number.lower())
        assert not meant or (powers and order.spectacles.prescription.right.sphere_d in powers), order.number
    names = Counter(name_key(leaflet_name(order)) for order in read)
    assert not names or max(names.values()) == 1, names
    return "read" if read else "refused"


def _one_file(dice: random.Random, folder: Path, at: int, number: str, sphere: float) -> None:
    power = f"{sphere:+.2f} DS"
    kind = dice.choice(("json", "toml", "csv", "jsonl", "job"))
    start = dice.choice(BREAKS)
    plain = PLAIN | {"order": number, "prescription": {"right": power, "left": power}}
    texts = {
        "json": json.dumps(plain),
        "jsonl": json.dumps(plain) + dice.choice(("\n", "\r\n", "")),
        "toml": f'order = "{number}"\ndate = 2026-11-20\n[prescription]\nright = "{power}"\nleft = "{power}"\n',
        "csv": f"order,date,right,left\n{number},2026-11-20,{power},{power}\n",
        "job": f"{start}JOB={number}\nSPH={sphere};{sphere}\nCYL=0;0\nAX=0;0\n_DATE=2026-11-20\nDO=B\n",
    }
    text = texts[kind]
    if dice.random() < 0.3:
        text = text.replace("\n", dice.choice(("\r\n", "\r")))
    (folder / f"{at}.{kind}").write_text(text, encoding="utf-8", newline="")


WRAPS = (
    "{}",
    "{}",
    "{{% call figure('care_steps') %}}{}{{% endcall %}}",
    "{{% if has('bench.pd.reading') %}}{}{{% endif %}}",
    "{{% if has('care.heat') %}}{}{{% endif %}}",
    "{{% if is_('lens.design', 'progressive') %}}{}{{% else %}}Words.{{% endif %}}",
    "{{% if flag('snow') %}}{}{{% endif %}}",
    "{{% for side in eyes if has(side ~ '.axis') %}}{}{{% endfor %}}",
    "{{# {} #}}",
    "{{% raw %}}{}{{% endraw %}}",
    "<!-- {} -->",
    "**{}**",
    "![{}](x)",
    "[x]: y '{}'",
    "    {}",
    "{{% call plain() %}}{}{{% endcall %}}",
    "{{% call stated('right.sphere') %}}{}{{% endcall %}}",
)
MARK = "Qzheat"


def house(dice: random.Random, folder: Path) -> str:
    """A required sentence inside whatever may stand round it: accepted, it is printed where a reader sees it, once."""
    words = "{% call stated('care.heat') %}" + MARK + " harms.{% endcall %}"
    for _ in range(dice.randint(0, 3)):
        words = dice.choice(WRAPS).format(words)
    source = dice.choice(("", "Words. ", "Words.\n\n")) + words + dice.choice(("", " More.", "\n"))
    speaker = _speaker(dice.choice(("FL-3107", "FL-3112", "FL-3118", "FL-3125")))
    try:
        speaker.house = own_words(checked_phrases(str(folder), (("clean.heat.md", source),)))
        html = speaker.phrase_html("clean.heat")
    except InputError:
        return "refused"
    visible = unescape(re.sub(r"<figure.*?</figure>|<!--.*?-->|<[^>]+>", "", html, flags=re.DOTALL))
    claimed = speaker.voice.claims.value("care.heat")
    assert not claimed or visible.count(MARK) == 1, (source, html)
    return "read"


def _speaker(number: str) -> Speaker:
    order = read_order(EXAMPLES / f"{number}.toml")
    explanation = explain(order.spectacles)
    voice = Voice(language("en-GB"), explanation.claims)

    def figure(name: str, alternative: str, *_: object) -> str:
        return f'<figure><img src="figure:{name}" alt="{alternative}"></figure>'

    return Speaker(voice, compose(order.spectacles, explanation), page_context(order, voice), figure)


PARTS = (
    '<rect x="{n}" width="{n}" height="{n}" rx="{n}" fill="{p}" stroke="{p}" stroke-width="{n}"/>',
    '<circle r="{n}" cx="{n}" fill="{p}"/><ellipse rx="{n}" ry="{n}" stroke="{p}"/>',
    '<path d="M0 0A{n} {n} 0 0 1 9 9q1 2 {n} 4t3 3zm1 1c1 2 3 4 5 {n}" fill="{p}" stroke-dasharray="{n} {n}"/>',
    '<linearGradient id="g" x1="{n}" x2="{n}" gradientTransform="scale({n})" spreadMethod="{s}"><stop offset="{n}"/>'
    '<stop offset="1" stop-color="{p}"/></linearGradient>',
    '<radialGradient id="h" r="{n}" fx="{n}" gradientUnits="userSpaceOnUse"><stop offset="0"/></radialGradient>',
    '<g transform="scale({n}) rotate({n}) skewX({n})" opacity="{n}" clip-path="url(#c)"><path d="M0 0h9v9z"/></g>',
    '<clipPath id="c"><rect width="{n}" height="9"/></clipPath>',
    '<symbol id="s" viewBox="0 0 {n} 9"><path d="M0 0h{n}"/></symbol><use href="#s" width="{n}"/>',
    "<style>.a {{ fill: {p} }} g > path {{ fill: red }}</style>",
    "<x:text xmlns:x='urn:x'>{p}</x:text><text>{p}</text>",
)
NUMBERS_DRAWN = ("0", "1", "9", "-4", "0.001", "99999", "-1e4", "1e-9", ".5", "50%", "1e40", "NaN", "", "url(#g)")
PAINTS = ("red", "#123", "none", "url(#g)", "url(#h) blue", "rgb(1,2,3)", "url(x)", "currentColor", "&#0;", "\\72")


def logos(dice: random.Random, folder: Path) -> str:
    """Drawings out of parts that harm and parts that do not: refused at once, or drawn at once."""
    inside = "".join(
        dice.choice(PARTS).format(
            n=dice.choice(NUMBERS_DRAWN), p=dice.choice(PAINTS), s=dice.choice(("pad", "pad", "repeat", "reflect"))
        )
        for _ in range(dice.randint(1, 6))
    )
    size = dice.choice(('viewBox="0 0 90 30"', 'width="90" height="30"', 'viewBox="0 0 0.001 9999"', 'width="9e9"'))
    begun = time.monotonic()
    copy = clean_drawing(f'<svg xmlns="http://www.w3.org/2000/svg" {size}>{inside}</svg>'.encode())
    assert time.monotonic() - begun < 1, inside
    if isinstance(copy, tuple):
        return "refused"
    try:
        _drawn(copy)
    except RenderError:
        return "found by the trial"  # as `check` would: the engine cannot draw it
    finally:
        assert time.monotonic() - begun < 5, inside
    return "read"


def _drawn(copy: bytes) -> None:
    import datetime as dt

    from explainer.render.press.pdf import write_pdf

    page = '<html lang="en"><title>x</title><body><img src="logo:workshop" alt="x" style="width: 20mm"></body></html>'
    write_pdf(
        page,
        assets={"logo:workshop": copy},
        stylesheets=[],
        title="x",
        language="en",
        direction="ltr",
        created=dt.date(2026, 1, 1),
        identifier="x",
    )


def cache(dice: random.Random, folder: Path) -> str:
    """Everything that is kept, each file damaged in a way of its own: the page is the same byte for byte."""
    sound = folder / "sound"
    if not sound.exists():
        first = _made(sound, folder / "first")
        (folder / "page.sha256").write_text(first)
    damaged = folder / "damaged"
    shutil.rmtree(damaged, ignore_errors=True)
    shutil.copytree(sound, damaged)
    files = sorted(path for path in damaged.rglob("*") if path.is_file())
    for path in files:
        _harm(dice, path, files)
    assert _made(damaged, folder / "again") == (folder / "page.sha256").read_text()
    return f"{len(files)} files"


def _harm(dice: random.Random, path: Path, files: list[Path]) -> None:
    data = bytearray(path.read_bytes())
    how = dice.choice(("flip", "flip", "flip", "flip", "cut", "swap", "empty", "lines", "link", "folder"))
    if how == "flip" and data:
        data[dice.randrange(len(data))] ^= 1 << dice.randrange(8)
    elif how == "cut":
        del data[dice.randrange(len(data) + 1) :]
    elif how == "swap":
        other = dice.choice(files)
        data = bytearray(other.read_bytes()) if other.is_file() and not other.is_symlink() else data
    elif how == "empty":
        data = bytearray()
    elif how == "lines":
        data = bytearray(data.replace(b"\n", b"\r\n"))
    path.unlink()
    if how == "link":
        path.symlink_to("/dev/zero" if dice.random() < 0.5 else path.name)
    elif how == "folder":
        path.mkdir()
    else:
        path.write_bytes(bytes(data))


def _made(cache_folder: Path, out: Path) -> str:
    """The leaflets of the examples made with that cache, as a hash over their bytes."""
    shutil.rmtree(out, ignore_errors=True)
    orders = [str(EXAMPLES / f"{name}.toml") for name in ("FL-3107", "FL-3118")]
    words = [sys.executable, "-m", "explainer", "make", *orders, "-o", str(out), "--workers", "1", "--quiet"]
    done = subprocess.run(
        words,
        env={**os.environ, "XDG_CACHE_HOME": str(cache_folder), "PYTHONPATH": str(HOME)},
        cwd=HOME,
        capture_output=True,
        text=True,
        timeout=300,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    assert "Traceback" not in done.stderr
    found = hashlib.sha256()
    for path in sorted(out.glob("*.pdf")):
        found.update(path.name.encode() + path.read_bytes())
    return found.hexdigest()


KINDS: dict[str, Kind] = {"orders": orders, "house": house, "logos": logos, "cache": cache}


def run(name: str, seconds: float, folder: Path, seed: int = 14) -> str:
    """One kind for so many seconds; what became of the tries, in a line."""
    dice = random.Random(seed)
    outcomes: Counter[str] = Counter()
    ends = time.monotonic() + seconds
    while time.monotonic() < ends:
        outcomes[KINDS[name](dice, folder / name if name == "orders" else folder)] += 1
    told = ", ".join(f"{count} {outcome}" for outcome, count in outcomes.most_common(6))
    return f"{name}: {outcomes.total()} runs ({told})"
