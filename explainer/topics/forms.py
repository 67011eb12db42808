"""Forms of a word that count as the same: endings in English and German, the parts grown on to an Arabic word."""

from __future__ import annotations

from functools import lru_cache

_ENDINGS = {
    "en": ("ingly", "ing", "ies", "ied", "edly", "ed", "es", "ly", "s"),
    "de": ("ern", "em", "en", "er", "es", "et", "st", "e", "n", "s", "t"),
}
_SHORTEST_STEM = {"en": 3, "de": 4}
_BEFORE = ("وبال", "وال", "بال", "فال", "كال", "لل", "ال", "و", "ف", "ب", "ل", "ك", "ع", "م")
_PERSONS = ("ي", "ت", "ن", "ا", "بي", "بت", "بن", "ما")
_AFTER = tuple("تها تهم تنا تي ته تك هما ها هم كم نا ني ات ين ون ان يه ه ي ك ت ا و".split())
_SHORTEST_ARABIC = 3


@lru_cache(maxsize=65536)
def forms(word: str, language: str) -> frozenset[str]:
    """All forms by which the word may stand in a list: itself, its stem, and what is left without grown-on parts."""
    if language == "ar":
        return _arabic(word)
    found = {word, stem(word, language)}
    if language == "de":
        spelt = word.replace("ae", "a").replace("oe", "o").replace("ue", "u")
        found |= {spelt, stem(spelt, language)}
    return frozenset(found)


def stem(word: str, language: str) -> str:
    """The word without its ending, roughly; a doubled letter before the ending goes too (`slipping`, `slip`)."""
    for ending in _ENDINGS.get(language, ()):
        if word.endswith(ending) and len(word) - len(ending) >= _SHORTEST_STEM[language]:
            bare = word.removesuffix(ending)
            if ending in ("ies", "ied"):
                return bare + "y"
            doubled = language == "en" and len(bare) > 3 and bare[-1] == bare[-2] and bare[-1] not in "ls"
            return _bare(bare[:-1] if doubled else bare)
    return _bare(word)


def _bare(bare: str) -> str:
    """Without a last e, so that `scrape` is found in `scraping`; short words keep it (`care` is no `car`)."""
    return bare.removesuffix("e") if len(bare) > 4 else bare


def _arabic(word: str) -> frozenset[str]:
    begun = {word} | {word.removeprefix(each) for each in _BEFORE if _holds(word, each, "")}
    begun |= {each.removeprefix(person) for each in begun for person in _PERSONS if _holds(each, person, "")}
    ended = {each.removesuffix(after) for each in begun for after in _AFTER if _holds(each, "", after)}
    return frozenset(begun | ended)


def _holds(word: str, before: str, after: str) -> bool:
    """Whether the word has those parts and a stem beside them."""
    grown = len(before) + len(after)
    return word.startswith(before) and word.endswith(after) and len(word) - grown >= _SHORTEST_ARABIC
