"""A workshop's own words for a section: spoken on the leaflet and in mail, and refused when they say less than ours."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from explainer.batch.documents import Settings
from explainer.batch.work import Refused, make_one
from explainer.compose.plan import compose
from explainer.errors import Fault, InputError
from explainer.optics.claims import explain
from explainer.orders import Order, read_order
from explainer.orders.assembly.normal import normal_form
from explainer.render.house import kept, sandbox
from explainer.render.house.sections import NEVER, WHOLE, blocks, house_sections
from explainer.render.house.speaking import own_words
from explainer.render.language import language
from explainer.render.leaflet import make_leaflet
from explainer.render.mail.forms import reply_text
from explainer.render.mail.reply import make_reply
from explainer.render.sections import Speaker
from explainer.render.tables import page_context
from explainer.render.voice import Voice
from explainer.resources import root

FOLDER = Path(__file__).parents[2] / "output_examples" / "orders"
SECTIONS = sorted(path.stem for path in (root("templates") / "sections").glob("*.md"))
SOLVENTS = "".join(
    f"{{% call stated('care.{name}') %}}\n- {words}\n{{% endcall %}}\n"
    for name, words in {
        "solvents.lens": "Polycarbonate hates acetone.",
        "solvents.frame": "Acetone eats your frame.",
        "solvents.coating": "Acetone may spoil the coating.",
        "heat": "No hot dashboards, please.",
    }.items()
)
FIGURE = "{% call figure('care_steps') %}Rinse, soap, rub, dry.{% endcall %}\n\n"
CARE = f"## Looking after them\n\n{FIGURE}- Rinse before you wipe.\n{SOLVENTS}"


def order_with(home: Path, order: str = "FL-3107", shop: str = "", **files: str) -> Order:
    """An example order whose workshop has these files: `care_md` is sections/care.md, `care__harm_md` care.harm.md."""
    folder = home / "wording" / "sections"
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in files.items():
        stem = name.removesuffix("_md").replace("__", ".").replace("_", "-")
        (folder / f"{stem}.md").write_text(text, encoding="utf-8")
    lines = (FOLDER / "workshop.toml").read_text(encoding="utf-8")
    (home / "workshop.toml").write_text(f'house_wording = "wording"\n{shop or lines}', encoding="utf-8")
    (home / "order.toml").write_text((FOLDER / f"{order}.toml").read_text(encoding="utf-8"), encoding="utf-8")
    return read_order(home / "order.toml")


def spoken(order: Order, section: str, code: str = "en-GB") -> tuple[str, Voice]:
    """A section as HTML, and the voice that said it."""
    explanation = explain(order.spectacles)
    voice = Voice(language(code), explanation.claims)
    document = compose(order.spectacles, explanation)
    house = own_words(house_sections(order.workshop, code))
    speaker = Speaker(voice, document, page_context(order, voice), lambda name, alt, *_: f'<img alt="{alt}">', house)
    return speaker.section(section), voice


def faults(order: Order, section: str = "care") -> list[Fault]:
    with pytest.raises(InputError) as refused:
        spoken(order, section)
    return list(refused.value.faults)


def test_a_whole_section_is_worded_by_the_workshop_and_rests_on_the_same_claims(tmp_path: Path):
    html, voice = spoken(order_with(tmp_path, care_md=CARE), "care")
    _, our_voice = spoken(read_order(FOLDER / "FL-3107.toml"), "care")

    assert "<h2>Looking after them</h2>" in html
    assert 'alt="Rinse, soap, rub, dry."' in html
    assert "Polycarbonate hates acetone." in html
    assert "Rinse first" not in html
    assert set(voice.said) == set(our_voice.said) != set()


@pytest.mark.slow
def test_the_leaflet_and_the_mail_speak_the_same_words_and_know_their_claims(tmp_path: Path):
    order = order_with(tmp_path, care_md=CARE, numbers__ending_md="Your right axis is {{ say('right.axis') }}.\n")
    plain = replace(order, workshop=replace(order.workshop, house_wording=None))
    leaflet = make_leaflet(order)

    assert "Polycarbonate hates acetone." in reply_text(make_reply(order, ["care"]))
    assert "Polycarbonate hates acetone." not in reply_text(make_reply(plain, ["care"]))
    assert set(leaflet.said) == set(make_leaflet(plain).said) | {"right.axis"}


def test_one_block_is_worded_and_all_the_rest_stays(tmp_path: Path):
    own = "- Warm water, then soap.\n- Never a dry shirt.\n"
    html, _ = spoken(order_with(tmp_path, care__steps_md=own), "care")
    ours, _ = spoken(read_order(FOLDER / "FL-3107.toml"), "care")

    assert "<li>Warm water, then soap.</li>\n<li>Never a dry shirt.</li>" in html
    assert html.count("<ul>") == 1, "items of theirs and of ours are one list"
    assert ours.partition("<li><strong>Keep solvents")[2] in html


def test_words_are_added_at_the_end_and_two_blocks_go_together(tmp_path: Path):
    order = order_with(tmp_path, care__ending_md="A spare cloth lies in the parcel.\n", care__steps_md="- Rinse.\n")
    html, _ = spoken(order, "care")

    assert html.rstrip().endswith("<p>A spare cloth lies in the parcel.</p>")
    assert "<li>Rinse.</li>" in html


def test_sentences_on_claims_do_not_run_together(tmp_path: Path):
    words = "{% call stated('right.sphere') %}Heat harms.{% endcall %}\n{% call plain() %}Ask us.{% endcall %}\n"
    html, _ = spoken(order_with(tmp_path, care__ending_md=words), "care")

    assert "Heat harms.\nAsk us." in html


@pytest.mark.parametrize("claim", ["solvents.lens", "solvents.frame", "solvents.coating", "heat"])
def test_a_sentence_on_a_claim_cannot_be_left_out(tmp_path: Path, claim: str):
    start = SOLVENTS.index(f"{{% call stated('care.{claim}')")
    end = SOLVENTS.index("{% endcall %}\n", start) + len("{% endcall %}\n")
    found = faults(order_with(tmp_path, care_md=CARE.replace(SOLVENTS, SOLVENTS[:start] + SOLVENTS[end:])))

    assert [(fault.field, fault.found) for fault in found] == [
        ("care.md, line 1", f"nothing with stated('care.{claim}')")
    ]


HOT = "{% call stated('care.heat') %}\n- Hot.\n{% endcall %}\n"


@pytest.mark.parametrize(
    "body",
    [
        "{% if flag('snow') %}\n" + HOT + "{% endif %}\n",
        "{% if not flag('cylinder') %}\n" + HOT + "{% endif %}\n",
        "{% for side in eyes if flag('snow') %}\n" + HOT + "{% endfor %}\n",
        "{% if flag('snow') %}\nSnow.\n{% else %}\n" + HOT + "{% endif %}\n",
    ],
)
def test_no_condition_of_their_own_decides_on_such_a_sentence(tmp_path: Path, body: str):
    kept_ones = SOLVENTS[: SOLVENTS.index("{% call stated('care.heat')")]
    found = faults(order_with(tmp_path, care_md=f"## Care\n\n{FIGURE}{kept_ones}{body}"))

    assert [fault.found for fault in found] == ["a condition of its own round stated('care.heat')"]
    assert found[0].field.startswith("care.md, line ")
    assert found[0].field > "care.md, line 12"


def test_what_the_tree_cannot_show_is_seen_when_the_section_speaks(tmp_path: Path):
    """This order has no prism: has() is allowed as a condition, but here it hides the sentence."""
    hidden = "{% if has('right.prism.horizontal') %}\n" + HOT + "{% endif %}\n"
    kept_ones = SOLVENTS[: SOLVENTS.index("{% call stated('care.heat')")]
    found = faults(order_with(tmp_path, care_md=f"## Care\n\n{FIGURE}{kept_ones}{hidden}"))

    assert [(fault.field, fault.found) for fault in found] == [("care.md", "nothing with the claim care.heat")]


def test_the_points_of_the_first_page_keep_what_they_say_about_driving(tmp_path: Path):
    found = faults(order_with(tmp_path, lead__points_md="- Welcome.\n"), "lead")

    assert "nothing with is_('drive.night', 'no')" in {fault.found for fault in found}
    assert "nothing with is_('pair.stronger', 'right')" in {fault.found for fault in found}


CAUTION = "{% call caution('caution.sun', 'WARNING') %}Never look at the sun.{% endcall %}\n"


@pytest.mark.parametrize(
    ("theirs", "right"),
    [
        (CAUTION, True),
        ("Words.\n", False),
        (CAUTION.replace("WARNING", "CAUTION"), False),
        ("{% if has('caution.sun') %}" + CAUTION + "{% endif %}", False),
        ("{% if flag('snow') %}" + CAUTION + "{% endif %}", False),
        ("{% if flag('cylinder') %}" + CAUTION + "{% endif %}", False),
        ("{% for side in eyes if flag('cylinder') %}" + CAUTION + "{% endfor %}", False),
    ],
)
def test_a_caution_stands_as_ours_does_and_without_any_condition(theirs: str, right: bool):
    """No section that can be replaced has a caution today; the rule holds for the day when one has."""
    ours = sandbox.parsed("ours.md", "{% if flag('cylinder') %}" + CAUTION + "{% endif %}")
    own = sandbox.parsed("own.md", theirs)
    assert not isinstance(ours, Fault)
    assert not isinstance(own, Fault)

    assert (list(kept.kept_faults("own.md", own.body, ours.body, ours.body, "ours.md")) == []) is right


@pytest.mark.parametrize("section", sorted(NEVER))
def test_what_keeps_people_safe_cannot_be_replaced(tmp_path: Path, section: str):
    order = order_with(tmp_path, **{f"{section}_md": "## Nothing to fear\n\nAll is well.\n"})

    with pytest.raises(InputError, match=f"words for {section}"):
        make_leaflet(order)
    with pytest.raises(InputError, match=f"words for {section}"):
        make_reply(order, ["care"])


@pytest.mark.parametrize("section", sorted(set(SECTIONS) - WHOLE - NEVER))
def test_other_sections_are_worded_by_blocks_only(tmp_path: Path, section: str):
    found = faults(order_with(tmp_path, **{f"{section.replace('-', '_')}_md": "## Mine\n\nWords.\n"}))

    assert [fault.found for fault in found] == ["words for the whole section"]
    assert f"{section}.intro.md" in found[0].accepted


def test_every_section_that_may_be_worded_has_a_block():
    assert {section for section in SECTIONS if not blocks(section)} == NEVER
    assert set(SECTIONS) >= WHOLE | NEVER


@pytest.mark.slow
@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("## Offer\n\nOnly 5 left.\n", 3),
        ("## A\n\nHalf: ½\n", 3),
        ("## A\n\nabout Ⅻ parts\n", 3),
        ("## A\n\nThey weigh\n1. gram less.\n", 4),
        ("## A\n\n99. of the light\n", 3),
        ("## A\n\nlight {{ say('right.axis') }}\n\n{% if has('right.axis') %}5. {% endif %}\n", 5),
        ("## A\n\nso many mm\n", 3),
        ("## A\n\nall of it: %\n", 3),
        ("## A\n\n\n{{ 5 }}\n", 4),
        ('## A\n\n{{ "5" }}\n', 3),
        ('## A\n\n{{ "a" ~ "b" }}\n', 3),
        ("## A\n\n{{ eyes|length }}\n", 3),
        ("## A\n\n{{ order_number }}\n", 3),
        ("## A\n\n{{ say('right.axis', bare=true) }}\n", 3),
        ("## A\n\n{{ say('lens.index', mark_typical=false) }}\n", 3),
        ("## A\n\n{{ say('right.axis'.replace('right', 'left')) }}\n", 3),
        ("## A\n\n{{ say('right.nonsense') }}\n", 3),
        ("## A\n\n{% if is_('drive.night', 'maybe') %}x{% endif %}\n", 3),
        ("## A\n\n{% if flag('weekend') %}x{% endif %}\n", 3),
        ("## A\n\n{{ has('right.axis') }}\n", 3),
        ("## A\n\n{{ raw('right.axis') }}\n", 3),
        ("## A\n\n{% for side in eyes %}\n{{ loop.index }}\n{% endfor %}\n", 4),
        ("## A\n\n{% for say in eyes %}x{% endfor %}\n", 3),
        ("## A\n\n{% set x = 7 %}\n", 3),
        ("## A\n\n{% macro m() %}x{% endmacro %}\n", 3),
        ("## A\n\n{% include 'sections/urgent.md' %}\n", 3),
        ("{% extends 'sections/care.md' %}\n", 1),
        ("## A\n\n{% import 'x' as y %}\n", 3),
        ("## A\n\n{% filter upper %}x{% endfilter %}\n", 3),
        ("## A\n\n{% block ending %}x{% endblock %}\n", 3),
        ("## A\n\n{% raw %}{{ 7 }}{% endraw %}\n", 3),
        ("## A\n\n&frac12; more\n", 3),
        ("## A\n\n<b>loud</b>\n", 3),
        ("## A\n\n[x]: hidden words\n", 3),
        ("## A\n\n![x](figure:dial)\n", 3),
        ("## A\n\nhidden\u202eorder\n", 3),
        ("## A\n\na\ue000b\n", 3),
        ("## A\n\n# B\n", 3),
        ("## A\n\nWords\n---\n", 4),
        ("## A\n\nWords\n{% if has('care.heat') %}---{% endif %}\n", 4),
        ("## A\n\n    code\n", 3),
        ("Words\n\nWords\n", 1),
        ("## A\n\n{{ say.__globals__ }}\n", 3),
        ("## A\n\n{{ ''.__class__ }}\n", 3),
        ("## A\n\n{{ self._TemplateReference__context }}\n", 3),
        ("## A\n\n{{ lipsum.__globals__ }}\n", 3),
        ("## A\n\n{{ gettext('x') }}\n", 3),
        ("## A\n\n{% if %}\n", 3),
        ("## A\n\n{% call stated('care.heat') %}{% endcall %}\n", 3),
        ("## A\n\n{% if has('care.heat') %} {% endif %}\n", 3),
        ("## A\n\n{% call stated('care.heat') %}{# Heat harms. #}…{% endcall %}\n", 3),
        ("## A\n\n{% endblock %}{{ 7 }}\n", 3),
        ("## A\n\n{{ " + "(" * 3000 + "\n", 1),
        ("## A\n\n" + "{% if has('care.heat') %}" * 12 + "x" + "{% endif %}" * 12 + "\n", 3),
    ],
)
def test_what_could_bring_in_a_number_or_more_is_refused_with_its_line(tmp_path: Path, text: str, line: int):
    found = faults(order_with(tmp_path, care_md=text))

    assert f"care.md, line {line}" in {fault.field for fault in found}, found


@pytest.mark.parametrize(
    "text",
    [
        "{{ 5 }}\n",
        "{% endblock %}{{ say.__globals__ }}{% block steps %}x\n",
        "{% endblock %}\n",
        "words {\n## More\n",
        "Words\n===\n",
        "{% raw %}\n",
        "{# a\n",
        "words {#\n",
        "words {#",
        "words {{",
        "words {%\n",
    ],
)
def test_a_block_cannot_leave_its_place(tmp_path: Path, text: str):
    assert faults(order_with(tmp_path, care__ending_md=text))


def test_a_block_that_ends_in_a_bracket_is_words(tmp_path: Path):
    html, _ = spoken(order_with(tmp_path, care__ending_md="Ask us {"), "care")

    assert "<p>Ask us {</p>" in html


@pytest.mark.parametrize(
    ("name", "found"),
    [
        ("weather_md", "a name that no section has"),
        ("care__middle_md", 'the block "middle"'),
        ("care__ending__x_md", 'the block "ending.x"'),
    ],
)
def test_a_name_without_a_place_is_refused_with_the_places_there_are(tmp_path: Path, name: str, found: str):
    assert [fault.found for fault in faults(order_with(tmp_path, **{name: "Words.\n"}))] == [found]


def test_a_section_and_a_block_of_it_are_not_both_worded(tmp_path: Path):
    found = faults(order_with(tmp_path, care_md=CARE, care__ending_md="Words.\n"))

    assert [fault.found for fault in found] == ["words for the section and for blocks of it"]


@pytest.mark.xfail(strict=True, reason="house words are yet to reach the phrases of the leaflet")
def test_a_claim_that_this_order_lacks_refuses_it_with_file_line_and_claim(tmp_path: Path):
    order = order_with(tmp_path, care__ending_md="Words.\n\nPrism: {{ say('right.prism.horizontal') }}.\n")

    with pytest.raises(InputError) as refused:
        make_leaflet(order)

    (fault,) = refused.value.faults
    assert fault.field == "care.ending.md, line 3"
    assert "right.prism.horizontal" in fault.found


@pytest.mark.xfail(strict=True, reason="house words are yet to reach the phrases of the leaflet")
def test_a_run_over_many_orders_names_the_order_and_the_file(tmp_path: Path):
    order = order_with(tmp_path, care__ending_md="Prism: {{ say('right.prism.horizontal') }}.\n")
    refused = make_one(order, Settings())

    assert isinstance(refused, Refused)
    assert refused.message.startswith(f"{order.source}: no leaflet: ")
    assert "care.ending.md, line 1" in refused.message
    assert "right.prism.horizontal" in refused.message


def test_a_claim_that_only_some_orders_have_may_be_asked_for(tmp_path: Path):
    words = "{% if has('right.prism.horizontal') %}Prism: {{ say('right.prism.horizontal') }}.{% endif %}\n"

    assert "Prism" not in spoken(order_with(tmp_path, care__ending_md=words), "care")[0]


def test_a_refused_section_leaves_the_voice_as_it_was(tmp_path: Path):
    order = order_with(tmp_path, care__ending_md="Prism: {{ say('right.prism.horizontal') }}.\n")
    explanation = explain(order.spectacles)
    voice = Voice(language("en-GB"), explanation.claims)
    voice.say("right.sphere")
    house = own_words(house_sections(order.workshop, "en-GB"))
    document = compose(order.spectacles, explanation)
    speaker = Speaker(voice, document, page_context(order, voice), lambda *_: "", house)

    with pytest.raises(InputError):
        speaker.section("care")

    assert list(voice.said) == ["right.sphere"]


def test_words_speak_in_their_own_language_only(tmp_path: Path):
    order = order_with(tmp_path, care__ending_md="A spare cloth lies in the parcel.\n")

    assert house_sections(order.workshop, "en-US"), "English words serve every kind of English"
    assert house_sections(order.workshop, "de") == {}


def test_another_language_has_a_folder_of_its_own(tmp_path: Path):
    order = order_with(tmp_path, care__ending_md="A spare cloth lies in the parcel.\n")
    folder = tmp_path / "wording" / "sections" / "de"
    folder.mkdir()
    (folder / "care.ending.md").write_text("Ein Tuch liegt bei.\n", encoding="utf-8")

    assert house_sections(order.workshop, "de-AT")["sections/care"].texts[0].source == "Ein Tuch liegt bei.\n"
    assert house_sections(order.workshop, "en-GB")["sections/care"].texts[0].source.startswith("A spare")


def test_words_in_no_stated_language_are_refused(tmp_path: Path):
    shop = 'name = "A Bench"\n'
    order = order_with(tmp_path, order="FL-3107", shop=shop, care__ending_md="Words.\n")

    assert [fault.field for fault in faults(order)] == ["language"]


def test_a_folder_for_the_workshops_own_language_is_refused(tmp_path: Path):
    order = order_with(tmp_path, care__ending_md="Words.\n")
    (tmp_path / "wording" / "sections" / "en").mkdir()

    assert [fault.field for fault in faults(order)] == ["en/"]


@pytest.mark.parametrize("link", ["file", "folder"])
def test_a_link_out_of_the_folder_is_refused(tmp_path: Path, link: str):
    outside = tmp_path / "elsewhere"
    outside.mkdir()
    (outside / "care.ending.md").write_text("Secret words.\n", encoding="utf-8")
    shop = tmp_path / "shop"
    order = order_with(shop)
    sections = shop / "wording" / "sections"
    if link == "file":
        (sections / "care.ending.md").symlink_to(outside / "care.ending.md")
    else:
        sections.rmdir()
        sections.symlink_to(outside)

    assert [fault.found for fault in faults(order)] == ["a link out of the folder"]


def test_a_text_beyond_measure_or_in_another_encoding_is_refused(tmp_path: Path):
    order = order_with(tmp_path, care__ending_md="a" * 20_001)
    assert "more than 20000 bytes" in faults(order)[0].found
    (tmp_path / "wording" / "sections" / "care.ending.md").write_bytes("Größe".encode("latin-1"))
    assert "not UTF-8" in faults(order)[0].found


def test_changed_words_make_another_leaflet(tmp_path: Path):
    """What was made already is found by the order's normal form: words that changed must change it."""
    first = normal_form(order_with(tmp_path, care__ending_md="A spare cloth lies in the parcel.\n"))
    second = normal_form(order_with(tmp_path, care__ending_md="Two spare cloths lie in the parcel.\n"))

    assert first != second


def test_words_of_theirs_are_never_run_outside_the_sandbox(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    from jinja2 import Environment
    from jinja2.sandbox import SandboxedEnvironment

    seen: list[tuple[str, bool]] = []
    compiled = Environment.compile

    def listening(self: Environment, source: object, *rest: object, **more: object) -> object:
        seen.append((str(source), isinstance(self, SandboxedEnvironment)))
        return compiled(self, source, *rest, **more)  # type: ignore[call-overload]

    monkeypatch.setattr(Environment, "compile", listening)
    spoken(order_with(tmp_path, care__ending_md="A cloth of a kind of its own.\n"), "care")

    assert [sandboxed for source, sandboxed in seen if "A cloth of a kind" in source] == [True]
