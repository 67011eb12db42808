"""Messages that the leaflet and the mail share, and that stand in no section."""

from __future__ import annotations


def _(message: str) -> str:
    """Marks a message for extraction."""
    return message


TITLE = _("Your glasses: order %(number)s")
DRAFT = _("This translation is a draft. No qualified person has checked it yet. Ask us if anything is unclear.")
PAGE_OF = _("%(page)s of %(pages)s")
