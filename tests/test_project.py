"""The house rules that a machine can hold: size of files, directions of imports, types, style, true documents."""

from __future__ import annotations

import ast
import re
import subprocess
import sys
from pathlib import Path

import pytest

HOME = Path(__file__).parents[1]
SOURCES = sorted((HOME / "explainer").rglob("*.py"))
ALLOWED = {
    "README.md",
    "DEVELOPERS.md",
    "pyproject.toml",
    "explainer",
    "templates",
    "locales",
    "tests",
    "output_examples",
}


def run(*command: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run([sys.executable, "-m", *command], cwd=HOME, capture_output=True, text=True, check=False)


@pytest.mark.slow
@pytest.mark.parametrize(
    "command", [("ruff", "check", "."), ("ruff", "format", "--check", "."), ("mypy",)], ids=["ruff", "format", "mypy"]
)
def test_style_and_types_are_clean(command: tuple[str, ...]):
    result = run(*command)

    assert result.returncode == 0, result.stdout + result.stderr


def test_imports_run_downward_only():
    result = subprocess.run(
        [str(Path(sys.executable).parent / "lint-imports")], cwd=HOME, capture_output=True, text=True, check=False
    )

    assert result.returncode == 0, result.stdout


def test_no_file_is_longer_than_three_hundred_lines():
    assert [path for path in SOURCES if len(path.read_text(encoding="utf-8").splitlines()) > 300] == []


def test_function_bodies_are_short():
    lengths = [
        (node.body[-1].end_lineno or 0) - node.body[0].lineno + 1
        for path in SOURCES
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.FunctionDef)
    ]
    over = sum(length > 36 for length in lengths)

    assert max(lengths) <= 60
    assert over / len(lengths) < 0.05


def test_every_public_thing_is_documented():
    trees = {path: ast.parse(path.read_text(encoding="utf-8")) for path in SOURCES}
    undocumented = [
        (path, node.name)
        for path, tree in trees.items()
        for node in tree.body
        if isinstance(node, ast.FunctionDef | ast.ClassDef)
        and not node.name.startswith("_")
        and not ast.get_docstring(node)
    ]

    assert not undocumented
    assert [path for path, tree in trees.items() if tree.body and not ast.get_docstring(tree)] == []


def test_top_level_holds_nothing_but_the_card():
    listed = subprocess.run(["git", "ls-files"], cwd=HOME, capture_output=True, text=True, check=True).stdout.split()
    top = {name.partition("/")[0] for name in listed}

    assert {name for name in top if not name.startswith(".")} <= ALLOWED


def test_the_machine_runs_the_test_command_of_the_readme():
    readme = (HOME / "README.md").read_text(encoding="utf-8")
    command = (HOME / ".ci" / "run").read_text(encoding="utf-8").splitlines()[-1]

    assert command in readme


def test_no_over_claim_is_written_anywhere():
    over = re.compile(r"shatter-?proof|bullet-?proof|100 ?% (uv|protection)|you will get used")
    written = [*SOURCES, *sorted((HOME / "templates").rglob("*.md"))]

    assert [path for path in written if over.search(path.read_text(encoding="utf-8").lower())] == []


def test_help_and_check_start_without_the_engine_or_the_plotter():
    code = """
import sys, explainer.cli, explainer.orders, explainer.optics.claims
print('weasyprint' in sys.modules, 'matplotlib' in sys.modules)
"""
    shown = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=HOME)

    assert shown.stdout.split() == ["False", "False"]


def test_the_readme_lists_exactly_the_commands_there_are():
    from explainer.cli import main

    readme = (HOME / "README.md").read_text(encoding="utf-8")
    listed = set(re.findall(r"^\| `explainer (\w+)", readme, re.MULTILINE))

    assert listed == set(main.commands)


def test_every_option_of_make_is_named_in_the_readme():
    from explainer.cli import main

    readme = (HOME / "README.md").read_text(encoding="utf-8")

    for option in main.commands["make"].params:
        assert option.opts[-1] in readme or option.name == "orders", option.name


def test_the_tour_names_folders_that_exist():
    tour = (HOME / "DEVELOPERS.md").read_text(encoding="utf-8")

    for folder in re.findall(r"\*\*`(explainer/[\w/]+/|templates/|locales/)`\*\*", tour):
        assert (HOME / folder).is_dir(), folder


def test_the_order_in_the_readme_is_one_that_the_program_reads(tmp_path: Path):
    from explainer.orders import read_order

    readme = (HOME / "README.md").read_text(encoding="utf-8")
    example = re.search(r"```toml\n(.*?)```", readme, re.DOTALL)
    assert example
    path = tmp_path / "order.toml"
    path.write_text(example[1], encoding="utf-8")

    assert read_order(path).number == "FL-3107"


@pytest.mark.slow
def test_the_wheel_carries_templates_and_catalogues_and_says_that_it_is_typed(tmp_path: Path):
    import zipfile

    built = run("pip", "wheel", "--quiet", "--no-deps", "--wheel-dir", str(tmp_path), ".")
    assert built.returncode == 0, built.stderr

    held = zipfile.ZipFile(next(tmp_path.glob("*.whl"))).namelist()

    assert "explainer/templates/sections/lead.md" in held
    assert "explainer/locales/de/LC_MESSAGES/explainer.po" in held
    assert "explainer/optics/facts/spectra/sky.csv" in held
    assert "explainer/py.typed" in held
