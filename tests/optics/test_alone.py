"""The core stands alone: nothing of the document stack, every citation used, every fact complete."""

from __future__ import annotations

import subprocess
import sys
import tomllib
from pathlib import Path

import numpy
import pytest

from explainer.optics import facts
from explainer.optics.facts.spectra import about, names

HOME = Path(__file__).parents[2]
DOCUMENT_STACK = ("babel", "click", "jinja2", "markdown", "markupsafe", "matplotlib", "pydantic", "weasyprint")


def test_the_core_explains_a_pair_with_nothing_of_the_document_stack_installed(tmp_path: Path):
    """A Python without site-packages that finds only numpy and explainer.optics with its errors."""
    for name in ("__init__.py", "errors.py", "optics"):
        (tmp_path / "explainer").mkdir(exist_ok=True)
        (tmp_path / "explainer" / name).symlink_to(HOME / "explainer" / name)
    for folder in Path(numpy.__file__).parents[1].glob("numpy*"):
        (tmp_path / folder.name).symlink_to(folder)
    code = f"""
import sys
sys.path.insert(0, {str(tmp_path)!r})
for name in {DOCUMENT_STACK!r}:
    try:
        __import__(name)
    except ImportError:
        continue
    raise SystemExit(name + " is installed here")
from explainer.optics.claims import explain
from explainer.optics.spectacles import Eye, Prescription, Spectacles
pair = Spectacles(prescription=Prescription(right=Eye(sphere_d=-2.0), left=Eye(sphere_d=1.0)))
print(explain(pair).claims["right.sphere"].value)
"""
    shown = subprocess.run(
        [sys.executable, "-S", "-E", "-s", "-c", code], cwd=tmp_path, capture_output=True, text=True, check=False
    )

    assert shown.stdout.strip() == "-2.0", shown.stderr


def cited_in_tests() -> set[str]:
    """Source keys that worked examples or test files name."""
    keys: set[str] = set()
    for path in sorted((HOME / "tests" / "published").glob("*.toml")):
        for case in tomllib.loads(path.read_text(encoding="utf-8")).values():
            keys |= {str(entry.get("source")) for entry in case if isinstance(entry, dict)}
    words = [path.read_text(encoding="utf-8") for path in (HOME / "tests").rglob("*.py")]
    words += [path.read_text(encoding="utf-8") for path in (HOME / "explainer" / "optics").rglob("*.py")]
    words += [path.read_text(encoding="utf-8") for path in (HOME / "explainer" / "optics").rglob("*.csv")]
    words.append((HOME / "tests" / "data" / "studies.toml").read_text(encoding="utf-8"))
    joined = "\n".join(words)
    return keys | {key for key in facts.sources() if key in joined}


def test_every_citation_is_used():
    used = {citation.source for fact in facts.every_fact() for citation in fact.sources} | cited_in_tests()

    assert set(facts.sources()) - used == set()


@pytest.mark.parametrize("fact", list(facts.every_fact()), ids=lambda fact: fact.id)
def test_every_fact_has_unit_and_basis_and_known_sources(fact: facts.Fact):
    assert fact.unit
    assert fact.basis
    assert all(citation.source in facts.sources() and citation.locator for citation in fact.sources)


def test_spectra_name_their_source():
    for name, _column in names():
        assert about(name)
