"""House wording as somebody would write it who wants a required sentence unsaid, or a number in that no claim holds."""

from __future__ import annotations

from pathlib import Path

import pytest

from explainer.compose.plan import compose
from explainer.errors import Fault, InputError
from explainer.optics.claims import explain
from explainer.orders import read_order
from explainer.render.house.number_words import mixed_scripts, number_in_words
from explainer.render.house.sections import NO_PHRASES, PHRASES, checked, checked_phrases, house_sections
from explainer.render.house.speaking import own_words
from explainer.render.language import language
from explainer.render.sections import Speaker
from explainer.render.tables import page_context
from explainer.render.voice import Voice
from explainer.resources import root

ORDERS = Path(__file__).parents[2] / "output_examples" / "orders"
HEAT = "{% call stated('care.heat') %}No hot dashboards.{% endcall %}"
OURS = (root("templates") / "phrases" / "clean.heat.md").read_text(encoding="utf-8")


def faults(kind: str, name: str, source: str) -> list[Fault]:
    check = checked if kind == "sections" else checked_phrases
    try:
        check(kind, ((f"{name}.md", source),))
    except InputError as error:
        return list(error.faults)
    return []


def speaker(number: str, house: dict) -> Speaker:
    order = read_order(ORDERS / f"{number}.toml")
    explanation = explain(order.spectacles)
    voice = Voice(language("en-GB"), explanation.claims)
    document = compose(order.spectacles, explanation)
    return Speaker(voice, document, page_context(order, voice), lambda *_: "", house)


IN_FIGURE = "{% call figure('care_steps') %}Rinse. " + HEAT + "{% endcall %}\n\nAll is well.\n"


def test_what_stands_in_the_description_of_a_figure_alone_is_not_said():
    found = faults("sections", "care.harm", IN_FIGURE)

    assert "nothing with stated('care.heat') but in the description of a figure" in {fault.found for fault in found}


DIRECTION = (root("templates") / "sections" / "direction.md").read_text(encoding="utf-8")


def test_the_residuals_of_a_turned_lens_cannot_hide_in_the_dials_description():
    hidden = "{{ say(side ~ '.turn.5.residual') }} {{ say(side ~ '.turn.10.residual') }} {{ say('turn.angle.small') }}"
    words = (
        "## Turning\n\n{% call figure('dial') %}{% for side in eyes %}{{ eye_name(side) }}: "
        "{% if has(side ~ '.made.axis') %}"
        "{{ say(side ~ '.made.axis') }} {{ say('turn.angle.large') }} "
        + hidden
        + "{% else %}{% call stated(side ~ '.cylinder')"
        " %}none{% endcall %}{% endif %}{% endfor %}{% endcall %}\n\nFlat {{ say('axis.scale.flat') }}, upright "
        "{{ say('axis.scale.upright') }}.\n"
    )
    found = {fault.found for fault in faults("sections", "direction", words)}

    assert "nothing with say('*.turn.5.residual') but in the description of a figure" in found
    assert any("stated('*.cylinder') but in the description" in each for each in found)


def test_hearing_it_spoken_finds_it_too(monkeypatch: pytest.MonkeyPatch):
    """The second net, for what the tree cannot show: the tree's own check is taken away."""
    from explainer.render.house import sections

    monkeypatch.setattr(sections, "kept_faults", lambda *_: iter(()))
    checked.cache_clear()
    words = checked("hidden", (("care.harm.md", IN_FIGURE),))
    checked.cache_clear()
    said = speaker("FL-3107", own_words(words))

    with pytest.raises(InputError, match=r"the claim care\.heat but in the description of a figure"):
        said.section("care")


def test_what_is_said_twice_is_refused_in_the_tree_and_in_hearing(monkeypatch: pytest.MonkeyPatch):
    twice = f"{HEAT}\n\n{{% call stated('care.heat') %}}Well, heat is fine after all.{{% endcall %}}\n"
    assert "stated('care.heat') a second time" in {fault.found for fault in faults("phrases", "clean.heat", twice)}

    conditional = (
        HEAT + "{% if has('right.sphere') %}{% call stated('care.heat') %}Heat is fine.{% endcall %}{% endif %}\n"
    )
    words = checked_phrases("twice", (("clean.heat.md", conditional),))
    with pytest.raises(InputError, match=r"the claim care\.heat a second time"):
        speaker("FL-3107", own_words(words)).phrase("clean.heat")


HIDDEN = {
    "an unfulfilled condition": "{% if has('bench.pd.reading') %}" + HEAT + "{% endif %}Words.\n",
    "a flag": "{% if flag('snow') %}" + HEAT + "{% endif %}Words.\n",
    "a text of the shop": "{% if returns %}" + HEAT + "{% endif %}Words.\n",
    "a comment": "Words. {# " + HEAT + " #}\n",
    "raw text": "Words. {% raw %}" + HEAT + "{% endraw %}\n",
    "a comment of HTML": "Words. <!-- " + HEAT + " -->\n",
    "a link's name": "[x]: y '" + HEAT + "'\n\nWords.\n",
    "a picture's description": "![" + HEAT + "](x)\n",
    "an empty sentence": "Words. {% call stated('care.heat') %} {% endcall %}\n",
    "an empty condition in the sentence": (
        "Words. {% call stated('care.heat') %}{% if flag('snow') %}Heat harms.{% endif %}{% endcall %}\n"
    ),
    "a figure in the sentence": (
        "Words. {% call stated('care.heat') %}{% call figure('care_steps') %}Heat harms.{% endcall %}{% endcall %}\n"
    ),
    "a question instead": "{% if has('care.heat') %}Words.{% endif %}\n",
    "a figure": "{% call figure('care_steps') %}" + HEAT + "{% endcall %}\n",
    "a caption": "{% call figure('care_steps', 'x' ~ '') %}x{% endcall %}\n",
    "no words of it": "Enjoy the sun.\n",
}


@pytest.mark.parametrize("source", HIDDEN.values(), ids=HIDDEN.keys())
def test_no_way_to_say_a_required_sentence_without_showing_it(source: str):
    """Refused when it is looked at, or when it is spoken for an order that has the claim and not the condition."""
    if faults("phrases", "clean.heat", source):
        return
    words = checked_phrases("hidden", (("clean.heat.md", source),))

    with pytest.raises(InputError, match=r"care\.heat"):
        speaker("FL-3118", own_words(words)).phrase("clean.heat")


def test_a_phrase_of_the_shop_stands_where_ours_stood():
    words = checked_phrases("plain", (("clean.heat.md", HEAT + "\n"), ("clean.rinse.md", "Rinse them under the tap\n")))
    spoken = speaker("FL-3107", own_words(words))

    assert "No hot dashboards." in spoken.phrase_html("clean.heat")
    assert spoken.phrase_html("clean.rinse") == "Rinse them under the tap"
    assert "care.heat" in spoken.voice.said


@pytest.mark.parametrize("name", sorted(NO_PHRASES))
def test_phrases_that_keep_people_safe_are_nobodys_but_ours(name: str):
    assert [fault.found for fault in faults("phrases", name, "All is well.\n")] == [f"words for {name}"]


@pytest.mark.parametrize(
    "name", ["know.stairs", "drive.title", "help.title", "safe.sun", "check.right_pair", "picture.dial"]
)
def test_phrases_of_other_kinds_cannot_be_worded(name: str):
    assert [fault.found for fault in faults("phrases", name, "All is well.\n")] == ["a name that no phrase has"]


def free_phrases() -> list[str]:
    names = sorted(path.stem for path in (root("templates") / "phrases").glob("*.md"))
    return [name for name in names if name.partition(".")[0] in PHRASES and name not in NO_PHRASES]


@pytest.mark.parametrize("name", free_phrases())
def test_our_own_words_are_taken_for_every_phrase(name: str):
    import re

    source = (root("templates") / "phrases" / f"{name}.md").read_text(encoding="utf-8")
    named = {}
    for values in re.findall(r"{% trans ([^%]*?) ?%}", source):
        named |= dict(re.findall(r"(\w+)=([\w.]+(?:\([^)]*\))?)", values))
    plain = re.sub(r"{% (?:end)?trans[^%]*%}", "", source)
    for short, means in named.items():
        plain = plain.replace(f"{{{{ {short} }}}}", f"{{{{ {means} }}}}")

    assert faults("phrases", name, plain) == []


@pytest.mark.parametrize("source", ["# Big\n", "- a list\n", "1. a list\n", "> said\n", "x" * 900 + "\n"])
def test_a_phrase_keeps_to_its_place(source: str):
    assert faults("phrases", "clean.rinse", source)


def test_phrases_lie_in_a_folder_of_their_language(tmp_path: Path):
    for name in ("FL-3107.toml",):
        (tmp_path / name).write_bytes((ORDERS / name).read_bytes())
    shop = (ORDERS / "workshop.toml").read_text("utf-8")
    (tmp_path / "workshop.toml").write_text('house_wording = "words"\n' + shop, "utf-8")
    (tmp_path / "words" / "phrases" / "de").mkdir(parents=True)
    (tmp_path / "words" / "phrases" / "clean.rinse.md").write_text("Rinse\n", "utf-8")
    (tmp_path / "words" / "phrases" / "de" / "clean.rinse.md").write_text("Spülen\n", "utf-8")
    workshop = read_order(tmp_path / "FL-3107.toml").workshop

    assert house_sections(workshop, "en-GB")["phrases/clean.rinse"].texts[0].source == "Rinse\n"
    assert house_sections(workshop, "de-AT")["phrases/clean.rinse"].texts[0].source == "Spülen\n"


NUMBERS = [
    "They weigh two grams.",
    "Two millimetres thick",
    "two *milli*metres",
    "**t**wo millimetres",
    "t\\wo millimetres",
    "two\nmillimetres",
    "two {# nothing #}millimetres",
    "two {% if has('care.heat') %}{% endif %}millimetres",
    "ｔｗｏ millimetres",
    "two ｍｍ",
    "two ㎜",
    "half a dioptre",
    "TWENTY-FIVE PER CENT",
    "Dioptres: two",
    "twenty degrees",
    "XII millimetres",
    "zwei Millimeter",
    "zweiundzwanzig Prozent",
    "anderthalb Dioptrien",
    "Zwölf Grad",
    "within ten days",
    "in drei Wochen",
    "مليمتران",
    "ثلاثة أيام",
    "ثَلاثة ملّيمتر",
    "二 mm",
    "{{ say('settling.usual') }} weeks",
    "{{ say('right.axis') }} dioptres",
]


@pytest.mark.parametrize("words", NUMBERS)
def test_a_number_in_words_beside_a_unit_is_a_number(words: str):
    found = faults("sections", "care.ending", f"{words}\n")

    assert any("number in words" in each.found or "digit" in each.found or "unit" in each.found for each in found), (
        found
    )


@pytest.mark.parametrize(
    "words",
    [
        "Two cloths lie in the parcel.",
        "Come in one of these days.",
        "A millimetre counts.",
        "Dry both lenses, then wait a minute.",
        "Ein Millimeter zählt.",
        "It takes a day. Two of us will look.",
        "Every degree matters to the three of us.",
    ],
)
def test_numbers_of_things_are_free(words: str):
    assert faults("sections", "care.ending", f"{words}\n") == []


def test_letters_of_two_alphabets_in_one_word_deceive():
    assert mixed_scripts("tw\u043e millimetres") == "tw\u043e"
    assert mixed_scripts("two Brillen \u043e\u0447\u043a\u0438") is None
    assert faults("sections", "care.ending", "tw\u043e millimetres\n")


def test_the_place_of_a_number_is_its_line():
    found = faults("sections", "care.ending", "Fine words.\n\nMore words,\nabout two millimetres.\n")

    assert [fault.field for fault in found] == ["care.ending.md, line 4"]
    assert list(number_in_words("nothing here")) == []
