"""A sample looked at once more, as it is printed: no document that still shows somebody leaves the program."""

from __future__ import annotations

import re
from html import unescape
from io import BytesIO

from explainer.batch.documents import Document
from explainer.batch.work import Made, Refused
from explainer.errors import Fault, InputError
from explainer.orders import Order
from explainer.orders.sample import still_shown


def without_people(original: Order, made: Made | Refused) -> Made | Refused:
    """What was made, unless a document of it shows what is private in the order it was made from."""
    if isinstance(made, Refused):
        return made
    found = [what for document in made.documents for what in still_shown(original, shown_text(document))]
    if not found:
        return made
    accepted = "a sample without it: take it out of the shop's own words (house wording, returns, adjustments)"
    error = InputError(
        original.source, [Fault("sample", f"{what} on the page", accepted) for what in dict.fromkeys(found)]
    )
    return Refused(str(error), error.faults)


def shown_text(document: Document) -> str:
    """All that a document shows, and what its pictures are described by, as text."""
    return page_text(document.data.decode()) if document.kind == "page" else printed_text(document.data)


def page_text(html: str) -> str:
    """The words of a page and of its attributes; no style sheet, no shape."""
    bare = re.sub(r"<style.*?</style>|<path[^>]*>|data:[^\"]*", " ", html, flags=re.DOTALL)
    attributes = re.findall(r'="([^"]*)"', bare)
    return unescape("\n".join([re.sub(r"<[^>]*>", " ", bare), *attributes]))


def printed_text(pdf: bytes) -> str:
    """All that a PDF shows, as text."""
    import logging

    from pypdf import PdfReader

    logging.getLogger("pypdf").setLevel(logging.CRITICAL)
    return "\n".join(page.extract_text() for page in PdfReader(BytesIO(pdf)).pages)
