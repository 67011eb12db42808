"""The draft as a message: headers, parts, pictures, attachment, privacy."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest
from mailreading import page, parsed, part

from explainer.errors import InputError
from explainer.orders import Order, read_order
from explainer.render.mail.forms import reply_draft, reply_name
from explainer.render.mail.reply import make_reply
from explainer.topics.letters import read_letter

FOLDER = Path(__file__).parents[3] / "output_examples" / "orders"
MOMENT = datetime(2026, 11, 25, 9, 30, tzinfo=UTC)
NAME, SHOP = "Odalys Brackenwood", "Fernlight Spectacle Workshop"


@pytest.fixture(scope="module")
def driver() -> Order:
    return read_order(FOLDER / "FL-3107.toml")


@pytest.fixture(scope="module")
def draft(driver: Order) -> bytes:
    return reply_draft(make_reply(driver, ["car", "direction"]), moment=MOMENT)


def test_it_opens_as_an_unsent_draft_from_the_workshop_to_nobody_yet(draft: bytes):
    message = parsed(draft)

    assert message["X-Unsent"] == "1"
    assert message["From"] == f"{SHOP} <bench@fernlight.example>"
    assert message["Date"].datetime == MOMENT
    assert not any(message[name] for name in ("To", "Cc", "Bcc", "Disposition-Notification-To", "Reply-To"))


def test_headers_tell_neither_name_nor_sign_nor_prescription(draft: bytes):
    """Only the greeting names the wearer: subjects and names of files are read by others on the way."""
    headers = "\n".join(f"{k}: {v}" for each in parsed(draft).walk() for k, v in each.items())

    assert parsed(draft)["Subject"] == "Your glasses: order FL-3107"
    assert not any(word in headers for word in ("Odalys", "Brackenwood", "4.25", "car"))
    assert part(parsed(draft), "plain").count(NAME) == 1


def test_pictures_lie_with_the_html_and_each_is_used_once(draft: bytes):
    """RFC 2387 and 2392: multipart/related whose root is the HTML; cid addresses without the angle brackets."""
    related = parsed(draft).get_payload()[1]  # type: ignore[index]
    root, *pictures = related.iter_parts()
    used = [each.attributes["src"] for each in page(root.get_content()).all("img")]

    assert related.get_content_type() == "multipart/related"
    assert related.get_param("type") == "text/html"
    assert {f"cid:{each['Content-ID'][1:-1]}" for each in pictures} == set(used)
    assert len(used) == len(set(used)) >= 1
    assert all(each.get_content()[:8] == b"\x89PNG\r\n\x1a\n" for each in pictures)
    assert all(each.attributes["alt"].strip() for each in page(root.get_content()).all("img"))


def test_equal_in_equal_out_and_another_moment_is_another_message(driver: Order, draft: bytes):
    again = reply_draft(make_reply(driver, ["car", "direction"]), moment=MOMENT)
    later = reply_draft(make_reply(driver, ["car", "direction"]), moment=MOMENT.replace(hour=10))

    assert again == draft
    assert parsed(later)["Message-ID"] != parsed(draft)["Message-ID"]


def test_the_leaflet_can_be_attached_under_the_orders_number(driver: Order):
    draft = reply_draft(
        make_reply(driver, ["fit"], attached=True), moment=MOMENT, leaflet=("FL-3107.en-GB.pdf", b"%PDF-1.7 x")
    )
    message = parsed(draft)
    (attachment,) = message.iter_attachments()

    assert message.get_content_type() == "multipart/mixed"
    assert (attachment.get_filename(), attachment.get_content_type()) == ("FL-3107.en-GB.pdf", "application/pdf")
    assert "Your leaflet is attached." in part(message, "plain")
    assert message.as_bytes() == draft


def test_the_file_is_named_by_order_and_language(driver: Order):
    assert reply_name(make_reply(driver, ["headaches"])) == "FL-3107.en-GB.reply.eml"


@pytest.mark.parametrize(
    ("stem", "topic", "told"),
    [
        ("FL-3112", "car", "no tint"),
        ("FL-3112", "darkening", "do not react"),
        ("FL-3118", "bench", "no lens of this pair was read"),
        ("FL-3107", "horoscope", "no topic"),
    ],
)
def test_a_topic_that_the_order_has_nothing_of_is_refused_with_those_it_has(stem: str, topic: str, told: str):
    with pytest.raises(InputError) as refused:
        make_reply(read_order(FOLDER / f"{stem}.toml"), ["fit", topic])

    (fault,) = refused.value.faults
    assert told in fault.found
    assert "settling-in" in fault.accepted
    assert topic not in fault.accepted.split(", ")


def test_a_symptom_brings_the_urgent_signs_and_the_tint_its_cautions(driver: Order):
    headache = part(parsed(reply_draft(make_reply(driver, ["headaches"]), pictures=False)), "plain")
    car = part(parsed(reply_draft(make_reply(driver, ["car"]), pictures=False)), "plain")

    assert "sudden loss of sight" in headache
    assert "See somebody today" in headache
    assert "Do not drive at dusk or at night while the lenses are tinted." in car
    assert "everyday glasses, not eye protection" not in car


@pytest.mark.parametrize("names", [(), ("car",)])
def test_after_an_emergency_the_draft_holds_the_urgent_block_and_one_line_and_nothing_else(
    driver: Order, names: tuple[str, ...]
):
    reply = make_reply(driver, names, question="They stay pale in the car. And since today I see flashes.")
    text = part(parsed(reply_draft(reply, pictures=False)), "plain")
    html = page(part(parsed(reply_draft(reply, pictures=False)), "html"))

    assert reply.topics == ("urgent",)
    assert reply.reading is not None
    assert reply.reading.tier == "today"
    assert "Thank you" not in text
    assert "In the car" not in text
    assert [each.words for each in html.all("h2")] == ["When to get help"]
    assert text.index("New flashes") < text.index("We answer the rest of your message afterwards.")


def test_several_questions_are_answered_in_the_order_asked(driver: Order):
    reply = make_reply(driver, question="Which cleaner may I use? And why do they stay pale in the car?")

    assert reply.topics == ("cleaning", "car")


def test_a_question_that_nothing_fits_goes_to_a_person_and_is_not_guessed(driver: Order):
    reply = make_reply(driver, question="Do you like jazz?")

    assert reply.topics == ("other",)
    assert "with a person" in part(parsed(reply_draft(reply, pictures=False)), "plain")


def test_a_pair_outside_its_limits_without_release_gets_no_reply(tmp_path: Path):
    text = (FOLDER / "FL-3107.toml").read_text(encoding="utf-8").replace("x 166", "x 172")
    path = tmp_path / "order.toml"
    path.write_text(text, encoding="utf-8")

    with pytest.raises(InputError, match=r"bench\.right\.axis"):
        make_reply(read_order(path), ["fit"])


def test_an_order_without_workshop_and_name_still_makes_a_message(tmp_path: Path):
    text = (FOLDER / "FL-3107.toml").read_text(encoding="utf-8").replace('name = "Odalys Brackenwood"\n', "")
    path = tmp_path / "order.toml"
    path.write_text(text, encoding="utf-8")
    message = parsed(reply_draft(make_reply(read_order(path), ["fit"]), pictures=False))

    assert message["From"] is None
    assert part(message, "plain").splitlines()[3] == "Hello,"


def test_the_workshops_own_greeting_and_closing_stand_in_the_mail(tmp_path: Path):
    shop = (FOLDER / "workshop.toml").read_text(encoding="utf-8")
    own = """mail_greeting = "Good day, {name}."
mail_opening = "We looked it up."
mail_closing = "From the bench,\\nA. F."
"""
    (tmp_path / "workshop.toml").write_text(own + shop, encoding="utf-8")
    (tmp_path / "order.toml").write_text((FOLDER / "FL-3107.toml").read_text(encoding="utf-8"), encoding="utf-8")
    text = part(parsed(reply_draft(make_reply(read_order(tmp_path / "order.toml"), ["fit"]), pictures=False)), "plain")

    assert "Good day, Odalys Brackenwood.\n\nWe looked it up.\n" in text
    assert "\nFrom the bench,\nA. F.\n" in text


def test_a_hostile_mail_cannot_add_fields_to_the_draft(driver: Order):
    """RFC 5322, 2.2: a field ends at the line; encoded words (RFC 2047) may hold line breaks."""
    asked = (
        b"From: =?utf-8?q?A=0D=0ABcc:_all@example.org?= <a@example.org>\r\n"
        b"Subject: =?utf-8?b?SGVsbG8NCkJjYzogYWxsQGV4YW1wbGUub3Jn?=\r\n"
        b"Message-ID: <x@example.org>\r\nReferences: <y@example.org>\r\n Bcc: all@example.org\r\n\r\nThey slide."
    )
    letter = read_letter(asked)
    message = parsed(reply_draft(make_reply(driver, question=letter.text), pictures=False, letter=letter))

    assert message["Bcc"] is None
    assert message["To"].addresses[0].addr_spec == "a@example.org"
    assert message["Subject"] == "Re: Hello Bcc: all@example.org"
    assert message["In-Reply-To"] == "<x@example.org>"
    assert message["References"] == "<y@example.org> <x@example.org>"
