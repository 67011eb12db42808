"""The English sample with longer words, about a quarter more letters: how German or French fills the page.

Nothing here is a language; the endings only take up the room, and the compounds are as long as German ones get.
"""

from __future__ import annotations

import re

_COMPOUNDS = {
    "adjusting": "Brillenfassungsbügelanpassung",
    "windscreen": "Windschutzscheibenverglasung",
    "prescription": "Brillenglasbestimmungsverordnung",
    "polycarbonate": "Polycarbonatkunststoffbrillenglas",
}


def lengthened(html: str) -> str:
    """The words between the tags, each of five letters or more with an ending, some replaced by a compound.

    The heads of tables stay: they are short in every language, or the numbers under them have no room.
    """
    pattern = r"(<thead>.*?</thead>|<[^>]*>)|([A-Za-z]{5,})"
    return re.sub(pattern, lambda found: found[1] or _longer(found[2]), html, flags=re.DOTALL)


def _longer(word: str) -> str:
    return _COMPOUNDS.get(word, word + "ung" if len(word) > 7 else word + "en")
