"""Messages as mail programs save them: encodings, HTML only, quotes, broken and hostile ones."""

from __future__ import annotations

import base64
import quopri
from email.message import EmailMessage
from email.policy import SMTP

import pytest

from explainer.topics.letters import read_letter

TEXT = "Grüße! Warum bleiben die Gläser im Auto hell? „Bitte“ um Antwort."
ARABIC = "لماذا تبقى العدسات فاتحة في السيارة؟"


def mail(body: bytes, *fields: str, kind: str = "text/plain; charset=utf-8", coding: str = "8bit") -> bytes:
    head = ["From: Wren <wren@example.org>", "Message-ID: <a1@example.org>", *fields, "MIME-Version: 1.0"]
    return "\r\n".join([*head, f"Content-Type: {kind}", f"Content-Transfer-Encoding: {coding}", "", ""]).encode() + body


@pytest.mark.parametrize("charset", ["utf-8", "iso-8859-15", "windows-1252", "utf-16", "utf-7"])
def test_any_charset_of_plain_text_in_quoted_printable_and_base64(charset: str):
    text = TEXT if charset != "iso-8859-15" else TEXT.replace("„", '"').replace("“", '"')
    data, kind = text.encode(charset), f"text/plain; charset={charset}"

    assert read_letter(mail(quopri.encodestring(data), kind=kind, coding="quoted-printable")).text == text
    assert read_letter(mail(base64.encodebytes(data), kind=kind, coding="base64")).text == text


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-32", "cp1252"])
def test_text_in_any_encoding_without_a_head(encoding: str):
    assert read_letter(TEXT.encode(encoding)).text == TEXT


@pytest.mark.parametrize("encoding", ["utf-8", "utf-16", "cp1256"])
def test_arabic_text_in_any_encoding(encoding: str):
    assert read_letter(ARABIC.encode(encoding)).text == ARABIC


def test_a_charset_that_nobody_knows_is_read_as_well_as_it_goes():
    assert "Auto" in read_letter(mail(TEXT.encode("cp1252"), kind="text/plain; charset=klingon")).text


def test_encoded_words_in_the_subject_count_as_words():
    """RFC 2047, section 8: the examples of encoded words; RFC 2231, section 5: one with its language."""
    subject = (
        "Subject: =?ISO-8859-1?B?SWYgeW91IGNhbiByZWFkIHRoaXMgeW8=?=\r\n"
        " =?ISO-8859-2?B?dSB1bmRlcnN0YW5kIHRoZSBleGFtcGxlLg==?="
    )
    letter = read_letter(mail(b"Hello", subject))

    assert letter.subject == "If you can read this you understand the example."
    assert letter.text == "If you can read this you understand the example.\nHello"
    with_language = read_letter(mail(b"x", "Subject: =?US-ASCII*EN?Q?Keith_Moore?="))
    assert with_language.subject == "Keith Moore"


def test_of_html_only_what_is_seen_counts():
    page = b"""<html><head><title>headache</title><style>.shadow {curtain: black; flash: double}</style></head>
    <body><p>Why do they stay <b>pale</b>&nbsp;in the car?</p><div style="display:none">I see double</div>
    <div class="gmail_quote"><div>On Monday the shop wrote:</div><blockquote>a curtain over the eye</blockquote></div>
    </body></html>"""
    letter = read_letter(mail(page, kind="text/html; charset=utf-8"))

    assert letter.text == "Why do they stay pale in the car?"


def test_of_two_alternatives_the_plain_one_and_no_attachment():
    message = EmailMessage(policy=SMTP)
    message["From"], message["To"], message["Subject"] = "a@example.org", "b@example.org", "Glasses"
    message.set_content("They slide.\n")
    message.add_alternative("<p>They <i>slide</i>.</p>", subtype="html")
    message.add_attachment("double vision", filename="leaflet.txt")

    assert read_letter(message.as_bytes()).text == "Glasses\nThey slide."


QUOTED = "a dark curtain over my eye"


@pytest.mark.parametrize(
    "below",
    [
        f"On Mon, 24 Nov 2026 at 10:02, The Bench <bench@example.org> wrote:\n> {QUOTED}\n> more",
        f"On Mon, 24 Nov 2026 at 10:02, The Bench\n<bench@example.org> wrote:\n\n> {QUOTED}",
        f"Am 24.11.2026 um 10:02 schrieb Werkstatt <w@example.org>:\n> {QUOTED}",
        f"-----Original Message-----\nFrom: Bench\nSent: Monday\nTo: Wren\nSubject: Your glasses\n\n{QUOTED}",
        f"-----Ursprüngliche Nachricht-----\nVon: Bench\nGesendet: Montag\nAn: Wren\nBetreff: Brille\n\n{QUOTED}",
        f"________________________________\nFrom: Bench\nSent: Monday\nTo: Wren\nSubject: x\n{QUOTED}",
        f"From: Bench <b@example.org>\nDate: Monday\nSubject: x\n\n{QUOTED}",
        f"في الاثنين، ٢٤ نوفمبر كتب المتجر:\n> {QUOTED}",
        f"-- \nWren\n{QUOTED} is the name of my band",
    ],
)
def test_quoted_mails_and_signatures_are_left_out(below: str):
    assert read_letter(f"They slide down my nose.\n\n{below}\n".encode()).text == "They slide down my nose."


def test_what_is_written_below_a_quote_counts():
    text = f"On Monday the bench team wrote:\n> {QUOTED}\n\nThank you, but they slide."

    assert read_letter(text.encode()).text == "Thank you, but they slide."


def test_of_a_forwarded_mail_the_head_goes_and_the_words_stay():
    text = (
        "---------- Forwarded message ---------\nFrom: Wren <w@example.org>\nDate: Monday\nSubject: Hi\n"
        "To: bench@example.org\n\nThey slide."
    )

    assert read_letter(text.encode()).text == "They slide."
    assert read_letter(f"Please answer this one.\n\n{text}".encode()).text.endswith("They slide.")


def test_the_thread_and_the_sender():
    """RFC 5322, 3.6.4 and its example in appendix A.2: a reply names its parent, and all before it."""
    letter = read_letter(
        mail(
            b"x",
            'Reply-To: "Mary Smith: Personal Account" <smith@home.example>',
            "Subject: Re: AW: Saying Hello",
            "In-Reply-To: <1234@local.machine.example>",
            "References: <1234@local.machine.example> <3456@example.net>",
        )
    )

    assert letter.subject == "Saying Hello"
    assert letter.sender is not None
    assert letter.sender.addr_spec == "smith@home.example"
    assert letter.references == ("<1234@local.machine.example>", "<3456@example.net>", "<a1@example.org>")


@pytest.mark.parametrize(
    "field",
    [
        "Subject: =?utf-8?q?Hello=0D=0ABcc:_all@example.org?=",
        "Subject: =?utf-8?b?SGVsbG8NCkJjYzogYWxsQGV4YW1wbGUub3Jn?=",
        'Reply-To: "=?utf-8?q?A=0D=0ABcc:_all@example.org?=" <a@example.org>',
        "References: <a@b>\r\n <c@d\x00> <e@f>",
        "Message-ID: <x@y> Bcc: all@example.org",
        "Reply-To: =?utf-8?q?a=40b=0D=0ABcc=3A_x=40y?=",
    ],
)
def test_nothing_can_be_smuggled_into_a_head(field: str):
    letter = read_letter(mail(b"x", field))
    shown = [letter.subject, str(letter.sender or ""), *letter.references]

    assert not any(sign in value for value in shown for sign in "\r\n\0")
    assert all(value.count("<") == value.count(">") == 1 for value in letter.references)


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"\0\0\0",
        b"\xff\xfe",
        b"From: \r\nSubject:\r\n",
        b"From: a\r\nSubject: b\r\nContent-Type: multipart/mixed\r\n\r\n--",
        mail(b"%%%not base64%%%", coding="base64"),
        mail(b"=ZZ=", coding="quoted-printable"),
        mail(b"x", kind='text/plain; charset="\x00"'),
        mail(b"<p>open <style> never closed", kind="text/html"),
        mail(b"x", "From: <<<>>>", "To: ;;:"),
        b"".join(
            b"From: a@b\r\nSubject: s\r\nContent-Type: multipart/mixed; boundary=b%d\r\n\r\n--b%d\r\n" % (n, n)
            for n in range(400)
        ),
        b"From MAILER Mon Nov 24\nFrom: a@example.org\nSubject: hi\n\nbody",
    ],
    ids=range(12),
)
def test_no_message_raises(data: bytes):
    assert isinstance(read_letter(data).text, str)
