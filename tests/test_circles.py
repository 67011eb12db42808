"""No file of the house needs itself, by whatever way: imports inside functions and for types alone count too."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]


def modules(root: Path) -> dict[str, Path]:
    found = {}
    for path in (root / "explainer").rglob("*.py"):
        parts = path.relative_to(root).with_suffix("").parts
        found[".".join(parts[:-1] if parts[-1] == "__init__" else parts)] = path
    return found


def imports(path: Path, known: set[str]) -> Iterator[str]:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names if alias.name in known)
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            for alias in node.names:
                inner = f"{node.module}.{alias.name}"
                if inner in known:
                    yield inner
                elif node.module in known:
                    yield node.module


def circles(root: Path) -> list[list[str]]:
    """Groups of more than one module that all reach each other, after Tarjan (1972), SIAM J. Comput. 1(2)."""
    paths = modules(root)
    arrows = {name: sorted(set(imports(path, set(paths))) - {name}) for name, path in paths.items()}
    place: dict[str, int] = {}
    low: dict[str, int] = {}
    stack: list[str] = []
    found: list[list[str]] = []

    def visit(name: str) -> None:
        place[name] = low[name] = len(place)
        stack.append(name)
        for to in arrows[name]:
            if to not in place:
                visit(to)
                low[name] = min(low[name], low[to])
            elif to in stack:
                low[name] = min(low[name], place[to])
        if low[name] == place[name]:
            group = []
            while not group or group[-1] != name:
                group.append(stack.pop())
            if len(group) > 1:
                found.append(sorted(group))

    for name in arrows:
        if name not in place:
            visit(name)
    return found


def test_no_circle_through_any_import() -> None:
    assert circles(ROOT) == []


@pytest.mark.parametrize(
    "second",
    [
        "def late():\n    from explainer.one import a\n",
        "from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n    from explainer.one import a\n",
        "from explainer import one\n",
    ],
)
def test_a_circle_is_seen_wherever_its_import_stands(tmp_path: Path, second: str) -> None:
    (tmp_path / "explainer").mkdir()
    (tmp_path / "explainer" / "one.py").write_text("from explainer.two import b\na = 1\n")
    (tmp_path / "explainer" / "two.py").write_text(second + "b = 1\n")
    assert circles(tmp_path) == [["explainer.one", "explainer.two"]]
