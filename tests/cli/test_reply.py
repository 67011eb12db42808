"""`explainer reply` and `explainer topics` as a support desk types them."""

from __future__ import annotations

import json
import stat
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner
from mailreading import parsed

from explainer.cli import main

HOME = Path(__file__).parents[2]
DRIVER = HOME / "output_examples" / "orders" / "FL-3107.toml"


def run(*words: object, given: str | None = None):
    return CliRunner().invoke(main, [str(word) for word in words], input=given)


def test_a_draft_is_written_for_the_owner_only_under_the_orders_number(tmp_path: Path):
    result = run("reply", DRIVER, "--topic", "car", "-o", tmp_path, "--no-pictures")
    path = tmp_path / "FL-3107.en-GB.reply.eml"

    assert result.exit_code == 0, result.output
    assert result.stdout.strip() == str(path)
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert parsed(path.read_bytes())["Date"]


def test_a_file_can_be_named(tmp_path: Path):
    run("reply", DRIVER, "--topic", "fit", "-o", tmp_path / "x.eml", "--no-pictures")

    assert [each.name for each in tmp_path.iterdir()] == ["x.eml"]


@pytest.mark.parametrize(
    ("form", "told"), [("text", "In the car\n---"), ("markdown", "## In the car"), ("html", "<h2 ")]
)
def test_a_piece_to_paste_goes_to_the_screen(form: str, told: str):
    assert told in run("reply", DRIVER, "--topic", "car", "--form", form).stdout


def test_the_desk_is_told_of_an_urgent_sign_and_what_was_answered(tmp_path: Path):
    result = run("reply", DRIVER, "--question", "-", "--form", "text", given="a curtain over my eye; and the car?")

    assert result.stderr.startswith("URGENT")
    assert "needs help TODAY" in result.stderr
    assert "curtain" in result.stderr
    assert "answered: urgent" in result.stderr
    assert "When to get help" in result.stdout
    assert "In the car" not in result.stdout


def test_neither_topic_nor_question_is_wrong_use():
    assert run("reply", DRIVER).exit_code == 2


def test_a_folder_of_many_orders_is_wrong_use():
    assert run("reply", DRIVER.parent, "--topic", "car").exit_code == 2


def test_a_refused_topic_is_exit_one_and_writes_nothing(tmp_path: Path):
    result = run("reply", DRIVER.with_name("FL-3112.toml"), "--topic", "car", "-o", tmp_path)

    assert result.exit_code == 1
    assert "accepted" in result.stderr
    assert not list(tmp_path.iterdir())


def test_the_wearer_is_named_neither_in_messages_nor_in_paths(tmp_path: Path):
    result = run("reply", DRIVER, "--topic", "car", "-o", tmp_path, "--no-pictures")

    assert "Brackenwood" not in result.output


def test_topics_are_listed_for_a_person_and_for_a_program():
    assert "car: the tint in the car" in run("topics").stdout
    listed = json.loads(run("topics", "--json").stdout)
    assert {"name", "says", "questions", "needs"} <= set(listed[0])


def test_topics_of_a_message_come_with_scores_and_signs():
    shown = json.loads(
        run("topics", "--question", "-", "--json", given="lenses stay pale in the car, I see flashes").stdout
    )

    assert shown["urgent"] is True
    assert shown["proposals"][0]["topic"] == "car"
    assert shown["proposals"][0]["score"] > 2


def test_a_message_that_nothing_fits_is_said_to_be_so():
    assert "No topic fits" in run("topics", "--question", "-", given="Do you like jazz?").stdout


def test_a_mail_needs_neither_the_page_engine_nor_with_kept_figures_the_plotter():
    code = f"""
import sys
from pathlib import Path
from explainer.orders import read_order
from explainer.render.mail.forms import reply_draft
from explainer.render.mail.reply import make_reply
reply_draft(make_reply(read_order(Path({str(DRIVER)!r})), ['car']), pictures=False)
print('weasyprint' in sys.modules, 'matplotlib' in sys.modules)
"""
    shown = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=HOME)

    assert shown.stdout.split() == ["False", "False"]


ASKED = b"""From: "Wren =?utf-8?q?Gr=C3=BCn?=" <wren@example.org>
To: bench@fernlight.example
Subject: =?utf-8?q?Order_FL-3107=3A_pale_in_the_car?=
Message-ID: <one@mail.example.org>
References: <zero@mail.example.org>
MIME-Version: 1.0
Content-Type: text/html; charset=utf-8
Content-Transfer-Encoding: quoted-printable

<html><style>curtain, shadow, flash</style><p>Why do the lenses stay pale when I d=
rive?</p><blockquote type=3D"cite">I see double</blockquote></html>
"""


def test_a_saved_mail_is_answered_in_its_thread_about_the_order_it_names(tmp_path: Path):
    (tmp_path / "asked.eml").write_bytes(ASKED)
    result = run("reply", DRIVER.parent, "--question", tmp_path / "asked.eml", "-o", tmp_path, "--no-pictures")

    assert result.exit_code == 0, result.output
    message = parsed((tmp_path / "FL-3107.en-GB.reply.eml").read_bytes())
    assert "URGENT" not in result.stderr
    assert "order FL-3107, as the message says" in result.stderr
    assert message["To"] == "Wren Grün <wren@example.org>"
    assert message["Subject"] == "Re: Order FL-3107: pale in the car"
    assert message["In-Reply-To"] == "<one@mail.example.org>"
    assert message["References"] == "<zero@mail.example.org> <one@mail.example.org>"


def test_an_order_of_a_folder_is_named_by_its_number(tmp_path: Path):
    result = run("reply", DRIVER.parent, "--order", "FL-3112", "--topic", "fit", "--form", "text")

    assert result.exit_code == 0, result.output
    assert "FL-3112" in result.stdout


def test_a_number_that_is_not_there_is_refused_with_some_that_are():
    result = run("reply", DRIVER.parent, "--order", "FL-1", "--topic", "fit")

    assert result.exit_code == 1
    assert "FL-3107" in result.stderr


def test_topics_are_proposed_for_a_saved_mail_in_any_encoding(tmp_path: Path):
    (tmp_path / "asked.txt").write_bytes("Grüße, die Brille rutscht ständig".encode("cp1252"))
    shown = json.loads(run("topics", "--question", tmp_path / "asked.txt", "--language", "de", "--json").stdout)

    assert shown["tier"] is None
    assert shown["proposals"][0]["topic"] == "adjusting"


def test_a_page_is_attached_as_html(tmp_path: Path):
    result = run("reply", DRIVER, "--topic", "car", "--attach-page", "-o", tmp_path)
    assert result.exit_code == 0, result.output
    (attached,) = parsed((tmp_path / "FL-3107.en-GB.reply.eml").read_bytes()).iter_attachments()
    assert (attached.get_content_type(), attached.get_filename()) == ("text/html", "FL-3107.en-GB.page.html")
    assert "When to get help" in attached.get_payload(decode=True).decode()
