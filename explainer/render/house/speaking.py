"""A workshop's words for a section, spoken: in the sandbox, and held against what our section says for this order.

Both are spoken with the same claims. What ours said and theirs did not (a claim, an answer that ours asked for) refuses
the leaflet: the tree cannot show under which conditions a sentence stands for this order, speaking does.
"""

from __future__ import annotations

import traceback
from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from markupsafe import Markup

from explainer.errors import Fault, InputError, RenderError
from explainer.optics.claim import Claim
from explainer.render.house.means import PHRASE, SECTION, Means
from explainer.render.house.sandbox import sandbox
from explainer.render.house.sections import HouseSection
from explainer.render.language import Language
from explainer.render.sections import Speaker
from explainer.render.voice import MARK_OPENS

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
    path = f"{own.path}.md"
    means = SECTION if own.kind == "sections" else PHRASE
    silent = replace(speaker, figure_html=lambda *_: "", boxed=0, ground=[])

    def theirs_with(names: Names) -> str:
        given = names if own.texts[0].block else handed(means, names)
        return run(lambda: _template(own, speaker.language).render(given), own.folder)

    try:
        ours, theirs = _Heard(silent), _Heard(speaker)
        ours.listen(lambda names: silent.marked(path, names))
        words = theirs.listen(theirs_with)
        spoken = dict(said)
    finally:
        said.clear()
        said.update(before)
    lacking = theirs.lacks(ours)
    if lacking:
        file = ", ".join(text.file for text in own.texts)
        accepted = f"all that {path} says for this order, once, in visible words, without a condition of its own"
        raise InputError(own.folder, [Fault(file, what, accepted) for what in lacking])
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


@dataclass(slots=True)
class _Heard:
    """Listens to a template: which claims a reader sees stated and how often, which stand in descriptions alone."""

    speaker: Speaker
    asked: set[str] = field(default_factory=set)
    seen: set[str] = field(default_factory=set)
    unseen: dict[str, Claim] = field(default_factory=dict)
    times: Counter[str] = field(default_factory=Counter)
    _in_figures: int = 0
    _figures: list[str] = field(default_factory=list)

    def listen(self, speak: Callable[[Names], str]) -> str:
        """What is said. Afterwards the voice has said all of it, and this knows how."""
        said, names = self.speaker.voice.said, self.speaker.names()
        said.clear()
        words = speak({**names, **self._ears(names)})
        self.seen = {f"the claim {claim_id}" for claim_id in said} | self.asked
        said.update(self.unseen)
        return words

    def _ears(self, names: Names) -> dict[str, Callable[..., Any]]:
        said = self.speaker.voice.said

        def is_(claim_id: str, value: object) -> bool:
            answer = bool(names["is_"](claim_id, value))
            if answer:
                self.asked.add(f"is_('{claim_id}', '{value}')")
            return answer

        def counted(name: str) -> Callable[..., str]:
            def around(claim_id: str, *rest: str, caller: Callable[[], str]) -> str:
                inside: list[str] = []

                def body() -> str:
                    inside.append(str(caller()))
                    return Markup(inside[-1])

                new = claim_id not in said
                words = str(names[name](claim_id, *rest, caller=body))
                if any(map(self._shows, inside)):
                    self.times[claim_id] += not self._in_figures
                elif new and claim_id in said:
                    self.unseen[claim_id] = said.pop(claim_id)  # nothing of it is to be seen
                return Markup(words)

            return around

        def figure(*given: str, caller: Callable[[], str]) -> str:
            before = set(said)
            self._in_figures += 1
            made = names["figure"](*given, caller=caller)
            self._in_figures -= 1
            self.unseen |= {claim_id: said.pop(claim_id) for claim_id in set(said) - before}
            self._figures.append(str(made))
            return Markup(made)

        return {"is_": is_, "stated": counted("stated"), "caution": counted("caution"), "figure": figure}

    def _shows(self, words: str) -> bool:
        """Whether a reader finds words in this, and not pictures alone."""
        for figure in filter(None, self._figures):
            words = words.replace(figure, "")
        return any(sign.isalpha() or sign == MARK_OPENS for sign in words)

    def lacks(self, ours: _Heard) -> list[str]:
        """What ours says and this does not, or says where nobody sees it; and what this says too often."""
        unseen = {f"the claim {claim_id}" for claim_id in self.unseen}
        meant = {f"the claim {claim_id}" for claim_id in ours.unseen}
        missing = sorted((ours.seen - self.seen) | (meant - self.seen - unseen))
        twice = sorted(name for name, times in self.times.items() if times > max(1, ours.times[name]))
        hidden = " but in the description of a figure"
        return [
            *(f"nothing with {what}{hidden if what in unseen else ''}" for what in missing),
            *(f"the claim {claim_id} a second time" for claim_id in twice),
        ]


@lru_cache(maxsize=64)
def _template(own: HouseSection, language: Language) -> Template:
    """The words as a template; those of blocks stand on our section, each file on the one before it."""
    below, sources = f"{own.path}.md", {}
    for text in own.texts:
        opening = _OPENING.format(below=below, block=text.block) if text.block else ""
        sources[text.file] = opening + text.source + (_ENDING if text.block else "")
        below = text.file
    return sandbox(language, sources).get_template(below)
