"""The words of written prescriptions, in English, German, French, Spanish, Italian, Portuguese and Polish.

Most words mean one thing wherever they stand and are understood in every language. A few collide: OS is the left eye
in Latin and the axis in Polish, BU is base up in English and base down in German. Those are bound to languages; where
the language does not settle the meaning they are of the kind `collides`, which the parser refuses with the reason.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple

NO_LANGUAGE = "-"


class Meaning(NamedTuple):
    """What a word stands for: its kind, and a value where the kind needs one."""

    kind: str
    value: str = ""


_EVERYWHERE: dict[Meaning, str] = {
    Meaning(
        "right"
    ): "od|o.d.|right|right eye|re|r.e.|rt|r|rechts|rechtes auge|rechte|droit|droite|œil droit|oeil droit"
    "|derecho|derecha|ojo derecho|destro|occhio destro|direito|olho direito|prawe|prawy|oko prawe|prawe oko|右眼",
    Meaning("left"): "left|left eye|lt|links|linkes auge|linke|og|o.g.|gauche|œil gauche|oeil gauche|oi|o.i."
    "|izquierdo|izquierda|ojo izquierdo|sinistro|occhio sinistro|esquerdo|olho esquerdo|lewe|lewy|oko lewe|lewe oko"
    "|左眼",
    Meaning("both"): "ou|o.u.|r+l|r&l|r/l|r und l|r u. l|r and l|od/os|od+os|od&os|od/og|od/oi|re/li"
    "|both|both eyes|each eye|beide|beide augen|beidseits|bds|rechts und links|links und rechts"
    "|odg|les deux yeux|ambos|ambos ojos|ambos olhos|ambos os olhos|entrambi|entrambi gli occhi|oboje oczu|双眼",
    Meaning("sph"): "sph|sphere|spherical|s|sphäre|sphaere|sphère|sphérique|esf|esfera|esférico|esferico|sf|sfera|sfero"
    "|球镜",
    Meaning("ds"): "ds|d.s.|dsph",
    Meaning("cyl"): "cyl|cylinder|cylindre|c|zyl|zylinder|cil|cilindro|cilíndrico|cilindrico|柱镜",
    Meaning("dc"): "dc|d.c.|dcyl",
    Meaning("dcx"): "dcx|cylx",
    Meaning("axis"): "x|×|✕|*|ax|axis|axe|achse|a|à|eje|asse|eixo|oś|轴位|轴|乘以",
    Meaning("cx"): "cx",
    Meaning("meridian"): "@|at",
    Meaning("plano"): "pl|plano|plan|planum|neutro|∞|平光|±0.00|±0,00|±0",
    Meaning("unit"): "d|dpt|dptr|dptrs|diopter|diopters|dioptre|dioptres"
    "|dioptrie|dioptries|dioptrien|dioptria|dioptrii|dioptrías|dioptrias|δ",
    Meaning("dx"): "dx",
    Meaning("degree"): "°|deg|degree|degrees|grad|degrés|度",
    Meaning("add"): "add|addition|reading add|reading addition|near add|near addition|add power"
    "|nah-add|nahaddition|add nah|zusatz|nahzusatz|adición|adicion|ad|addizione|adição"
    "|adicao|addycja|dodatek|下加光|加光",
    Meaning(
        "near"
    ): "near|for near|nv|near vision|nähe|nah|vp|v.p.|vision de près|près|cerca|vicino|perto|bliż|bliz|do bliży"
    "|in der nähe|für die nähe|de près|vision proche|de cerca|visión próxima|visión de cerca|da vicino|de perto"
    "|visão de perto|z bliska",
    Meaning(
        "distance"
    ): "distance|dist|dv|far|for distance|distance vision|ferne|fern|vl|v.l.|vision de loin|loin|lejos"
    "|lontano|longe|dal|do dali|in der ferne|für die ferne|de loin|de lejos|visión lejana|visión de lejos|da lontano"
    "|de longe|visão de longe|z daleka",
    Meaning("and"): "and|with|w/|und|et|c/w|comb|combined with|联合|&|⌒|⌢",
    Meaning("rx"): "rx",
    Meaning("prism", "unit"): "Δ|^|pdpt|pdptr|prism dioptre|prism dioptres|prism diopter|prism diopters|cm/m",
    Meaning("prism"): "prism|pr|prisma|prisme|pryzmat|棱镜",
    Meaning("base"): "base|basis|baza|基底",
    Meaning("to", "in"): "in|nasal|nasale|nasally|innen|interne|interna|nach innen|do nosa|nosowo|nosowa|przynosowo",
    Meaning("to", "out"): "out|temporal|temporale|außen|aussen|externe|externa|esterna"
    "|temporally|nach außen|nach aussen|do skroni|skroniowo|skroniowa|przyskroniowo",
    Meaning("to", "up"): "up|oben|supérieure|superieure|superior|superiore|alta|haute|haut|en haut"
    "|nach oben|hacia arriba|arriba|para cima|do góry|w górę|ku górze|górna",
    Meaning("to", "down"): "down|unten|inférieure|inferieure|inferior|inferiore|bassa|basse|bas"
    "|en bas|nach unten|hacia abajo|abajo|para baixo|do dołu|w dół|ku dołowi|dolna",
    Meaning("vertex"): "bvd|vd|hsa|vertex|vertex distance|back vertex distance|hornhautscheitelabstand"
    "|distance verre-œil|distance verre œil|distancia de vértice|distancia al vértice|distância vértice"
    "|distância ao vértice|distanza vertice|distanza apice corneale|odległość wierzchołkowa",
    Meaning("pd"): "pd|p.d.|ipd|pupillary distance|interpupillary distance|mono pd|monocular pd|binocular pd|瞳距"
    "|pupillendistanz|pupillenabstand|augenabstand|dip|d.i.p.|ep|e.p.|écart pupillaire|ecart pupillaire"
    "|distancia interpupilar|distancia pupilar|distância interpupilar|distância pupilar|distanza interpupillare"
    "|rozstaw źrenic|odległość źrenic",
    Meaning("mm"): "mm",
    Meaning("for"): "for|für|fuer|pour|para|per|dla",
    Meaning("acuity"): "va|visus|acuity|等于|视力",
    Meaning("scale", "tabo"): "tabo",
    Meaning("scale", "int"): "int|inter|internazionale|international",
    Meaning("balance"): "bal|balance|balance lens|ausgleichsglas",
    Meaning("contact"): "contact|contact lens|contact lenses|cl|bc|base curve|dia|kontaktlinse|kontaktlinsen"
    "|lentille|lentilles|lentillas|lente de contacto|lenti a contatto|soczewki",
}

_BOUND: list[tuple[Meaning, str, str]] = [
    # meaning, languages in which it holds, words; in every other language the word is unknown or `collides`
    (Meaning("left"), "- en de fr es it pt", "os|o.s."),
    (Meaning("os"), "pl sk", "os|o.s."),
    (Meaning("left"), "- en de pl sk", "l"),
    (Meaning("left"), "- en de", "le|l.e."),
    (Meaning("l"), "fr es it pt", "l"),
    (Meaning("right"), "pl sk", "op|o.p."),
    (Meaning("left"), "pl sk", "ol|o.l."),
    (Meaning("both"), "pl sk", "opl|obu|oba|obu oczu|obojga oczu|oba oczy"),
    (Meaning("left"), "pt", "oe|o.e."),
    (Meaning("both"), "- en", "be|b.e."),
    (Meaning("both"), "es pt", "ao"),
    (Meaning("both"), "it", "oo"),
    (Meaning("right"), "de", "ra|r.a."),
    (Meaning("left"), "de", "la|l.a.|li"),
    (Meaning("cyl"), "de", "z"),
    (Meaning("axis"), "de", "ach"),
    (Meaning("right"), "it", "dx"),
    (Meaning("left"), "it", "sx"),
    (Meaning("plano"), "it", "piano"),
    (Meaning("code", "in"), "- en de", "bi|b.i."),
    (Meaning("code", "out"), "- en", "bo|b.o."),
    (Meaning("code", "up"), "- en", "bu|b.u."),
    (Meaning("code", "down"), "- en", "bd|b.d."),
    (Meaning("oblique", "up in"), "- en", "bu&i|bu & i|bu&bi"),
    (Meaning("oblique", "up out"), "- en", "bu&o|bu & o|bu&bo"),
    (Meaning("oblique", "down in"), "- en", "bd&i|bd & i|bd&bi"),
    (Meaning("oblique", "down out"), "- en", "bd&o|bd & o|bd&bo"),
    (Meaning("code", "out"), "de", "ba"),
    (Meaning("base"), "de", "b|bas"),
    (Meaning("base"), "fr", "en base"),
    (Meaning("code", "in"), "fr es it pt pl", "bn|b.n."),
    (Meaning("code", "out"), "fr es it pt", "bt|b.t."),
    (Meaning("code", "in"), "fr es it pt", "base int"),
    (Meaning("code", "out"), "fr es it pt", "base ext|base est"),
    (Meaning("code", "up"), "fr es it pt", "base sup"),
    (Meaning("code", "down"), "fr es it pt", "base inf"),
    (Meaning("code", "up"), "it", "base in alto|base alto|base verso l'alto"),
    (Meaning("code", "down"), "it", "base in basso|base basso|base verso il basso"),
    (Meaning("vertex"), "fr es it pt", "dv|d.v."),
    (Meaning("pd"), "fr es pt", "dp|d.p."),
    (Meaning("pd"), "es pt", "dnp|d.n.p."),
    (Meaning("pd"), "it", "di|d.i."),
    (Meaning("near"), "es", "vc"),
    (Meaning("of"), "- en", "of"),
    (Meaning("of"), "de", "von"),
    (Meaning("of"), "fr es pt", "de"),
    (Meaning("and"), "it pt", "e"),
    (Meaning("and"), "es", "y"),
    (Meaning("and"), "pl", "i"),
    (Meaning("near"), "de", "n"),
    (Meaning("distance"), "de", "f"),
]

COLLISIONS: dict[str, str] = {
    "os": 'OS is the left eye in Latin and the axis in Polish; write "left" or OL for the eye, "oś" or x for the axis',
    "l": 'L may be the left eye or "for distance" in this language; write "left" or the word of the language',
    "s": 'S may be the sphere or "sinistro" in this language; write "sph" or OS',
    "op": 'OP is the right eye in Polish only; write "right", or written_in = "pl"',
    "ol": 'OL is the left eye in Polish only; write "left", or written_in = "pl"',
    "oe": 'OE is the left eye in Portuguese only; write "left", or written_in = "pt"',
    "in": '"in" is English, or has lost its "alto" or "basso"; write nasale, temporale, alto or basso',
    "bi": 'BI is "base in" in English and may be "base inférieure" or "inferior" here; write the direction as a word',
    "bo": 'BO is "base out" in English and "Basis oben" (up) in German; write the direction as a word',
    "bu": 'BU is "base up" in English and "Basis unten" (down) in German; write the direction as a word',
    "bd": "BD is an English abbreviation; in this language write the direction as a word",
}
"""Why a word is not read in a language where it could mean two things, and what to write instead."""


def words_of(language: str | None) -> dict[str, Meaning]:
    """Every word understood in that language (a primary tag such as "de"), with what it means."""
    tongue = language or NO_LANGUAGE
    table = {word: Meaning("collides", word) for word in COLLISIONS}
    for meaning, words in _EVERYWHERE.items():
        table.update(dict.fromkeys(words.split("|"), meaning))
    if tongue == "it":
        table["s"] = Meaning("collides", "s")
        table["in"] = Meaning("collides", "in")
    for meaning, languages, words in _BOUND:
        if tongue in languages.split():
            table.update(dict.fromkeys(words.split("|"), meaning))
    for dotted in [word for word in table if "." in word]:
        table.setdefault(dotted.rstrip("."), table[dotted])
    return table


class Lexicon:
    """Finds the longest word at a place of a text, by a pattern for each first character, made when it is first met."""

    def __init__(self, table: dict[str, Meaning]) -> None:
        self.table = table
        self._patterns: dict[str, re.Pattern[str] | None] = {}

    def match(self, text: str, place: int) -> re.Match[str] | None:
        """The word that begins at this place of a text in small letters."""
        first = text[place]
        if first not in self._patterns:
            words = sorted((word for word in self.table if word.startswith(first)), key=len, reverse=True)
            self._patterns[first] = re.compile("|".join(map(_pattern, words))) if words else None
        pattern = self._patterns[first]
        return pattern.match(text, place) if pattern else None


@lru_cache(maxsize=16)
def lexicon(language: str | None) -> Lexicon:
    """The words of that language, ready to be found."""
    return Lexicon(words_of(language))


def _pattern(entry: str) -> str:
    body = " +".join(re.escape(part) for part in entry.split(" "))
    if _is_cjk(entry[0]):
        return body
    before = r"(?<![^\W\d_])" if entry[0].isalpha() else ""
    after = r"(?![^\W\d_])" if entry[-1].isalpha() else r"(?![0-9.,])" if entry[-1].isdigit() else ""
    # an abbreviation's full stop belongs to the word, but never to a number behind it
    return f"{before}{body}{after}" + (r"(?:\.(?!\d))?" if entry[-1].isalpha() else "")


def _is_cjk(character: str) -> bool:
    return 0x3400 <= ord(character) <= 0x9FFF
