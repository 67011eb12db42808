"""Outside checks of the mail's HTML: the Nu HTML checker and axe-core, over every topic for three orders.

    .venv/bin/python tests/bench/mail_pages.py FOLDER

FOLDER is where `npm install --ignore-scripts vnu-jar axe-core playwright-core` was run. Java (17 or later), node and
Chromium (Debian packages default-jre-headless, nodejs, chromium) must be there. Prints what they find; exit 1 when
there is any.
"""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
import tempfile
from email import message_from_bytes, policy
from pathlib import Path

from explainer.compose.plan import compose
from explainer.compose.topics import applicable
from explainer.optics.claims import explain
from explainer.orders import read_order
from explainer.render.mail.forms import reply_draft
from explainer.render.mail.reply import make_reply

HOME = Path(__file__).parents[2]
ORDERS = ("FL-3107", "FL-3118", "FL-3125")
AXE = """
const { chromium } = require('playwright-core');
const axe = require('fs').readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8');
(async () => {
  const browser = await chromium.launch({ executablePath: process.argv[2], args: ['--no-sandbox'] });
  const found = [];
  for (const dark of [false, true]) {
    const colorScheme = dark ? 'dark' : 'light';
    const context = await browser.newContext({ colorScheme, viewport: { width: 390, height: 844 } });
    const page = await context.newPage();
    for (const file of process.argv.slice(3)) {
      await page.goto('file://' + file);
      await page.evaluate(axe);
      const result = await page.evaluate(() => axe.run(document, { resultTypes: ['violations', 'incomplete'] }));
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      for (const v of result.violations) found.push([file, dark, v.id, v.help, v.nodes[0].html.slice(0, 160)]);
      if (wide > 0) found.push([file, dark, 'wider-than-phone', wide + ' px', '']);
    }
  }
  await browser.close();
  console.log(JSON.stringify(found));
})();
"""


def write_pages(folder: Path) -> list[Path]:
    """The HTML part of every topic for the three orders, its pictures beside it, so that a browser shows them."""
    made = []
    for number in ORDERS:
        order = read_order(HOME / "output_examples" / "orders" / f"{number}.toml")
        explanation = explain(order.spectacles)
        document = compose(order.spectacles, explanation)
        for topic in applicable(document, explanation.claims):
            message = message_from_bytes(reply_draft(make_reply(order, [topic])), policy=policy.SMTP)
            html = message.get_body(("html",)).get_content()
            for part in message.walk():
                if part.get_content_type() == "image/png":
                    name = part["Content-ID"][1:-1]
                    (folder / f"{name}.png").write_bytes(part.get_content())
                    html = html.replace(f"cid:{name}", f"{name}.png")
            path = folder / f"{number}-{topic}.html"
            path.write_text(html, encoding="utf-8")
            made.append(path)
    return made


def nu_checker(tools: Path, pages: list[Path]) -> list[str]:
    """What the Nu HTML checker says."""
    jar = next((tools / "node_modules" / "vnu-jar").rglob("vnu.jar"))
    command = ["java", "-Xss1m", "-jar", str(jar), "--format", "json", *map(str, pages)]
    told = json.loads(subprocess.run(command, capture_output=True, text=True, check=False).stderr)
    return [f"{Path(m['url']).name}: {m['message']} | {m.get('extract', '')[:120]!r}" for m in told["messages"]]


def axe(tools: Path, pages: list[Path]) -> list[str]:
    """What axe-core says in a browser as wide as a telephone, in light and in dark."""
    script = tools / "axe.js"
    script.write_text(AXE, encoding="utf-8")
    browser = shutil.which("chromium") or sys.exit("no chromium")
    command = ["node", str(script), str(browser), *map(str, pages)]
    told = subprocess.run(command, capture_output=True, text=True, check=True, cwd=tools).stdout
    return [
        f"{Path(f).name}{' dark' if dark else ''}: {rule}: {words} | {html}"
        for f, dark, rule, words, html in json.loads(told)
    ]


def main(tools: Path) -> int:
    """Prints every finding once, with its count."""
    with tempfile.TemporaryDirectory() as folder:
        pages = write_pages(Path(folder))
        findings = [*nu_checker(tools, pages), *axe(tools, pages)]
    for finding in findings:
        print(finding)  # noqa: T201
    print(f"{len(pages)} pages, {len(findings)} findings")  # noqa: T201
    return 1 if findings else 0


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1]).resolve()))
