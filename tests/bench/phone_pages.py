"""Outside checks of the phone page: the Nu HTML checker and axe-core over the gallery, at three widths, light and dark.

    .venv/bin/python tests/bench/phone_pages.py FOLDER [PICTURES]

FOLDER is as for mail_pages.py. Into PICTURES go screenshots to look at, with all groups open. Exit 1 when there is
anything.
"""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from mail_pages import nu_checker

from explainer.orders import read_order
from explainer.render.phone.page import make_page

GALLERY = Path(__file__).parents[1] / "gallery"
AXE = """
const { chromium } = require('playwright-core');
const axe = require('fs').readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8');
(async () => {
  const [executablePath, pictures, ...files] = process.argv.slice(2);
  const browser = await chromium.launch({ executablePath, args: ['--no-sandbox'] });
  const found = [];
  for (const colorScheme of ['light', 'dark']) for (const width of [320, 360, 768]) {
    const context = await browser.newContext({ colorScheme, viewport: { width, height: 800 }, bypassCSP: true });
    const page = await context.newPage();
    for (const file of files) {
      await page.goto('file://' + file);
      await page.evaluate(() => document.querySelectorAll('details').forEach(d => d.open = true));
      if (pictures !== '-') {
        const name = file.split('/').pop().replace('.html', '');
        await page.screenshot({ path: `${pictures}/${name}-${width}-${colorScheme}.png`, fullPage: true });
      }
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      await page.evaluate(axe);
      const result = await page.evaluate(() => axe.run(document, { resultTypes: ['violations'] }));
      const place = `${file.split('/').pop()} ${width} ${colorScheme}`;
      for (const v of result.violations) found.push(`${place}: ${v.id}: ${v.help} | ${v.nodes[0].html.slice(0, 160)}`);
      if (wide > 0) found.push(`${place}: ${wide} px wider than the screen`);
    }
    await context.close();
  }
  await browser.close();
  console.log(JSON.stringify(found));
})();
"""


def write_pages(folder: Path) -> list[Path]:
    """Pages of the gallery, and drafts in both directions of reading."""
    wanted = [(path, None) for path in sorted(GALLERY.glob("*.toml")) if path.stem != "workshop"]
    wanted += [(GALLERY / "photochromic-driver.toml", code) for code in ("de", "ar")]
    made = []
    for path, code in wanted:
        target = folder / f"{path.stem}{f'-{code}' if code else ''}.html"
        target.write_bytes(make_page(read_order(path, language=code)).html)
        made.append(target)
    return made


def axe(tools: Path, pages: list[Path], pictures: str) -> list[str]:
    """What axe-core says, and which pages are wider than their screen."""
    script = tools / "phone-axe.js"
    script.write_text(AXE, encoding="utf-8")
    browser = shutil.which("chromium") or sys.exit("no chromium")
    command = ["node", str(script), str(browser), pictures, *map(str, pages)]
    told: list[str] = json.loads(subprocess.run(command, capture_output=True, text=True, check=True, cwd=tools).stdout)
    return told


def main(tools: Path, pictures: str) -> int:
    """Prints every finding once, with the number of pages."""
    with tempfile.TemporaryDirectory() as folder:
        pages = write_pages(Path(folder))
        findings = [*nu_checker(tools, pages), *axe(tools, pages, pictures)]
    for finding in findings:
        print(finding)  # noqa: T201
    print(f"{len(pages)} pages, {len(findings)} findings")  # noqa: T201
    return 1 if findings else 0


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1]).resolve(), str(Path(sys.argv[2]).resolve()) if len(sys.argv) > 2 else "-"))
