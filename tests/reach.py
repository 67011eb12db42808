"""What the program reaches from its entry points, read from its source: names of functions, classes and methods.

A top-level definition is reached when reached code names it. A method is reached when its class is and reached code
names an attribute of its name. Code at the top level of a module is reached when anything of the module is.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

HOME = Path(__file__).parents[1]
PACKAGE = HOME / "explainer"


def module_name(path: Path) -> str:
    parts = path.relative_to(HOME).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


class Module:
    """One source file: what it imports under which name, and its top-level definitions."""

    def __init__(self, path: Path) -> None:
        self.name = module_name(path)
        self.tree = ast.parse(path.read_text(encoding="utf-8"))
        self.imports: dict[str, tuple[str, str | None]] = {}
        self.defined: dict[str, list[ast.stmt]] = {}
        self.loose: list[ast.stmt] = []
        for node in ast.walk(self.tree):
            self._import(node)
        for statement in self.tree.body:
            self._define(statement)

    def _import(self, node: ast.AST) -> None:
        if isinstance(node, ast.ImportFrom) and node.module and not node.level:
            for alias in node.names:
                self.imports[alias.asname or alias.name] = (node.module, alias.name)
        elif isinstance(node, ast.Import):
            for alias in node.names:
                self.imports[alias.asname or alias.name.partition(".")[0]] = (alias.name, None)

    def _define(self, statement: ast.stmt) -> None:
        if isinstance(statement, ast.FunctionDef | ast.ClassDef):
            self.defined.setdefault(statement.name, []).append(statement)
        elif isinstance(statement, ast.Assign | ast.AnnAssign):
            targets = statement.targets if isinstance(statement, ast.Assign) else [statement.target]
            for target in targets:
                names = [n.id for n in ast.walk(target) if isinstance(n, ast.Name)]
                for name in names:
                    self.defined.setdefault(name, []).append(statement)
                if not names:
                    self.loose.append(statement)
        else:
            self.loose.append(statement)


class Reach:
    """The closure of what roots name."""

    def __init__(self) -> None:
        self.modules = {m.name: m for m in map(Module, sorted(PACKAGE.rglob("*.py")))}
        self.reached: set[tuple[str, str]] = set()
        self.attributes: set[str] = set()
        self.patterns: list[re.Pattern[str]] = []
        self._waiting_methods: dict[str, list[tuple[str, str, ast.stmt]]] = {}
        self._opened: set[str] = set()

    def root(self, module: str) -> None:
        """Everything of a module."""
        self._open(module)
        for name in self.modules[module].defined:
            self.name(module, name)

    def _open(self, module: str) -> None:
        """A module is imported: its loose code runs."""
        if module in self._opened or module not in self.modules:
            return
        self._opened.add(module)
        for statement in self.modules[module].loose:
            if not isinstance(statement, ast.Import | ast.ImportFrom):
                self.code(module, statement)

    def name(self, module: str, name: str) -> None:
        """One name of a module is used."""
        if module not in self.modules:
            return
        found = self.modules[module]
        self._open(module)
        if name not in found.defined:
            if name in found.imports:
                self._imported(*found.imports[name])
            return
        if (module, name) in self.reached:
            return
        self.reached.add((module, name))
        for statement in found.defined[name]:
            if isinstance(statement, ast.ClassDef):
                self._class(module, statement)
            else:
                self.code(module, statement)

    def _class(self, module: str, node: ast.ClassDef) -> None:
        for part in [*node.bases, *node.keywords, *node.decorator_list]:
            self.code(module, part)
        for part in node.body:
            if not isinstance(part, ast.FunctionDef):
                self.code(module, part)
            elif part.name.startswith("__") or part.name in self.attributes or self._is_put_together(part.name):
                self._method(module, node.name, part)
            else:
                self._waiting_methods.setdefault(part.name, []).append((module, node.name, part))

    def _is_put_together(self, name: str) -> bool:
        return any(pattern.fullmatch(name) for pattern in self.patterns)

    def _method(self, module: str, owner: str, node: ast.stmt) -> None:
        assert isinstance(node, ast.FunctionDef)
        self.reached.add((module, f"{owner}.{node.name}"))
        self.code(module, node)

    def _imported(self, module: str, name: str | None) -> None:
        if name is not None and f"{module}.{name}" in self.modules:
            self._open(f"{module}.{name}")
        elif name is not None:
            self.name(module, name)

    def code(self, module: str, node: ast.AST) -> None:
        """A piece of code runs: whatever it names is reached."""
        for part in ast.walk(node):
            if isinstance(part, ast.Name):
                self.name(module, part.id)
            elif isinstance(part, ast.Attribute):
                self._attribute(module, part)
            elif isinstance(part, ast.JoinedStr):
                self._patterned(part)
            elif isinstance(part, ast.Constant) and isinstance(part.value, str) and part.value.isidentifier():
                self._named(part.value)  # a field named by its word, as attrgetter takes it
            elif isinstance(part, ast.ImportFrom) and part.module:
                for alias in part.names:
                    self._imported(part.module, alias.name)

    def _patterned(self, node: ast.JoinedStr) -> None:
        """A field whose name is put together: every method of such a name is reached."""
        fixed = [str(each.value) if isinstance(each, ast.Constant) else None for each in node.values]
        if not any(text and "_" in text for text in fixed):
            return
        pattern = re.compile("".join("\\w+" if text is None else re.escape(text) for text in fixed))
        self.patterns.append(pattern)
        for name in [name for name in self._waiting_methods if pattern.fullmatch(name)]:
            self._named(name)

    def _attribute(self, module: str, node: ast.Attribute) -> None:
        self._named(node.attr)
        if isinstance(node.value, ast.Name):
            source = self.modules[module].imports.get(node.value.id)
            if source is not None:
                base, name = source
                self.name(base if name is None else f"{base}.{name}", node.attr)

    def _named(self, attribute: str) -> None:
        if attribute not in self.attributes:
            self.attributes.add(attribute)
            for module, owner, node in self._waiting_methods.pop(attribute, []):
                self._method(module, owner, node)


def functions(module: Module) -> Iterator[str]:
    """Top-level functions and classes, and the methods of the classes, but for those with double underscores."""
    for name, statements in module.defined.items():
        for statement in statements:
            if isinstance(statement, ast.FunctionDef | ast.ClassDef):
                yield name
            if isinstance(statement, ast.ClassDef):
                methods = [p.name for p in statement.body if isinstance(p, ast.FunctionDef)]
                yield from (f"{name}.{method}" for method in methods if not method.startswith("__"))


def unreached(rooms: tuple[str, ...], roots: tuple[str, ...]) -> list[str]:
    """The definitions in `rooms` that no root reaches. Rooms and roots are dotted names, roots with all below."""
    reach = Reach()
    for name in reach.modules:
        if any(name == root or name.startswith(f"{root}.") for root in roots):
            reach.root(name)
    found = []
    for name, module in reach.modules.items():
        if any(name == room or name.startswith(f"{room}.") for room in rooms):
            found += [f"{name}.{each}" for each in functions(module) if (name, each) not in reach.reached]
    return sorted(set(found))
