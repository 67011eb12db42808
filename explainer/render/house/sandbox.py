"""Where house templates are read and run: environments in which a template reaches nothing but what it is handed.

Compiled code is never kept on disk here, since the code of a sandbox and that of our own environment differ.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import TYPE_CHECKING

from explainer.errors import Fault
from explainer.render.language import Language, language
from explainer.render.templates import environment, kept_apart, speaks, template_loader

if TYPE_CHECKING:
    from jinja2 import nodes
    from jinja2.sandbox import ImmutableSandboxedEnvironment


def sandbox(
    spoken: Language | None = None, templates: Mapping[str, str] | None = None
) -> ImmutableSandboxedEnvironment:
    """A sandbox with these templates. With a language it knows our own templates too, for theirs to stand on."""
    from jinja2 import ChoiceLoader, FunctionLoader, StrictUndefined
    from jinja2.sandbox import ImmutableSandboxedEnvironment

    held = {name: kept_apart(source) for name, source in (templates or {}).items()}

    def theirs(name: str) -> tuple[str, str, None] | None:
        return (held[name], name, None) if name in held else None

    made = ImmutableSandboxedEnvironment(
        loader=ChoiceLoader([FunctionLoader(theirs), template_loader()]) if spoken else FunctionLoader(theirs),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.globals.clear()
    if spoken:
        speaks(made, spoken)
    return made


def parsed(file: str, source: str) -> nodes.Template | Fault:
    """A house template as a tree, or what is wrong with its marks. It is not run."""
    from jinja2 import TemplateSyntaxError

    try:
        return _plain().parse(kept_apart(f"{source}\n\n"))  # a mark opened at the very end would pass without
    except TemplateSyntaxError as error:
        return Fault(f"{file}, line {error.lineno}", str(error.message), "a template")
    except RecursionError:
        return Fault(f"{file}, line 1", "brackets inside brackets beyond measure", "a template")


@cache
def parsed_ours(path: str) -> nodes.Template:
    """Our own section or phrase as a tree. The path has no ending."""
    ours = environment(language("en"))
    source, _, _ = template_loader().get_source(ours, f"{path}.md")
    return ours.parse(source)


@cache
def _plain() -> ImmutableSandboxedEnvironment:
    return sandbox()
