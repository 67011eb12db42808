"""Numbers in words beside a unit: "two millimetres" is as much a number as 2 mm, and no claim holds it.

Words are compared without capitals, marks and emphasis, in the languages that leaflets are made in. A number counts
when a unit stands near it in the same sentence; numbers of things ("two cloths") and of years are free.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator

_NUMBERS = frozenset(
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen "
    "eighteen nineteen twenty thirty forty fifty sixty seventy eighty ninety hundred thousand million half halves "
    "third thirds quarter quarters fifth tenth tenths hundredth dozen couple "
    "null eins zwei zwo drei vier funf sechs sieben acht neun zehn elf zwolf dreizehn vierzehn funfzehn sechzehn "
    "siebzehn achtzehn neunzehn zwanzig dreissig vierzig funfzig sechzig siebzig achtzig neunzig hundert tausend "
    "halb halbe halber halbes halben drittel viertel zehntel hundertstel dutzend anderthalb eineinhalb "
    "صفر واحد واحدة اثنان اثنين اثنتان اثنتين ثلاث ثلاثة اربع اربعة خمس خمسة ست ستة سبع سبعة ثماني ثمانية "
    "ثمان تسع تسعة "
    "عشر عشرة عشرون عشرين ثلاثون ثلاثين اربعون اربعين خمسون خمسين ستون ستين سبعون سبعين ثمانون ثمانين تسعون تسعين "
    "مئة مائة مئتان مئتين الف الفان نصف ثلث ربع خمس عشر".split()
)
_GERMAN = (
    r"null|eins|ein(?=und|hundert|tausend)|zwei|zwo|drei|vier|funf|sechs?|sieb(?:en)?|acht|neun|zehn|elf|zwolf|zwanzig|"
    r"dreissig|hundert|tausend|einhalb"
)
_JOINED = re.compile(rf"(?:{_GERMAN})(?:{_GERMAN}|zig|und)*")  # zweiundzwanzig, hundertfunfzig, dreieinhalb
_ROMAN = re.compile(r"(?=[ivxlcdm]{2})m{0,3}(?:c[md]|d?c{0,3})(?:x[cl]|l?x{0,3})(?:i[xv]|v?i{0,3})")
_UNITS = re.compile(
    r"(?:milli|centi|zenti|nano|mikro|micro|kilo)?(?:met(?:re|er)s?|metern)|mm|cm|nm|di?opt(?:re|er|rie)[ns]?|dpt|"
    r"prismendioptrien?|degrees?|grad|celsius|fahrenheit|percent|prozent(?:e|en)?|cent|inch(?:es)?|zoll|"
    r"(?:milli|kilo)?gram(?:m|me|s|mes|ms)?|seconds|sekunden?|minutes?|minuten?|hours?|stunden?|days?|tag(?:e|en)?|"
    r"weeks?|wochen?|months?|monat(?:e|en|s)?|"
    r"(?:ال)?(?:مليمتر|ملليمتر|ميليمتر|سنتيمتر|متر|ديوبتر|ديوبتري|درجة|درجات|غرام|جرام|ثانية|ثوان|دقيقة|دقائق|ساعة|ساعات|"
    r"يوم|يوما|ايام|اسبوع|اسابيع|شهر|اشهر)(?:ات|ا)?|بالمئة|بالمائة"
)
_DUAL = re.compile(r"(?:مليمتر|ملليمتر|ميليمتر|سنتيمتر|متر|ديوبتر|درجت|غرام|جرام|دقيقت|ساعت|يوم|اسبوع|شهر)(?:ان|ين)")
_WORD = re.compile(r"\w+")
_SENTENCE = re.compile(r"[.!?؟;؛]\s|\n\s*\n")
_REACH_BEFORE, _REACH_AFTER = 2, 1
VALUE = "\ufffc"
"""Stands for what `say` puts in; it carries its own unit."""


def number_in_words(text: str) -> Iterator[tuple[int, str]]:
    """The place and the words of every number beside a unit in a text whose template marks were taken out."""
    begun = 0
    for end in [*(found.end() for found in _SENTENCE.finditer(text)), len(text)]:
        for place, words in _in_sentence(text[begun:end]):
            yield begun + place, words
        begun = end


def mixed_scripts(text: str) -> str | None:
    """A word with letters of two alphabets, which looks like one that it is not; None if there is none."""
    for word in re.findall(r"[^\W\d_]+", text):
        scripts = {unicodedata.name(letter, "?").partition(" ")[0] for letter in word}
        if len(scripts & {"LATIN", "CYRILLIC", "GREEK", "ARMENIAN", "CHEROKEE"}) > 1:
            return str(word)
    return None


def _in_sentence(sentence: str) -> Iterator[tuple[int, str]]:
    text = _bare(sentence.replace(VALUE, " qvalueq "))
    words = [(found.start(), found[0], found[0].casefold()) for found in _WORD.finditer(text)]
    for at, (place, shown, word) in enumerate(words):
        if _DUAL.fullmatch(word):
            yield place, shown
        if not _UNITS.fullmatch(word):
            continue
        near = words[max(0, at - _REACH_BEFORE) : at] + words[at + 1 : at + 1 + _REACH_AFTER]
        number = next((other for other in near if _is_number(other[1], other[2])), None)
        if number is not None:
            yield place, f"{number[1]} … {shown}"
        elif at and words[at - 1][1] == "qvalueq":
            yield place, f"a value … {shown}"


def _is_number(shown: str, word: str) -> bool:
    if shown.isupper() and _ROMAN.fullmatch(word):
        return True
    return word in _NUMBERS or _JOINED.fullmatch(word) is not None


def _bare(text: str) -> str:
    """The text without marks on its letters: zwölf is zwolf, the Arabic alif is bare."""
    plain = unicodedata.normalize("NFKD", text)
    return "".join(letter for letter in plain if not unicodedata.combining(letter)).replace("ـ", "").replace("ى", "ي")
