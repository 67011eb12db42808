"""Our own words, written as a workshop would write them, are taken: the rules ask for no more than ours hold."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from explainer.compose.plan import compose
from explainer.optics.claims import explain
from explainer.orders import Order, read_order
from explainer.render.house.sections import NEVER, WHOLE, blocks, checked
from explainer.render.house.speaking import own_words
from explainer.render.language import language
from explainer.render.sections import Speaker
from explainer.render.tables import page_context
from explainer.render.voice import Voice
from explainer.resources import root

TESTS = Path(__file__).parents[1]
ORDERS = [
    *sorted((TESTS.parent / "output_examples" / "orders").glob("FL-*.toml")),
    *sorted(path for path in (TESTS / "gallery").glob("*.toml") if path.name != "workshop.toml"),
]
SECTIONS = {path.stem: path for path in (root("templates") / "sections").glob("*.md") if path.stem not in NEVER}
TRANS = re.compile(r"\{% trans(.*?)%\}(.*?)\{% endtrans %\}", re.DOTALL)
VALUE = re.compile(r"(\w+)=((?:[^,()]|\([^()]*\))+)")
CAPTION = re.compile(r", _\('([^']*)'(?:, (?:[^()]|\([^()]*\))*)?\)(?=\) %\})")


def as_house(text: str) -> str:
    """Our template without the parts that a workshop's own words do without."""

    def plain(match: re.Match[str]) -> str:
        values = {name: value.strip() for name, value in VALUE.findall(match[1])}
        return re.sub(r"\{\{ (\w+) \}\}", lambda found: f"{{{{ {values.get(found[1], found[1])} }}}}", match[2])

    text = re.sub(r"\{% (?:end)?block[^%]*%\}\n?", "", TRANS.sub(plain, text))
    text = text.replace(", mark_typical=false", "").replace("(nm)", "")
    text = CAPTION.sub(lambda found: ", '" + re.sub(r"%\(\w+\)s", "so", found[1]) + "'", text)
    return re.sub(r"</?(?:div|p|aside)[^>]*>", "", text)


def of_block(section: str, block: str) -> str:
    source = SECTIONS[section].read_text(encoding="utf-8")
    return source.partition(f"{{% block {block} %}}")[2].partition("{% endblock %}")[0].strip("\n")


def said(order: Order, section: str, files: tuple[tuple[str, str], ...]) -> tuple[set[str], str] | None:
    explanation = explain(order.spectacles)
    voice = Voice(language("en-GB"), explanation.claims)
    document = compose(order.spectacles, explanation)
    if section not in (*document.sections, "lead"):
        return None
    house = own_words(checked("sections", files)) if files else {}
    speaker = Speaker(voice, document, page_context(order, voice), lambda name, alt, *_: f'<img alt="{alt}">', house)
    html = speaker.section(section)
    return set(voice.said), " ".join(re.sub(r"<(?!bdi)[^>]*>|\s", " ", html).split())


PLACES = [(name, None) for name in sorted(WHOLE)]
PLACES += [(name, block) for name in sorted(SECTIONS) for block in blocks(name) if block != "ending"]


@pytest.mark.slow
@pytest.mark.parametrize(("section", "block"), PLACES)
def test_our_own_words_are_taken_for_every_order(section: str, block: str | None):
    source = of_block(section, block) if block else SECTIONS[section].read_text(encoding="utf-8")
    files = ((f"{section}.{block}.md" if block else f"{section}.md", as_house(source) + "\n"),)
    spoken = 0
    for path in ORDERS:
        order = read_order(path)
        ours = said(order, section, ())
        if ours is not None:
            theirs = said(order, section, files)
            assert theirs is not None
            assert theirs[0] == ours[0], path.name
            spoken += 1
            if block:
                assert theirs[1] == ours[1], "the words of a block stand where ours did"

    assert spoken
