"""What labels say and how much room that takes: the printed English words, and a German draft of the tests' own.

Room is measured with the leaflet's own fonts at the size that its style sheet gives to labels. Lines are broken as a
page breaks them: at spaces, a line as full as it can be.
"""

from __future__ import annotations

import gettext
from functools import cache

from babel import Locale
from PIL import ImageFont

from explainer.figures.drawing import Label
from explainer.render.figure_words import FIGURE_WORDS
from explainer.render.figures import label_text
from explainer.render.labels import NAMES
from explainer.render.language import Language, language
from explainer.resources import root

LABEL_PT = 10.0
MM_PER_PT = 25.4 / 72
LINE_MM = 4.3  # a little more than the line height of labels, 11.5 pt
NUMBER = "%(value)s"

GERMAN_WORDS: dict[str, str] = {
    "right_letter": "R",
    "left_letter": "L",
    "right_eye": "rechtes Auge",
    "left_eye": "linkes Auge",
    "axis": "Achse %(value)s",
    "no_axis": "keine Achse auf dieser Seite",
    "along_axis": "entlang der Achse",
    "across_axis": "quer zur Achse",
    "one_rung": "Eine Sprosse ist eine Vierteldioptrie.",
    "light_let_through": "durchgelassenes Licht, in Teilen von hundert",
    "tint_category": "Tönungskategorie",
    "material_hard-resin": "Hartharz",
    "material_polycarbonate": "Polycarbonat",
    "material_urethane-1.53": "Urethan, Brechzahlklasse %(name)s",
    "material_high-index-1.60": "hochbrechender Kunststoff, Klasse %(name)s",
    "material_high-index-1.67": "hochbrechender Kunststoff, Klasse %(name)s",
    "material_high-index-1.74": "hochbrechender Kunststoff, Klasse %(name)s",
    "material_crown-glass": "Kronglas",
    "bench": "Prüfstand",
    "summer_noon": "Sommersonne am Mittag",
    "open_shade": "Offener Schatten",
    "overcast": "Bewölkter Himmel",
    "snow": "Sonne auf Schnee, im Gebirge",
    "windscreen_low_sun": "Hinter der Windschutzscheibe, tiefe Sonne",
    "windscreen_shaded": "Hinter der Windschutzscheibe, im Dachschatten",
    "side_window_clear": "Sonne durch ein klares Seitenfenster",
    "side_window_green": "Sonne durch ein grünes Seitenfenster",
    "convertible": "Offenes Auto",
    "darkening": "Dunkler werden in der Sonne",
    "fading": "Hell werden im Zimmer",
    "seconds": "Sekunden",
    "minutes": "Minuten",
    "light_scale": "durchgelassenes Licht, in Teilen von hundert",
    "wavelength": "Wellenlänge in Nanometern",
    "sunlight": "Sonnenlicht",
    "through_windscreen": "geht durchs Glas",
    "dye_needs": "braucht der Farbstoff",
    "dye_gets": "bleibt für ihn übrig",
    "this_lens": "Ihr Brillenglas",
    "hard_resin_lens": "Dasselbe Glas aus gewöhnlichem Kunststoff",
    "with_windscreen": "Ihr Glas hinter einer Frontscheibe",
    "nose_side": "Nasenseite",
    "temple_side": "Schläfenseite",
    "eye_side": "Augenseite",
    "front_side": "Vorderseite",
    "shift_in": "%(value)s einwärts",
    "shift_out": "%(value)s auswärts",
    "shift_none": "nicht verschoben",
    "shift_up": "%(value)s aufwärts",
    "shift_down": "%(value)s abwärts",
    "middle_of_lens": "Mitte der Glasöffnung in der Fassung",
    "optical_centre": "optische Mitte, vor Ihrer Pupille",
    "right_way_up": "richtig herum",
    "upside_down": "auf dem Kopf",
    "eye_right": "Rechtes Auge",
    "eye_left": "Linkes Auge",
    "zone_far": "fern",
    "zone_middle": "Armlänge",
    "zone_near": "lesen",
    "zone_side": "weniger klar",
    "nothing": "ohne Brille",
    "sphere_only": "nur Sphäre",
    "both": "mit Ihrem Glas",
    "turned": "Glas um %(value)s verdreht",
    "care_rinse": "Abspülen",
    "care_soap": "Ein Tropfen Seife",
    "care_rub": "Mit Fingern reiben",
    "care_dry": "Weich trocknen",
}


class _German(gettext.NullTranslations):
    """The draft, by the English words."""

    def gettext(self, message: str) -> str:
        return _GERMAN_BY_ENGLISH.get(message, message)  # what is not in it is the same in German: "%(number)s mm"


_GERMAN_BY_ENGLISH = {FIGURE_WORDS[key]: words for key, words in GERMAN_WORDS.items()}
ENGLISH = language("en")
GERMAN = Language(code="de", status="draft", translations=_German(), locale=Locale("de"))


def words(label: Label, spoken: Language = ENGLISH) -> str:
    """What the label says, as the renderer words it."""
    return label_text(label, spoken).replace("%(name)s", NAMES.get(label.key.partition("_")[2], ""))


def number(label: Label, spoken: Language = ENGLISH) -> str:
    """The part of a label's words that is its number with the unit."""
    before, _, after = spoken.gettext(FIGURE_WORDS[label.key]).partition(NUMBER)
    text = words(label, spoken)
    return text[len(before) : len(text) - len(after)] if label.value is not None else ""


def width_mm(text: str, *, strong: bool = False) -> float:
    """How wide the words are in the leaflet's font."""
    return float(_font(strong).getlength(text)) / 1000 * LABEL_PT * MM_PER_PT


def room_mm(label: Label, spoken: Language = ENGLISH, spare: float = 1.0) -> tuple[float, int]:
    """Width and number of lines of a label whose words, but not its number, are so many times as long."""
    text, digits = words(label, spoken), number(label, spoken)
    whole = width_mm(text, strong=label.strong)
    fixed = width_mm(digits, strong=label.strong)
    stretched = (fixed + (whole - fixed) * spare) / whole
    if label.width_mm is None:
        return whole * stretched, 1
    lines = [0.0]
    space = width_mm(" ", strong=label.strong) * stretched
    for word in text.split(" "):
        wide = width_mm(word, strong=label.strong) * stretched
        if lines[-1] and lines[-1] + space + wide > label.width_mm:
            lines.append(wide)
        else:
            lines[-1] += (space if lines[-1] else 0.0) + wide
    return max(lines), len(lines)


@cache
def _font(strong: bool) -> ImageFont.FreeTypeFont:
    weight = "Bold" if strong else "Regular"
    return ImageFont.truetype(root("templates") / "leaflet" / "fonts" / f"LeafletSans-{weight}.ttf", 1000)
