"""Picks the words of their own that lie near a term (`explainer/topics/other_*.txt`) from lists of common words.

`python tests/bench/other_words.py FOLDER`: FOLDER holds en.txt, de.txt and ar.txt, a word a line, most frequent first.
Lists of a frequency dictionary of subtitles were used, cut where slips of spelling begin to stand among the words.
"""

from __future__ import annotations

import sys
from pathlib import Path

from explainer.topics import vocabulary
from explainer.topics.books import languages, topic_book, urgent_book
from explainer.topics.words import plain


def near_words(words: set[str], language: str) -> list[str]:
    """Those of the words that would be taken for a slip of a term."""
    books = (topic_book(language).vocabulary, urgent_book(language).vocabulary)
    return sorted(word for word in words if any(not book.plainly(word) and book.slips(word) for book in books))


def main(folder: Path) -> None:
    """Writes a list for each language that the folder has words of."""
    for language in languages():
        words = {plain(word) for word in (folder / f"{language}.txt").read_text(encoding="utf-8").split()}
        path = vocabulary.FOLDER / f"other_{language}.txt"
        path.write_text("\n".join(near_words(words, language)) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main(Path(sys.argv[1]))
