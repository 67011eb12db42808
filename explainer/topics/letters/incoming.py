"""One message that came in: a mail as saved (RFC 5322, with MIME), or text."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from email import message_from_bytes, policy
from email.headerregistry import Address
from email.message import EmailMessage
from email.utils import getaddresses

from explainer.topics.letters.charsets import decoded
from explainer.topics.letters.pages import words_of_page
from explainer.topics.letters.quoted import own_words

_FIELD = re.compile(rb"^[!-9;-~]+[ \t]*:")
_NAMES = re.compile(
    rb"^(from|to|subject|date|message-id|mime-version|received|return-path|content-type)\s*:",
    re.IGNORECASE | re.MULTILINE,
)
_ID = re.compile(r"<[^<>\s\x00-\x1f\x7f]{1,240}@[^<>\s\x00-\x1f\x7f]{1,240}>")
_ADDRESS = re.compile(r"[A-Za-z0-9.!#$%&'*+/=?^_`{|}~-]{1,64}@[A-Za-z0-9.-]{1,250}")
_PREFIX = re.compile(r"^\s*((re|aw|antw|antwort|sv|fwd?|wg|tr|رد|إعادة توجيه)\s*(\[\d+\])?\s*[:：]\s*)+", re.I)
_UNSEEN = re.compile(r"[\x00-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069\ufeff]+")
_LONGEST_SUBJECT = 300
_MOST_REFERENCES = 30


@dataclass(frozen=True, slots=True)
class Letter:
    """What came in. `text` is what the customer wrote, the subject first; the rest is empty where it is no mail.

    `sender` is the address that an answer goes to, `subject` the subject without "Re:", both without control signs.
    `references` are the identifiers of the mails before, the oldest first, this one's last.
    """

    text: str
    subject: str = ""
    sender: Address | None = None
    identifier: str = ""
    references: tuple[str, ...] = ()


def read_letter(data: bytes) -> Letter:
    """The message in those bytes: a mail where they begin with the head of one, else text."""
    begun = data.removeprefix(b"\xef\xbb\xbf").lstrip(b"\r\n")
    if begun.startswith(b"From ") and b"\n" in begun:  # the line between mails of a mailbox file
        begun = begun.split(b"\n", 1)[1]
    if not _is_mail(begun):
        return Letter(own_words(decoded(data)))
    try:
        return _mail(begun)
    except RecursionError:  # parts within parts within parts: nothing that a person wrote
        return Letter(own_words(decoded(begun)))


def _is_mail(data: bytes) -> bool:
    head = re.split(rb"\r?\n\r?\n", data[:100_000], maxsplit=1)[0]
    return bool(_FIELD.match(head)) and len(_NAMES.findall(head)) >= 2


def _mail(data: bytes) -> Letter:
    message = message_from_bytes(data, policy=policy.default)
    subject = _PREFIX.sub("", _field(message, "Subject"))[:_LONGEST_SUBJECT].strip()
    identifier = "".join(_ID.findall(_field(message, "Message-ID"))[:1])
    before = _ID.findall(_field(message, "References")) or _ID.findall(_field(message, "In-Reply-To"))[:1]
    references = dict.fromkeys([*before[-_MOST_REFERENCES:], *([identifier] if identifier else [])])
    words = own_words("\n".join(_bodies(message)))
    return Letter("\n".join(filter(None, [subject, words])), subject, _sender(message), identifier, tuple(references))


def _field(message: EmailMessage, name: str) -> str:
    """A field's value as text; empty where it is missing or cannot be read."""
    try:
        value = message[name]
    except Exception:  # the library's parser of fields raises several kinds on broken ones
        value = _raw(message, name)
    return " ".join(_UNSEEN.sub(" ", str(value or "")).encode("utf-8", "replace").decode().split())


def _raw(message: EmailMessage, name: str) -> str:
    """A field as it stands in the mail; empty where it is missing."""
    return str(next((raw for field, raw in message.raw_items() if field.lower() == name.lower()), ""))


def _sender(message: EmailMessage) -> Address | None:
    """Whom to answer: Reply-To, else From; the first sound address of it, by its bare address if its name is not."""
    for name in ("Reply-To", "From"):
        try:
            addresses = message[name].addresses if message[name] is not None else ()
            found = [(each.display_name, each.addr_spec) for each in addresses]
        except Exception:  # as above: a name with line breaks in it, or no address at all
            found = [("", address) for _, address in getaddresses([_raw(message, name)])]
        for shown, address in found:
            if _ADDRESS.fullmatch(address):
                return Address(display_name=" ".join(_UNSEEN.sub(" ", shown).split()), addr_spec=address)
    return None


def _bodies(part: EmailMessage) -> Iterator[str]:
    """The readable texts of a mail: of alternatives the plain one if it says anything; no attachments."""
    if part.is_multipart():
        parts = [each for each in part.iter_parts() if isinstance(each, EmailMessage)]
        if part.get_content_subtype() == "alternative":
            texts = ["\n".join(_bodies(each)) for each in sorted(parts, key=lambda each: not _is_plain(each))]
            yield next((text for text in texts if text.strip()), "")
        else:
            for each in parts:
                yield from _bodies(each)
    elif part.get_content_maintype() == "text" and not part.is_attachment():
        yield _text(part)


def _is_plain(part: EmailMessage) -> bool:
    return part.get_content_type() == "text/plain"


def _text(part: EmailMessage) -> str:
    payload = part.get_payload(decode=True)
    data = payload if isinstance(payload, bytes) else str(part.get_payload()).encode("utf-8", "surrogateescape")
    text = decoded(data, part.get_content_charset())
    return words_of_page(text) if part.get_content_subtype() == "html" else text
