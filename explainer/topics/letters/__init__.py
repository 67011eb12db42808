"""Messages as they come: mails as mail programs save them, or plain text in any encoding.

`read_letter` gives the words that the customer wrote, and what a reply needs for its head. Nothing that comes in can
raise: what cannot be decoded is read as well as it goes.
"""

from __future__ import annotations

from explainer.topics.letters.incoming import Letter, read_letter

__all__ = ["Letter", "read_letter"]
