"""The few words that only a reply has."""

from __future__ import annotations

from dataclasses import dataclass

from explainer.render.fallback import marked
from explainer.render.language import Language


def _(message: str) -> str:
    """Marks a message for extraction."""
    return message


GREETING_NAMED = _("Dear %(name)s,")
GREETING = _("Hello,")
OPENING = _("Thank you for your message. This is what holds for your own glasses.")
URGENT_NOTE = _("Your message may name a sign that must not wait. Please read this first.")
URGENT_REST = _("Please get help before you read on about your glasses. We answer the rest of your message afterwards.")
ATTACHED = _("Your leaflet is attached.")
CLOSING = _("Kind regards,")
FOOT = _("Your optician answers for this message. It does not replace an eye examination.")
PICTURE = _("[Picture: %(description)s]")
PHONE = _("Phone %(phone)s")
EMAIL = _("E-mail %(email)s")


@dataclass(slots=True)
class Words:
    """Messages in one language; English between marks where the catalogue lacks one."""

    language: Language

    def __call__(self, message: str, **values: str) -> str:
        """The message with its values."""
        said = marked(self.language, message)
        return said % values if values else said
