"""A workshop's words for a section, spoken: in the sandbox, and held against what our section says for this order.

Both are spoken with the same claims. What ours said and theirs did not (a claim, an answer that ours asked for) refuses
the leaflet: the tree cannot show under which conditions a sentence stands for this order, speaking does.
"""

from __future__ import annotations

import traceback
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from explainer.errors import Fault, InputError, RenderError
from explainer.render.house.means import SECTION, Means
from explainer.render.house.sandbox import sandbox
from explainer.render.house.sections import HouseSection
from explainer.render.language import Language
from explainer.render.sections import Speaker

if TYPE_CHECKING:
    from jinja2 import Template

Names = Mapping[str, Any]
# All on the first line, so that the lines count as in the file.
_OPENING = "{{% extends '{below}' %}}{{% block {block} %}}{{{{ '\\n\\n' }}}}"
_ENDING = "\n\n{% endblock %}"


@dataclass(frozen=True, slots=True)
class SectionWords:
    """The workshop's words for one section, as a speaker takes them."""

    own: HouseSection

    def marked(self, speaker: Speaker) -> str:
        """Markdown with marks for claims. InputError when the words say less than ours."""
        return speak_section(self.own, speaker)


def own_words(sections: Mapping[str, HouseSection]) -> Mapping[str, SectionWords]:
    """The workshop's sections, ready to be spoken in place of ours."""
    return {path: SectionWords(section) for path, section in sections.items()}


def speak_section(own: HouseSection, speaker: Speaker) -> str:
    """The section's Markdown in the workshop's words. InputError when it says less than ours, or cannot speak."""
    said = speaker.voice.said
    before = dict(said)
    path = f"sections/{own.name}.md"
    silent = replace(speaker, figure_html=lambda *_: "", boxed=0, ground=[])

    def theirs_with(names: Names) -> str:
        given = names if own.texts[0].block else handed(SECTION, names)
        return run(lambda: _template(own, speaker.language).render(given), own.folder)

    try:
        _, ours = _heard(silent, lambda names: silent.marked(path, names))
        words, theirs = _heard(speaker, theirs_with)
        spoken = dict(said)
    finally:
        said.clear()
        said.update(before)
    missing = sorted(ours - theirs)
    if missing:
        file = ", ".join(text.file for text in own.texts)
        accepted = f"all that {path} says for this order, without a condition of its own"
        raise InputError(own.folder, [Fault(file, f"nothing with {what}", accepted) for what in missing])
    said.update(spoken)
    return words


def run(render: Callable[[], str], folder: str) -> str:
    """What a house template says. Whatever goes wrong in it is a fault of the file, with its line."""
    try:
        return render()
    except (InputError, RenderError):
        raise
    except Exception as error:  # the template is input: it may fail in any way
        lines = [frame for frame in traceback.extract_tb(error.__traceback__) if frame.filename.endswith(".md")]
        place = f"{Path(lines[-1].filename).name}, line {lines[-1].lineno}" if lines else "house wording"
        fault = Fault(place, f"what cannot be said for this order ({error})", "claims of the order; has('...') asks")
        raise InputError(folder, [fault]) from None


def handed(means: Means, names: Names) -> dict[str, Any]:
    """Of the names that our templates have, those that a house template may use."""
    given = (*means.printed, *means.asked, *means.around, *means.texts, *means.values, "eyes")
    return {name: names[name] for name in given}


def _heard(speaker: Speaker, speak: Callable[[Names], str]) -> tuple[str, set[str]]:
    """What is said, and what it rests on: claims said, and questions about claims that were answered with yes."""
    names, asked = speaker.names(), set()
    is_ = names["is_"]

    def listening(claim_id: str, value: object) -> bool:
        answer = bool(is_(claim_id, value))
        if answer:
            asked.add(f"is_('{claim_id}', '{value}')")
        return answer

    speaker.voice.said.clear()
    words = speak({**names, "is_": listening})
    return words, asked | {f"the claim {claim_id}" for claim_id in speaker.voice.said}


@lru_cache(maxsize=64)
def _template(own: HouseSection, language: Language) -> Template:
    """The words as a template; those of blocks stand on our section, each file on the one before it."""
    below, sources = f"sections/{own.name}.md", {}
    for text in own.texts:
        opening = _OPENING.format(below=below, block=text.block) if text.block else ""
        sources[text.file] = opening + text.source + (_ENDING if text.block else "")
        below = text.file
    return sandbox(language, sources).get_template(below)
