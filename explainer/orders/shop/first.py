"""A first workshop file and a first order, with a comment at each line: what a new workshop begins with."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Mapping
from typing import Final

# field: what the comment says, and an example for a field that is not given
_FIELDS: Final[Mapping[str, tuple[str, str]]] = {
    "name": ("The name on every leaflet.", "Fernlight Spectacle Workshop"),
    "address": ("As on a parcel, one line below the other.", "1 Mill Lane\\nFernlight"),
    "phone": ("Customers are told to call it.", "01632 960000"),
    "email": ("Replies come from it.", "help@fernlight.example"),
    "country": ("Two capital letters. It decides help numbers, law and dates.", "GB"),
    "language": ("Of leaflets, where an order names none.", "en-GB"),
    "paper": ("A4 or Letter.", "A4"),
    "opening_hours": ("In your words.", "Monday to Friday, 9 to 5"),
    "returns": (
        "What you promise if something is not right.",
        "Tell us within 21 days: we look at them free of charge.",
    ),
    "adjustments": ("How a frame is adjusted.", "Bring the frame in or post it; adjusting is free."),
    "urgent_help": (
        "Who helps today with an eye. Confirm it every year.",
        "the health line 111",
    ),
    "accent": ("A dark colour for headings.", "#12456B"),
}


def first_workshop(given: Mapping[str, str]) -> str:
    """The text of a workshop file. What is not given stands as a comment with an example."""
    lines = ["# The workshop: who made the glasses. `explainer schema --workshop` prints every field.", ""]
    for field, (comment, example) in _FIELDS.items():
        lines.append(f"# {comment}")
        lines.append(f"{field} = {_quoted(given[field])}" if given.get(field) else f'# {field} = "{example}"')
        lines.append("")
    return "\n".join(lines)


def first_order(day: dt.date, language: str | None = None) -> str:
    """The text of an order to change: every power has its sign, every length its unit."""
    return f"""# An order. Change what is different; take out what you do not know: nothing is invented for it.
order = "FIRST-1"
date = {day.isoformat()}
{f"language = {_quoted(language)}" if language else '# language = "en-GB"'}

[wearer]
name = "Odalys Brackenwood"
birth_year = 1984
uses = ["driving", "screen"]

[prescription]                # as you received it; a power without a sign is refused
right = "-2.25 -0.50 x 175"
left = "-2.50 DS"

[measurements]
pd_right_mm = 31.5
pd_left_mm = 32.0

[frame]                       # box of the lens shape
a_mm = 51.0
b_mm = 37.0
dbl_mm = 18.0
material = "acetate"

[lens]
design = "single-vision"
material = "hard-resin"
tint = "clear"
coatings = ["hard", "anti-reflection"]
"""


def _quoted(text: str) -> str:
    """A text as TOML writes it: its escapes are JSON's."""
    return json.dumps(text, ensure_ascii=False)
