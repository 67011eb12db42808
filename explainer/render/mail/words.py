"""The few words that only a reply has, and what happens while a catalogue has not translated them yet."""

from __future__ import annotations

from dataclasses import dataclass, field

from explainer.render.language import Language, Untranslated


def _(message: str) -> str:
    """Marks a message for extraction."""
    return message


GREETING_NAMED = _("Dear %(name)s,")
GREETING = _("Hello,")
OPENING = _("Thank you for your message. This is what holds for your own glasses.")
URGENT_NOTE = _("Your message may name a sign that must not wait. Please read this first.")
ATTACHED = _("Your leaflet is attached.")
CLOSING = _("Kind regards,")
FOOT = _("Your optician answers for this message. It does not replace an eye examination.")
PICTURE = _("[Picture: %(description)s]")
PHONE = _("Phone %(phone)s")
EMAIL = _("E-mail %(email)s")


@dataclass(slots=True)
class Words:
    """Messages in one language; English where the catalogue lacks one, and a note of it for the support desk."""

    language: Language
    lacking: list[str] = field(default_factory=list)

    def __call__(self, message: str, **values: str) -> str:
        """The message with its values."""
        try:
            said = self.language.gettext(message)
        except Untranslated:
            self.lacking.append(message)
            said = message
        return said % values if values else said
