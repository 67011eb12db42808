"""The phone page in a real browser at three widths: nothing wider than the screen, no letters that are too small.

The page stands unchanged in a frame of the width of a telephone; the page round it measures. Needs Chromium.
"""

from __future__ import annotations

import json
import re
import shutil
import subprocess
from functools import cache
from html import escape, unescape
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from phone_pages import html_of

BROWSER = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
pytestmark = [pytest.mark.slow, pytest.mark.skipif(not BROWSER, reason="no Chromium on this machine")]
WIDTHS = (320, 360, 768)
LEAST_PX = 16
PAGES = (
    *(("photochromic-driver", None), ("progressive-first", None), ("strong-plus-reading", None), ("child", None)),
    *(("dark-tint-four", None), ("strong-minus-astigmat", "ar"), ("photochromic-driver", "de")),
)
MEASURE = """
<pre id="found"></pre><script>
addEventListener('load', () => { const all = [];
  for (const frame of document.querySelectorAll('iframe')) {
    const page = frame.contentDocument, view = frame.contentWindow, box = e => e.getBoundingClientRect();
    page.querySelectorAll('details').forEach(d => d.open = true);
    const small = new Set(), words = page.createTreeWalker(page.body, 4); let node;
    while (node = words.nextNode()) { const held = node.parentElement;
      if (node.data.trim() && held.getClientRects().length)
        small.add(parseFloat(view.getComputedStyle(held).fontSize)); }
    const labels = [...page.querySelectorAll('.label')].filter(e => box(e).width), clashes = [], outside = [];
    for (const e of labels) {
      if (box(e).left < -1 || box(e).right > frame.clientWidth + 1) outside.push(e.textContent);
      for (const other of labels) if (e !== other && e.parentElement === other.parentElement) {
        const a = box(e), b = box(other);
        if (Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1
          && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 3)
          clashes.push(e.textContent + ' / ' + other.textContent); } }
    const bar = page.querySelector('.bar'), shown = [];
    for (const place of [0, 0.5, 1]) { view.scrollTo(0, place * page.documentElement.scrollHeight);
      shown.push(box(bar).top >= 0 && box(bar).bottom <= frame.clientHeight + 1); }
    const low = [...page.querySelectorAll('.bar a, summary, label')].filter(e => box(e).height < 24).length;
    const wide = page.documentElement.scrollWidth - frame.clientWidth;
    all.push({ wide, least: Math.min(...small), clashes, outside, shown, low });
  }
  document.getElementById('found').textContent = JSON.stringify(all); });
</script>"""


@cache
def measured(name: str, code: str | None) -> dict[int, dict[str, Any]]:
    """What a browser finds on the page at each width."""
    source = escape(html_of(name, code))
    frames = "".join(
        f'<iframe width="{width}" height="700" style="border:0" srcdoc="{source}"></iframe>' for width in WIDTHS
    )
    with TemporaryDirectory() as folder:
        path = Path(folder) / "frames.html"
        path.write_text(f"<!DOCTYPE html><meta charset=utf-8>{frames}{MEASURE}", encoding="utf-8")
        command = [str(BROWSER), "--headless", "--no-sandbox", "--disable-gpu", f"--user-data-dir={folder}/user"]
        command += ["--virtual-time-budget=8000", "--dump-dom", path.as_uri()]
        told = subprocess.run(command, capture_output=True, text=True, check=True, timeout=120).stdout
    found = re.search(r'<pre id="found">(.*?)</pre>', told, re.DOTALL)
    assert found is not None
    assert found[1]
    return dict(zip(WIDTHS, json.loads(unescape(found[1])), strict=True))


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize(("name", "code"), PAGES)
def test_everything_is_on_the_screen_and_can_be_read(name: str, code: str | None, width: int) -> None:
    found = measured(name, code)[width]
    assert found["wide"] <= 0
    assert found["least"] >= LEAST_PX - 0.01
    assert found["clashes"] == []
    assert found["outside"] == []
    assert found["shown"] == [True, True, True], "the bar is within reach wherever one has scrolled"
    assert found["low"] == 0, "WCAG 2.2, 2.5.8: what is touched is at least 24 px high"
