"""What a reader, a search or a copy takes out of the PDF is what stands in its source."""

from __future__ import annotations

import io
import re
import shutil
import subprocess
from collections import Counter
from functools import cache
from html import unescape
from pathlib import Path

import pypdf
import pytest
from render import sample

needs_poppler = pytest.mark.skipif(shutil.which("pdftotext") is None, reason="poppler-utils is not installed")
STANDARD = ("en", "standard", "A4")
SAMPLES = [
    ("en", "standard", "A4"),
    ("en", "standard", "Letter"),
    ("en", "large-print", "A4"),
    ("de", "standard", "A4"),
]


@cache
def made(*choice: str) -> bytes:
    return sample.pdf(*choice).data


@pytest.mark.slow
@needs_poppler
@pytest.mark.parametrize("choice", SAMPLES, ids="-".join)
def test_the_tags_read_exactly_as_the_source(choice: tuple[str, ...], tmp_path: Path) -> None:
    """Reading order, words, signs: the text in the order of the tags is the text of the HTML, nothing more or less."""
    path = tmp_path / "x.pdf"
    path.write_bytes(made(*choice))
    told = subprocess.run(["pdfinfo", "-struct-text", str(path)], capture_output=True, text=True, check=True).stdout
    source = sample.html(*choice[:1], edition=choice[1], paper=choice[2])
    assert _bare(_spoken(told)) == _bare(_source_words(source))
    assert "−" in _spoken(told)


@needs_poppler
def test_copied_text_has_every_word_and_the_true_minus(tmp_path: Path) -> None:
    path = tmp_path / "x.pdf"
    path.write_bytes(made(*STANDARD))
    told = subprocess.run(["pdftotext", str(path), "-"], capture_output=True, text=True, check=True).stdout
    source = _source_words(sample.html())
    words = Counter(source.replace("-", "").split())  # the reader joins "anti-" and "reflection" over a line's end
    assert not words - Counter(told.replace("-\n", "").replace("-", "").split())
    assert told.count("−") == source.count("−")
    assert not set(told) & set("\u00ad\u2010\ufffd")


def test_nearly_all_arabic_words_can_be_copied_whole() -> None:
    """A letter group with two marks, and a word between two numbers, still come out turned; see engine issue 2841."""
    reader = pypdf.PdfReader(io.BytesIO(made("ar", "standard", "A4")))
    told = "\n".join(sheet.extract_text() for sheet in reader.pages)
    source = _source_words(sample.html("ar"))
    words = set(re.findall(r"[\u0621-\u0652]{3,}", source))
    assert len(words) > 120
    whole = [word for word in words if word in told]
    assert len(whole) >= 0.97 * len(words)


def _spoken(told: str) -> str:
    """The words of `pdfinfo -struct-text`, without those of list labels."""
    words, label = [], None
    for line in told.splitlines():
        depth = len(line) - len(line.lstrip())
        if label is not None and depth <= label:
            label = None
        if re.match(r"\s*Lbl\b", line):
            label = depth
        found = re.match(r'\s*"(.*)"$', line)
        if found and label is None:
            words.append(found[1])
    return " ".join(words)


def _source_words(html: str) -> str:
    """The words of the page's source, the page foot and the head apart."""
    body = re.sub(r"<!--.*?-->", "", html.split("<body>")[1].partition("<!--foot-->")[0])
    inline = re.sub(r"</?(?:a|bdi|strong)\b[^>]*>", "", body)
    return " ".join(unescape(re.sub(r"<[^>]*>", " ", inline)).split())


def _bare(text: str) -> str:
    return re.sub(r"\s", "", text)
