"""The same leaflets through the bare engine, a browser and an office suite: how long ready-made pages take to be PDF.

    PYTHONPATH=tests .venv/bin/python tests/bench/rivals.py [leaflets]

They get the finished HTML with its drawings and style sheets inside, so they lay out and write and do nothing else:
no claims, no drawing. The engine is called as its manual says, once a leaflet, in one process that has made one before:
the floor that our own way of setting pages is measured by. The browser is kept running and takes one page after the
other (and two at a time); the office suite takes all files in one call. What is not installed is left out.
"""

from __future__ import annotations

import base64
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

from varied import varied_orders

from explainer.render import leaflet
from explainer.render.press.engine import engine
from explainer.render.press.fetch import content_type
from explainer.render.press.pdf import Pdf, write_pdf

_COLUMNS = "@page { size: A4; margin: 9mm 13mm 14mm } body { columns: 2; column-gap: 6mm } .foot { position: static }"
_SOURCE = re.compile(r'src="((?:figure|logo):[^"]+)"')


def ready_pages(count: int) -> list[str]:
    """The HTML of so many leaflets, whole in itself."""
    found: list[str] = []

    def keep(html: str, **named: Any) -> Pdf:
        def inline(source: re.Match[str]) -> str:
            body = named["assets"][source[1]]
            return f'src="data:{content_type(source[1], body)};base64,{base64.b64encode(body).decode()}"'

        styles = "\n".join([*named["stylesheets"], _COLUMNS])
        found.append(_SOURCE.sub(inline, html).replace("</head>", f"<style>{styles}</style></head>"))
        return Pdf(b"", 4, ())

    leaflet.write_pdf = keep  # type: ignore[assignment]
    for order in varied_orders(count):
        leaflet.make_leaflet(order)
    leaflet.write_pdf = write_pdf  # type: ignore[assignment]
    return found


class Browser:
    """A browser without a window, driven over its own pipe."""

    def __init__(self, program: str, folder: str) -> None:
        to_browser, self._out = os.pipe()
        self._in, from_browser = os.pipe()
        os.set_inheritable(to_browser, True)
        os.set_inheritable(from_browser, True)
        script = f'exec "$0" "$@" 3<&{to_browser} 4>&{from_browser}'
        flags = ["--headless", "--no-sandbox", "--disable-gpu", "--remote-debugging-pipe", f"--user-data-dir={folder}"]
        self._process = subprocess.Popen(
            ["bash", "-c", script, program, *flags],
            pass_fds=(to_browser, from_browser),
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        os.close(to_browser)
        os.close(from_browser)
        self._number, self._rest = 0, b""
        target = self.ask("Target.createTarget", url="about:blank")["targetId"]
        self._session = self.ask("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        self.ask("Page.enable", self._session)

    def ask(self, method: str, session: str | None = None, **parameters: Any) -> Any:
        """One command and its answer."""
        self._number += 1
        message = {"id": self._number, "method": method, "params": parameters}
        if session:
            message["sessionId"] = session
        os.write(self._out, json.dumps(message).encode() + b"\0")
        while True:
            found = self._next()
            if found.get("id") == self._number:
                return found["result"]

    def wait_for(self, event: str) -> None:
        """Until the page has told of it."""
        while self._next().get("method") != event:
            pass

    def _next(self) -> Any:
        while b"\0" not in self._rest:
            self._rest += os.read(self._in, 1 << 20)
        message, self._rest = self._rest.split(b"\0", 1)
        return json.loads(message)

    def pdf(self, page: Path) -> int:
        """One file printed, tagged; its size in bytes."""
        self.ask("Page.navigate", self._session, url=page.as_uri())
        self.wait_for("Page.loadEventFired")
        printed = self.ask("Page.printToPDF", self._session, preferCSSPageSize=True, generateTaggedPDF=True)
        return len(base64.b64decode(printed["data"]))

    def close(self) -> None:
        """Ends the program."""
        self._process.kill()
        self._process.wait()


def browse(program: str, pages: Sequence[Path], side_by_side: int, folder: str) -> float:
    """Seconds for all pages in so many browsers side by side, once they run and have printed one page each."""
    browsers = [Browser(program, f"{folder}/profile{number}") for number in range(side_by_side)]
    for browser in browsers:
        browser.pdf(pages[0])
    begun = time.perf_counter()
    with ThreadPoolExecutor(side_by_side) as pool:
        list(pool.map(lambda at: [at[1].pdf(page) for page in pages[at[0] :: side_by_side]], enumerate(browsers)))
    seconds = time.perf_counter() - begun
    for browser in browsers:
        browser.close()
    return seconds


def convert(program: str, pages: Sequence[Path], folder: str) -> float:
    """Seconds for all pages in one call of the office suite, its start included."""
    begun = time.perf_counter()
    command = [program, f"-env:UserInstallation=file://{folder}/office", "--headless", "--convert-to", "pdf"]
    subprocess.run([*command, "--outdir", f"{folder}/out", *map(str, pages)], check=True, capture_output=True)
    return time.perf_counter() - begun


def engine_alone(pages: Sequence[Path], columns: bool) -> float:
    """Seconds for all pages by the engine itself, one after the other, with our fonts; in one column it works less."""
    loaded = engine()
    texts = [page.read_text("utf-8") for page in pages]
    if not columns:
        texts = [text.replace("columns: 2;", "") for text in texts]

    def write(html: str) -> None:
        loaded.package.HTML(string=html).write_pdf(font_config=loaded.fonts, pdf_variant="pdf/ua-1")

    write(texts[0])
    begun = time.perf_counter()
    for text in texts:
        write(text)
    return time.perf_counter() - begun


def main(count: int) -> None:
    """One line a program."""
    with tempfile.TemporaryDirectory() as folder:
        pages = [Path(folder) / f"{number}.html" for number in range(count)]
        for path, html in zip(pages, ready_pages(count), strict=True):
            path.write_text(html, "utf-8")
        for columns in (True, False):
            seconds = engine_alone(pages, columns)
            sys.stdout.write(f"engine alone, {1 + columns} columns: {count / seconds:.2f} leaflets/s\n")
        chromium, office = shutil.which("chromium"), shutil.which("soffice")
        if chromium:
            for side_by_side in (1, 2):
                seconds = browse(chromium, pages, side_by_side, folder)
                sys.stdout.write(f"browser, {side_by_side} at a time: {count / seconds:.2f} leaflets/s\n")
        if office:
            convert(office, pages[:1], folder)  # makes its profile
            sys.stdout.write(f"office suite, one call: {count / convert(office, pages, folder):.2f} leaflets/s\n")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 20)
