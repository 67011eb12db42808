"""output_examples/ is what the program makes now: a fresh run gives the same words, numbers and pages."""

from __future__ import annotations

import importlib.util
import io
from email.message import EmailMessage
from pathlib import Path

import numpy as np
import pytest
from mailreading import STRICT, parsed
from PIL import Image
from readback import pdf_text

pytestmark = pytest.mark.slow
FOLDER = Path(__file__).parents[1] / "output_examples"


@pytest.fixture(scope="module")
def fresh(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A fresh run of the rebuild command, page images apart."""
    spec = importlib.util.spec_from_file_location("rebuild", FOLDER / "rebuild.py")
    assert spec
    assert spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    target = tmp_path_factory.mktemp("examples")
    module.rebuild(target, with_images=False)
    return target


def names(folder: Path) -> set[str]:
    return {path.name for path in folder.iterdir()}


def test_the_same_files_are_made(fresh: Path):
    assert names(fresh / "leaflets") == names(FOLDER / "leaflets")
    assert names(fresh / "evidence") == names(FOLDER / "evidence")
    assert names(fresh / "replies") == names(FOLDER / "replies")
    assert names(fresh / "parcel") == names(FOLDER / "parcel")


def test_the_leaflets_hold_the_same_words(fresh: Path):
    """Bytes may differ between machines (library versions); words, numbers and pages may not."""
    for path in (fresh / "leaflets").iterdir():
        assert pdf_text(path) == pdf_text(FOLDER / "leaflets" / path.name), path.name


def test_the_evidence_is_the_same(fresh: Path):
    for path in (fresh / "evidence").iterdir():
        kept = (FOLDER / "evidence" / path.name).read_text(encoding="utf-8")
        assert path.read_text(encoding="utf-8") == kept, path.name


def test_the_replies_are_the_same_messages(fresh: Path):
    """Headers, text and HTML to the letter; pictures to the eye, since another compressor writes other bytes."""
    for path in (fresh / "replies").iterdir():
        made, kept = parsed(path.read_bytes()), parsed((FOLDER / "replies" / path.name).read_bytes())
        assert made.policy == kept.policy == STRICT
        assert made.items() == kept.items()
        for one, other in zip(made.walk(), kept.walk(), strict=True):
            assert one.get_content_type() == other.get_content_type()
            if one.get_content_maintype() == "text":
                assert one.get_content() == other.get_content(), path.name
            elif one.get_content_maintype() == "image":
                assert np.abs(pixels(one) - pixels(other)).mean() < 2


def pixels(part: EmailMessage) -> np.ndarray:
    return np.asarray(Image.open(io.BytesIO(part.get_content())).convert("L")).astype(float)
