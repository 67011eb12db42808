"""The forms of a reply: a draft message for a mail program, or a piece to paste."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Mapping
from datetime import datetime
from email.message import EmailMessage
from email.policy import SMTP
from email.utils import format_datetime

from explainer.figures import draw
from explainer.figures.cache import cached
from explainer.render.fallback import plain
from explainer.render.mail.heads import head_address, head_text, looked_through
from explainer.render.mail.html import page_of, piece_of
from explainer.render.mail.markdown import markdown_of
from explainer.render.mail.pictures import Picture, picture
from explainer.render.mail.reply import Reply
from explainer.render.mail.text import text_of
from explainer.topics.letters import Letter

NOWHERE = "explainer.invalid"  # RFC 2606: a name that never leads anywhere, for workshops without an address


ENDINGS = {"eml": "eml", "html": "html", "text": "txt", "markdown": "md"}


def reply_name(reply: Reply, form: str = "eml") -> str:
    """The file's name: order number and language, never a person, a topic or a sign."""
    return ".".join((reply.order.number, reply.language.code, "reply", ENDINGS[form]))


def reply_text(reply: Reply) -> str:
    """The reply as plain text."""
    return text_of(reply.body, picture=_described(reply), isolate=reply.language.direction == "rtl") + "\n"


def reply_markdown(reply: Reply) -> str:
    """The reply as Markdown."""
    return markdown_of(reply.body, picture=_described(reply)) + "\n"


def reply_html(reply: Reply) -> str:
    """The reply as a piece of HTML without pictures; their descriptions stand in their places."""
    return piece_of(reply.body, language=reply.language, picture_words=reply.picture_words)


def reply_draft(
    reply: Reply,
    *,
    moment: datetime | None = None,
    pictures: bool = True,
    leaflet: tuple[str, bytes] | None = None,
    letter: Letter | None = None,
) -> bytes:
    """The reply as an unsent message (RFC 5322): text first, then HTML with its pictures; equal in, equal out.

    Where it answers a mail, it has that one's sender, subject and thread.
    """
    workshop = reply.order.workshop
    address = getattr(workshop, "email", None)
    message = EmailMessage(policy=SMTP)
    _answering(message, reply, letter or Letter(""))
    sender = head_address(getattr(workshop, "name", ""), address) if address else None
    if sender is not None:
        message["From"] = sender
    if moment is not None:
        message["Date"] = format_datetime(moment)
    message["X-Unsent"] = "1"  # asks the mail program to open it as a draft
    text = reply_text(reply)
    domain = address.rpartition("@")[2] if address else NOWHERE
    mark = hashlib.sha256(f"{moment}\0{text}\0{pictures}\0{bool(leaflet)}".encode()).hexdigest()[:24]
    message["Message-ID"] = f"<{mark}@{domain}>"
    _fill(message, reply, text, _pictures(reply) if pictures else {}, f"{mark}@{domain}")
    if leaflet is not None:
        kind, subtype = ("text", "html") if leaflet[0].endswith(".html") else ("application", "pdf")
        message.add_attachment(leaflet[1], maintype=kind, subtype=subtype, filename=leaflet[0])
    _bound(message, mark)
    return looked_through(message.as_bytes())


def _answering(message: EmailMessage, reply: Reply, letter: Letter) -> None:
    """To, Subject, In-Reply-To and References (RFC 5322, 3.6.4); without a mail only the subject."""
    own = plain(reply.title, reply.language)
    message["Subject"] = f"Re: {head_text(letter.subject)}" if letter.subject else head_text(own)
    wanted = letter.sender and head_address(letter.sender.display_name, letter.sender.addr_spec)
    if wanted is not None:
        message["To"] = wanted
    if letter.identifier:
        message["In-Reply-To"] = letter.identifier
    if letter.references:
        message["References"] = " ".join(letter.references)


def _fill(message: EmailMessage, reply: Reply, text: str, pictures: Mapping[str, Picture], tail: str) -> None:
    ids = {name: f"{name}.{tail}" for name in pictures}
    sources = {name: (f"cid:{ids[name]}", each) for name, each in pictures.items()}
    page = page_of(
        reply.body, title=reply.title, language=reply.language, sources=sources, picture_words=reply.picture_words
    )
    message.set_content(text, cte="quoted-printable")
    message.add_alternative(page, subtype="html", cte="quoted-printable")
    plain, html = message.iter_parts()
    for part in (plain, html):
        part["Content-Language"] = reply.language.code
    for name, each in pictures.items():
        html.add_related(each.png, "image", "png", cid=f"<{ids[name]}>", filename=f"{name}.png", disposition="inline")
    if pictures:
        html.set_param("type", "text/html")  # RFC 2387: which part of the related ones is the root


def _pictures(reply: Reply) -> dict[str, Picture]:
    found = {}
    for name in reply.figures:
        request = reply.document.figures[name]
        found[name] = picture(cached(name, draw, request.values), reply.language)
    return found


def _bound(message: EmailMessage, mark: str) -> None:
    """Boundaries that depend on the content alone, so that a draft can be compared."""
    for place, part in enumerate(message.walk()):
        if part is not message:
            del part["MIME-Version"]  # belongs to the message alone
        if part.is_multipart():
            part.set_boundary(f"=_{place}_{mark}")


def _described(reply: Reply) -> Callable[[str], str]:
    return lambda words: plain(reply.picture_words, reply.language) % {"description": words}
