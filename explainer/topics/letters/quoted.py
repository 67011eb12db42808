"""What the customer wrote, without the mails quoted below or between, the heads of forwarded ones and the signature."""

from __future__ import annotations

import re
from itertools import takewhile

_INTRO = re.compile(
    r"^\W*(on\b.{4,160}\bwrote|am\b.{4,160}\bschrieb\b.{0,90}|.{4,160}\bschrieb am\b.{4,60}|le\b.{4,160}\ba écrit"
    r"|في\b.{4,160}كتب.{0,90}|.{0,160}كتب(ت)? في.{0,60})\s*:\s*$",
    re.IGNORECASE,
)
_REPLY = re.compile(
    r"^\W*(-{2,}\s*(original message|ursprüngliche nachricht|الرسالة الأصلية)\s*-{2,}|_{20,})\s*$", re.IGNORECASE
)
_FORWARD = re.compile(
    r"^\W*(-{3,}\s*(forwarded message|weitergeleitete nachricht|رسالة معاد توجيهها)\s*-{3,}"
    r"|begin forwarded message:|anfang der weitergeleiteten (nachricht|e-mail):)\s*$",
    re.IGNORECASE,
)
_HEAD = re.compile(
    r"^\W*(from|sent|to|cc|date|subject|reply-to|von|gesendet|an|datum|betreff|antwort an|من|إلى|التاريخ|الموضوع"
    r"|تم الإرسال)\s*\*?\s*:",
    re.IGNORECASE,
)
_SIGNATURE = re.compile(r"^-- ?$")
_HEAD_LINES = 3


def own_words(text: str) -> str:
    """The message without quoted mails; the whole of it where nothing else would be left."""
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    kept = _kept(_joined_intros(lines))
    return "\n".join(kept).strip() or "\n".join(line.lstrip("> ") for line in lines).strip()


def _joined_intros(lines: list[str]) -> list[str]:
    """Lines, with "On … wrote:" on one line where a mail program has broken it."""
    joined: list[str] = []
    at = 0
    while at < len(lines):
        pair = f"{lines[at]} {lines[at + 1].strip()}" if at + 1 < len(lines) else ""
        if not _INTRO.match(lines[at]) and len(pair) < 250 and lines[at].strip() and _INTRO.match(pair):
            joined.append(pair)
            at += 2
        else:
            joined.append(lines[at])
            at += 1
    return joined


def _kept(lines: list[str]) -> list[str]:
    kept: list[str] = []
    at = 0
    while at < len(lines):
        line = lines[at]
        below = lines[at + 1 :]
        head = _head_below(lines[at:])
        if line.lstrip().startswith(">"):
            at += 1
        elif _FORWARD.match(line):
            at += 1 + _head_below(below)
        elif _INTRO.match(line):
            if not _quoted_next(below) and _any(kept):
                break
            at += 1
        elif _REPLY.match(line) or head:
            if _any(kept):
                break
            at += head or 1
        elif _SIGNATURE.match(line):
            break
        else:
            kept.append(line)
            at += 1
    return kept


def _head_below(lines: list[str]) -> int:
    """How many lines the head of a quoted mail takes here; none where no such head begins."""
    blank = len(list(takewhile(lambda line: not line.strip(), lines)))
    head = len(list(takewhile(_HEAD.match, lines[blank:])))
    return blank + head if head >= _HEAD_LINES else 0


def _quoted_next(lines: list[str]) -> bool:
    first = next((line for line in lines if line.strip()), "")
    return first.lstrip().startswith(">")


def _any(lines: list[str]) -> bool:
    return any(line.strip() for line in lines)
