"""Every public formula says what it takes, gives and refuses, by which equation, and who says so."""

from __future__ import annotations

import ast
import inspect
import re
import textwrap
from pathlib import Path

import pytest

from explainer.optics import facts

FOLDER = Path(inspect.getfile(facts)).parents[1] / "formulas"
PARTS = ("Parameters:", "Returns:", "Raises:", "Equation:", "Reference:")
OWN_WORDS = re.compile(r"\b(derived|memory|definition|common practice)\b")
ARRAYS = {"dye", "car_glass", "lens_body", "photochromic", "shape", "sky", "spectrum", "surface", "thickness", "tint"}
MODULES = sorted(path.stem for path in FOLDER.glob("*.py") if path.stem not in {"__init__", "ranges", *ARRAYS})
TREES = {name: ast.parse((FOLDER / f"{name}.py").read_text("utf-8")) for name in MODULES}
PUBLIC = [
    (module, node)
    for module, tree in TREES.items()
    for node in tree.body
    if isinstance(node, ast.FunctionDef) and not node.name.startswith("_")
]
SHORT = {"nasal_sign", "vector_of"}


@pytest.mark.parametrize(("module", "node"), PUBLIC, ids=lambda each: getattr(each, "name", each))
def test_the_docstring_has_all_its_parts(module: str, node: ast.FunctionDef) -> None:
    text = ast.get_docstring(node) or ""
    missing = [part for part in PARTS if part not in text]
    assert not missing or (node.name in SHORT and missing == list(PARTS[:-1])), f"{module}.{node.name}: {missing}"


@pytest.mark.parametrize(("module", "node"), PUBLIC, ids=lambda each: getattr(each, "name", each))
def test_the_reference_is_a_known_source_or_owns_up_to_having_none(module: str, node: ast.FunctionDef) -> None:
    text = ast.get_docstring(node) or ""
    reference = textwrap.dedent(text.partition("Reference:")[2])
    words = set(re.findall(r"[a-z0-9]+(?:-[a-z0-9]+)+", reference))
    known = words & set(facts.sources())
    assert known or OWN_WORDS.search(reference), f"{module}.{node.name}: {reference}"
    weak_only = known and all(facts.sources()[key].weak for key in known)
    assert not weak_only or "arithmetic only" in reference, f"{module}.{node.name}: {reference}"


@pytest.mark.parametrize(("module", "node"), PUBLIC, ids=lambda each: getattr(each, "name", each))
def test_numbers_are_given_by_name(module: str, node: ast.FunctionDef) -> None:
    floats = [arg.arg for arg in node.args.args if arg.annotation and ast.unparse(arg.annotation) == "float"]
    assert not floats, f"{module}.{node.name} takes {floats} by place"


@pytest.mark.parametrize("module", TREES)
def test_the_plain_formulas_import_nothing_but_mathematics_and_each_other(module: str) -> None:
    names = [alias.name for node in ast.walk(TREES[module]) if isinstance(node, ast.Import) for alias in node.names]
    names += [node.module or "" for node in ast.walk(TREES[module]) if isinstance(node, ast.ImportFrom)]
    plain = {"__future__", "math", "typing", "dataclasses", "collections.abc", "itertools", "explainer.errors"}
    foreign = [name for name in names if name not in plain and not name.startswith("explainer.optics.formulas")]
    assert not foreign
