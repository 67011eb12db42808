"""The head of a draft: texts that hold no second line and no hidden word, and one more look at what was written.

Mail libraries decode an encoded word (RFC 2047) in any text they are given, line ends and all; so a name could bring in
fields of its own. No text of a head has such a word, and a finished head has the fields that we wrote and no others.
"""

from __future__ import annotations

import re
from email.headerregistry import Address

from explainer.errors import RenderError
from explainer.orders.values.field_types import EMAIL

OURS = frozenset(
    "subject from to date x-unsent message-id in-reply-to references mime-version content-type "
    "content-transfer-encoding content-language".split()
)
_FIELD = re.compile(rb"([!-9;-~]+):(?:[ \t]|$)")
_FOLDED = re.compile(rb"[ \t]+\S")
_CONTROLS = re.compile(r"[\x00-\x1f\x7f-\x9f\u2028\u2029\u200e\u200f\u202a-\u202e\u2066-\u2069]+")


def head_text(text: str) -> str:
    """A text as it may stand in a head: on one line, with no word that would be decoded into something else."""
    plain = " ".join(_CONTROLS.sub(" ", text).split())
    return plain.replace("=?", "= ?").replace("?=", "? =")


def head_address(name: str, address: str) -> Address | None:
    """An address with its name; None if it is none by the rule that the workshop's own is held to."""
    if not re.fullmatch(EMAIL, address) or ".." in address:
        return None
    return Address(display_name=head_text(name), addr_spec=address)


def looked_through(message: bytes) -> bytes:
    """The finished message. RenderError when its head holds a field that is not ours, or one of them twice."""
    head = message.partition(b"\r\n\r\n")[0]
    names: list[str] = []
    for line in head.split(b"\r\n"):
        field = _FIELD.match(line)
        if field is not None:
            names.append(field[1].decode("ascii").lower())
        elif not names or not _FOLDED.match(line):
            raise RenderError("the head of the draft has a line that is no field; nothing was written")
        if b"\r" in line or b"\n" in line or b"\0" in line:
            raise RenderError("the head of the draft has a line end in the middle of a line; nothing was written")
    foreign = sorted(set(names) - OURS) or sorted({name for name in names if names.count(name) > 1})
    if foreign:
        raise RenderError(f"the head of the draft has the field {foreign[0][:40]}, which is not its own or twice")
    return message
