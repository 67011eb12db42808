"""Our templates' environments: everything escaped, nothing undefined passes, sentences kept apart.

Templates are compiled anew in every process: what lies on disk between two runs is never run as code.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache, partial
from typing import TYPE_CHECKING

from explainer.render.fallback import marked
from explainer.render.language import Language
from explainer.resources import root

if TYPE_CHECKING:
    from jinja2 import BaseLoader, Environment

_SENTENCE_END = re.compile(r"(end(?:trans|call)) %\}(?=\n)")


@cache
def environment(language: Language) -> Environment:
    """The template environment of one language: everything escaped, nothing undefined passes."""
    from jinja2 import Environment, StrictUndefined

    made = Environment(
        loader=template_loader(),
        autoescape=True,
        auto_reload=False,  # a process speaks by the templates that it found
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    speaks(made, language)
    return made


def speaks(made: Environment, language: Language) -> None:
    """Gives an environment the sentences of a language."""
    made.add_extension("jinja2.ext.i18n")
    made.policies["ext.i18n.trimmed"] = True
    made.install_gettext_callables(  # type: ignore[attr-defined]
        partial(marked, language), language.translations.ngettext, newstyle=True
    )


def kept_apart(source: str) -> str:
    """A template with one liberty: the line break after a sentence stays, while lines of pure logic leave none."""
    return _SENTENCE_END.sub(r"\1 +%}", source)


def template_loader() -> BaseLoader:
    """Our templates, with their sentences kept apart."""
    from jinja2 import FileSystemLoader

    class KeepingSentencesApart(FileSystemLoader):
        def get_source(self, environment: Environment, template: str) -> tuple[str, str, Callable[[], bool]]:
            source, name, fresh = super().get_source(environment, template)
            return kept_apart(source), name, fresh

    return KeepingSentencesApart(root("templates"))
