"""What every figure owes to the page: no text, exact size, equal bytes, labels with room, lines that print."""

from __future__ import annotations

import itertools
import re
import subprocess
import sys

import pytest
from figures.reading import MM_PER_POINT, SVG, root
from figures.samples import LARGE, PLUS, SAMPLES, STRONG_MINUS, STRONG_MINUS_RESIN
from figures.words import ENGLISH, GERMAN, LABEL_PT, LINE_MM, room_mm, words

from explainer.errors import RenderError
from explainer.figures import FIGURES, draw
from explainer.figures.drawing import Drawing, Label
from explainer.figures.keys import KEYS
from explainer.figures.style import ACCENT, DARK, INK, MIDDLE
from explainer.render.figure_words import FIGURE_WORDS
from explainer.render.language import Language
from explainer.resources import root as root_folder

Box = tuple[float, float, float, float]
HIGHEST_MM = {
    **{"dial": 40, "ladder": 68, "lens_section": 50, "outline": 62, "weight_bars": 26, "tint_bars": 60},
    **{"tint_curves": 80, "tint_spectrum": 37, "sight": 32, "fit_table": 30, "care_steps": 28},
    **dict.fromkeys(("fit_folded", "fit_level", "fit_pads", "fit_bend"), 28),
}
_DRAWN: dict[tuple[str, int], Drawing] = {}


def drawn(name: str, values: dict[str, object]) -> Drawing:
    """The drawing of a sample, made once for all tests."""
    key = (name, id(values))
    if key not in _DRAWN:
        _DRAWN[key] = draw(name, values)
    return _DRAWN[key]


every_sample = pytest.mark.parametrize(("name", "values"), SAMPLES, ids=[f"{n}{i}" for i, (n, _) in enumerate(SAMPLES)])


def test_every_figure_has_a_sample() -> None:
    assert {name for name, _ in SAMPLES} == set(FIGURES)


def test_an_unknown_figure_is_refused() -> None:
    with pytest.raises(RenderError, match="there is no figure 'pie'"):
        draw("pie", {})


@every_sample
def test_a_figure_holds_no_text_and_names_no_font(name: str, values: dict[str, object]) -> None:
    drawing = drawn(name, values)
    tags = {element.tag.removeprefix(SVG) for element in root(drawing).iter()}
    assert tags <= {"svg", "defs", "style", "g", "path", "image"}
    without_pictures = re.sub(rb'href="data:[^"]*"', b"", drawing.svg)
    for word in (b"<text", b"font", b"http://", b"https://", b"matplotlib"):
        allowed = {b"http://": 4}.get(word, 0)  # the document type and the two name spaces
        assert without_pictures.count(word) <= allowed, word


@every_sample
def test_equal_inputs_give_equal_bytes(name: str, values: dict[str, object]) -> None:
    assert draw(name, values) == drawn(name, values)


@every_sample
def test_the_sheet_has_exactly_the_size_that_is_told(name: str, values: dict[str, object]) -> None:
    drawing = drawn(name, values)
    svg = root(drawing)
    wide, high = (float(svg.attrib[side].removesuffix("pt")) * MM_PER_POINT for side in ("width", "height"))
    assert wide == pytest.approx(drawing.width_mm, abs=1e-4)
    assert high == pytest.approx(drawing.height_mm, abs=1e-4)
    assert drawing.width_mm <= 180  # A4 between margins of 15 mm


@pytest.mark.parametrize(("spoken", "spare"), [(ENGLISH, 1.25), (GERMAN, 1.05)], ids=["english", "german"])
@every_sample
def test_labels_stay_on_the_sheet_and_clear_of_each_other(
    name: str, values: dict[str, object], spoken: Language, spare: float
) -> None:
    """In English with a quarter more room where there are words, and in German, whose words are long."""
    drawing = drawn(name, values)
    boxes = [(words(label, spoken), label_box(label, spoken, spare)) for label in drawing.labels]
    for text, (left, top, right, bottom) in boxes:
        assert left >= -0.01, text
        assert right <= drawing.width_mm + 0.01, text
        assert top >= -0.6, text
        assert bottom <= drawing.height_mm + 0.6, text
    for (first, a), (second, b) in itertools.combinations(boxes, 2):
        apart = a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] + 0.25 or b[3] <= a[1] + 0.25
        assert apart, f"{first} runs into {second}"


@pytest.mark.parametrize("spoken", [ENGLISH, GERMAN], ids=["english", "german"])
@every_sample
def test_no_word_is_longer_than_its_line(name: str, values: dict[str, object], spoken: Language) -> None:
    for label in drawn(name, values).labels:
        if label.width_mm is not None:
            assert room_mm(label, spoken, 1.05)[0] <= label.width_mm, words(label, spoken)


def test_labels_are_set_no_larger_than_they_are_measured() -> None:
    sheet = (root_folder("templates") / "leaflet" / "pictures.css").read_text(encoding="utf-8")
    rule = re.search(r"\.label \{[^}]*font-size: ([0-9.]+)pt; line-height: ([0-9.]+)pt", sheet)
    assert rule is not None
    assert float(rule[1]) <= LABEL_PT
    assert float(rule[2]) * 25.4 / 72 <= LINE_MM


@every_sample
def test_a_figure_fits_a_column_and_is_no_higher_than_it_needs(name: str, values: dict[str, object]) -> None:
    """A column is 87 mm wide on A4; two small figures stand side by side in it."""
    drawing = drawn(name, values)
    small = name in ("fit_folded", "fit_level", "fit_pads", "fit_bend")
    assert drawing.width_mm <= (42 if small else 86)
    assert drawing.height_mm <= HIGHEST_MM[name]


@pytest.mark.parametrize("powers", [(-5.0, -7.5), (7.5, 6.0), (4.0, -4.0), (0.0, -10.5)])
def test_the_ladder_is_low_for_usual_powers(powers: tuple[float, float]) -> None:
    along, across = powers
    drawing = draw(
        "ladder",
        {"right_along_d": along, "right_across_d": across, "left_along_d": along, "left_across_d": across},
    )
    assert drawing.height_mm <= 58


def test_the_lens_alone_takes_little_height() -> None:
    for lens in (STRONG_MINUS, STRONG_MINUS_RESIN, PLUS, LARGE):
        assert draw("lens_section", {"lens": lens}).height_mm <= 28


@every_sample
def test_nothing_is_drawn_beyond_the_sheet(name: str, values: dict[str, object]) -> None:
    drawing = drawn(name, values)
    for path in root(drawing).iter(f"{SVG}path"):
        numbers = [float(n) * MM_PER_POINT for n in re.findall(r"-?[0-9.]+(?:e-?[0-9]+)?", path.attrib["d"])]
        assert all(-0.01 <= x <= drawing.width_mm + 0.01 for x in numbers[::2])
        assert all(-0.01 <= y <= drawing.height_mm + 0.01 for y in numbers[1::2])


@every_sample
def test_lines_are_thick_and_dark_enough_to_print(name: str, values: dict[str, object]) -> None:
    for style in re.findall(rb'style="([^"]*)"', drawn(name, values).svg):
        width = re.search(rb"stroke-width: ([0-9.]+)", style)
        assert width is None or float(width[1]) >= 0.6, style


@every_sample
def test_colours_are_greys_and_the_one_accent(name: str, values: dict[str, object]) -> None:
    accent = "#5A2A6B"
    for colour in re.findall(rb"#[0-9a-fA-F]{6}", draw(name, {**values, "accent": accent}).svg):
        red, green, blue = colour[1:3], colour[3:5], colour[5:7]
        assert red == green == blue or colour.decode().upper() == accent


def test_the_words_cover_every_key_and_no_other() -> None:
    assert set(FIGURE_WORDS) == set(KEYS)
    assert len(KEYS) == len(set(KEYS))


@pytest.mark.parametrize(("colour", "least"), [(ACCENT, 7.0), (INK, 7.0), (DARK, 7.0), (MIDDLE, 3.0)])
def test_contrast_on_white(colour: str, least: float) -> None:
    """WCAG 2.2: text 7:1 (1.4.6), parts of pictures 3:1 (1.4.11); relative luminance as defined there."""
    channels = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    luminance = 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
    assert 1.05 / (luminance + 0.05) >= least


def test_an_accent_that_is_no_colour_is_refused() -> None:
    with pytest.raises(RenderError, match="accent"):
        draw("fit_bend", {"accent": "url(x)"})


def test_a_users_own_plot_settings_do_not_reach_the_page() -> None:
    import matplotlib as mpl

    plain = draw("fit_bend", {})
    with mpl.rc_context({"lines.linewidth": 9, "path.sketch": (2, 3, 4), "svg.hashsalt": "other", "savefig.dpi": 300}):
        assert draw("fit_bend", {}) == plain


def test_importing_the_figures_imports_nothing_heavy() -> None:
    code = (
        "import sys, explainer.figures, explainer.figures.cache, explainer.figures.sight, explainer.figures.dial;"
        "sys.exit(', '.join({'matplotlib', 'numpy', 'PIL'} & set(sys.modules)) or 0)"
    )
    result = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert result.returncode == 0, result.stderr


def label_box(label: Label, spoken: Language, spare: float) -> Box:
    """Left, top, right, bottom of a label [mm] whose words are so many times as long."""
    wide, lines = room_mm(label, spoken, spare)
    start = {"start": 0.0, "middle": wide / 2, "end": wide}[label.anchor]
    half = lines * LINE_MM / 2
    return label.x_mm - start, label.y_mm - half, label.x_mm - start + wide, label.y_mm + half


def test_the_drawing_is_a_value() -> None:
    drawing = draw("fit_bend", {})
    assert isinstance(drawing, Drawing)
    assert hash(drawing) == hash(draw("fit_bend", {}))
