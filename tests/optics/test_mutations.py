"""A sign flipped in a formula file does not pass: the tests of that topic, or the published cases, catch it.

Each file gets one flipped sign: the first plus, minus or negation in a function body. The package is copied,
the copy is changed, and the tests that name the topic run against the copy.
"""

from __future__ import annotations

import ast
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

HOME = Path(__file__).parents[2]
FORMULAS = HOME / "explainer" / "optics" / "formulas"
PYTEST = (sys.executable, "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider")
WITHOUT_SIGNS = {"__init__", "ranges", "reactive"}
TOPICS = sorted(path.stem for path in FORMULAS.glob("*.py") if path.stem not in WITHOUT_SIGNS)
CHECKS_OF = {"comparison": ["tests/optics/formulas/test_comparison.py"]}


class FlipFirstSign(ast.NodeTransformer):
    """Turns the first plus into a minus, minus into a plus, or drops the first negation."""

    def __init__(self) -> None:
        self.done = False
        self.inside = 0

    def visit_FunctionDef(self, node: ast.FunctionDef) -> ast.AST:
        self.inside += 1
        node.body = [self.visit(each) for each in node.body]
        self.inside -= 1
        return node

    def visit_Raise(self, node: ast.Raise) -> ast.AST:
        """The bounds in an error message decide nothing."""
        return node

    def visit_Call(self, node: ast.Call) -> ast.AST:
        if isinstance(node.func, ast.Name) and node.func.id in ("OutOfRange", "within"):
            return node
        self.generic_visit(node)
        return node

    def visit_BinOp(self, node: ast.BinOp) -> ast.AST:
        self.generic_visit(node)
        if self.inside and not self.done and isinstance(node.op, ast.Add | ast.Sub):
            self.done = True
            node.op = ast.Sub() if isinstance(node.op, ast.Add) else ast.Add()
        return node

    def visit_UnaryOp(self, node: ast.UnaryOp) -> ast.AST:
        self.generic_visit(node)
        if self.inside and not self.done and isinstance(node.op, ast.USub):
            self.done = True
            return node.operand
        return node


def checks_of(topic: str) -> list[str]:
    own = CHECKS_OF.get(topic, [f"tests/optics/formulas/test_{topic}.py"])
    found = [HOME / path for path in own if (HOME / path).is_file()]
    return [str(path) for path in (*found, HOME / "tests" / "optics" / "test_published.py")]


@pytest.mark.slow
@pytest.mark.parametrize("topic", TOPICS)
def test_a_flipped_sign_is_caught(topic: str, tmp_path: Path):
    flip = FlipFirstSign()
    tree = flip.visit(ast.parse((FORMULAS / f"{topic}.py").read_text(encoding="utf-8")))
    if not flip.done:
        pytest.skip(f"{topic}.py has no sign to flip")
    shutil.copytree(HOME / "explainer", tmp_path / "explainer", ignore=shutil.ignore_patterns("__pycache__"))
    (tmp_path / "explainer" / "optics" / "formulas" / f"{topic}.py").write_text(ast.unparse(tree), encoding="utf-8")

    result = subprocess.run(
        [*PYTEST, "-c", str(HOME / "pyproject.toml"), "--rootdir", str(HOME), *checks_of(topic)],
        cwd=tmp_path,  # the folder that python -m looks in first: the copy, not the checkout
        env={**os.environ, "PYTHONPATH": str(tmp_path)},
        capture_output=True,
        text=True,
        check=False,
    )

    assert result.returncode == 1, f"the flipped sign in {topic}.py went unseen:\n{ast.unparse(tree)[:2000]}"
