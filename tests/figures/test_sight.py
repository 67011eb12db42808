"""The computed blur, held against published blur sizes, the trade's clock rule, and laws of convolution."""

from __future__ import annotations

import base64
import io
import re

import numpy as np
import numpy.typing as npt
import pytest
from figures.samples import panels

from explainer.errors import OutOfRange, RenderError
from explainer.figures.scene import HIGH_MM, LETTER_MM, WIDE_MM, raster
from explainer.figures.sight import PIXELS_PER_MM, Panel, blur_kernel, blurred, printed, sight

Array = npt.NDArray[np.float64]
PIXEL_MRAD = 0.1


def kernel(sphere: float, cylinder: float = 0.0, axis: float | None = None, pupil: float = 4.0) -> Array:
    return blur_kernel(sphere_d=sphere, cylinder_d=cylinder, axis_deg=axis, pupil_mm=pupil, pixel_mrad=PIXEL_MRAD)


def places(blur: Array) -> tuple[Array, Array]:
    """x to the wearer's right and y up of each pixel, from the middle [mrad]."""
    half = blur.shape[0] // 2
    steps = (np.arange(blur.shape[0]) - half) * PIXEL_MRAD
    x, y = np.meshgrid(steps, -steps)
    return x, y


def extent(blur: Array, direction_deg: float) -> float:
    """How far the light of one point is spread in a direction of the wearer's view [mrad]."""
    x, y = places(blur)
    angle = np.radians(direction_deg)
    along = x * np.cos(angle) + y * np.sin(angle)
    lit = along[blur > blur.max() * 0.02]
    return float(lit.max() - lit.min())


def streak_deg(blur: Array) -> float:
    """The direction in which the light is spread most, anticlockwise from the wearer's right, 0 to 180."""
    x, y = places(blur)
    return float(np.degrees(np.arctan2(2 * np.sum(blur * x * y), np.sum(blur * (x**2 - y**2))) / 2) % 180)


@pytest.mark.parametrize(("pupil", "defocus", "mrad"), [(3, 1.0, 3.0), (4, 1.0, 4.0), (4, -2.5, 10.0), (6, 0.5, 3.0)])
def test_a_missing_sphere_spreads_a_point_over_pupil_times_defocus(pupil: float, defocus: float, mrad: float) -> None:
    """0.057 degrees for each millimetre of pupil and dioptre: encyclopaedia article "Defocus",
    https://tickerdossier.com/wiki/defocus; that is one thousandth of a radian."""
    blur = kernel(defocus, pupil=pupil)
    assert np.degrees(1e-3) == pytest.approx(0.057, abs=0.0005)
    for direction in (0, 37, 90, 135):
        assert extent(blur, direction) == pytest.approx(mrad, abs=2.5 * PIXEL_MRAD)


def test_a_missing_sphere_fills_its_disc_evenly() -> None:
    """Geometric optics: an evenly lit pupil gives an evenly lit disc."""
    blur = kernel(2.0)
    x, y = places(blur)
    inner = blur[np.hypot(x, y) < 3.4]
    assert inner.max() / inner.min() < 1.35
    assert inner.mean() == pytest.approx(PIXEL_MRAD**2 / (np.pi * 4.0**2), rel=0.03)
    assert blur[np.hypot(x, y) > 4.3].sum() == 0


def test_an_uncorrected_minus_cylinder_at_180_smears_upright_and_keeps_upright_strokes() -> None:
    """An eye that needs -1.00 x 180 is a dioptre too strong in its upright meridian; blur lies in that meridian."""
    blur = kernel(0, -1.0, 180)
    assert extent(blur, 90) == pytest.approx(4.0, abs=0.3)
    assert extent(blur, 0) <= 2 * PIXEL_MRAD
    assert streak_deg(blur) == pytest.approx(90, abs=0.5)
    upright = np.ones((201, 201))
    upright[:, 90:110] = 0
    level = upright.T.copy()
    assert np.abs(blurred(upright, blur) - upright)[60:140].max() < 1e-9
    assert np.abs(blurred(level, blur) - level)[:, 60:140].max() > 0.4


def test_both_meridians_blur_by_their_own_power() -> None:
    """-2.00 -1.00 x 90 uncorrected: 2 D in the upright meridian, 3 D in the level one."""
    blur = kernel(-2.0, -1.0, 90)
    assert extent(blur, 90) == pytest.approx(8, abs=0.3)
    assert extent(blur, 0) == pytest.approx(12, abs=0.3)


@pytest.mark.parametrize("hour", [1, 2, 3, 4, 5, 6])
def test_the_clock_dial_rule_of_30(hour: int) -> None:
    """Common practice: the wearer looks at a clock face; the axis of the minus cylinder that is missing is thirty
    times the lower hour of the clearest line. A line stays clear when the blur runs along it. The hour h of a clock
    stands at 90 - 30 h degrees, anticlockwise from the wearer's right, so this fixes the mirror between the wearer's
    view and the prescription's.
    """
    blur = kernel(0.0, -1.5, 30.0 * hour)
    clearest_line = (90 - 30 * hour) % 180
    assert abs((streak_deg(blur) - clearest_line + 90) % 180 - 90) < 1


@pytest.mark.parametrize("lens", [(-3.25, -1.25, 172), (0, -1.0, 45), (2.0, -4.0, 60), (-12, -3, 10), (0.1, 0, None)])
def test_no_light_is_lost_and_none_is_negative(lens: tuple[float, float, float | None]) -> None:
    blur = kernel(*lens)
    assert blur.sum() == pytest.approx(1, abs=1e-12)
    assert blur.min() >= 0
    spot = np.ones((121, 121))
    spot[60, 60] = 0
    assert blur.shape[0] % 2 == 1
    if blur.shape[0] < 121:
        assert (1 - blurred(spot, blur)).sum() == pytest.approx(1, abs=1e-6)


def test_nothing_uncorrected_leaves_the_picture_as_it_is() -> None:
    picture = raster(4)
    np.testing.assert_allclose(blurred(picture, kernel(0)), picture, atol=1e-9)


def test_the_blur_is_the_sum_over_its_points() -> None:
    """Convolution by its definition, against the Fourier way; a lopsided picture shows a mirrored or shifted result."""
    rng = np.random.default_rng(3)
    picture = rng.random((40, 30))
    blur = blur_kernel(sphere_d=0.4, cylinder_d=-0.9, axis_deg=25, pupil_mm=4, pixel_mrad=0.5)
    half = blur.shape[0] // 2
    wide = np.pad(picture, half, constant_values=1.0)
    expected = np.zeros_like(picture)
    for dy in range(-half, half + 1):
        for dx in range(-half, half + 1):
            part = wide[half - dy : half - dy + 40, half - dx : half - dx + 30]
            expected += blur[half + dy, half + dx] * part
    np.testing.assert_allclose(blurred(picture, blur), expected, atol=1e-9)


def test_transposed_prescriptions_blur_alike() -> None:
    """-3.00 +2.00 x 30 is the same lens as -1.00 -2.00 x 120, by the rule of transposition."""
    np.testing.assert_allclose(kernel(-3.0, 2.0, 30), kernel(-1.0, -2.0, 120), atol=2e-4)


def test_the_letters_have_the_stated_height_and_black_strokes() -> None:
    picture = raster(PIXELS_PER_MM)
    assert picture.shape == (HIGH_MM * PIXELS_PER_MM, WIDE_MM * PIXELS_PER_MM)
    dark_rows = np.flatnonzero(picture[: 14 * PIXELS_PER_MM].min(axis=1) < 0.5)
    assert len(dark_rows) == LETTER_MM * PIXELS_PER_MM
    assert picture.min() < 0.02
    assert picture.max() == 1.0


def test_linear_light_is_printed_by_the_srgb_curve() -> None:
    """IEC 61966-2-1: half the light is grey value 188, a fifth is 124 (from memory)."""
    greys = printed(np.array([[0.0, 0.2, 0.5, 1.0]]))[0]
    assert greys[0] == 0
    assert greys[3] == 255
    assert abs(int(greys[1]) - 124) <= 2
    assert abs(int(greys[2]) - 188) <= 2


@pytest.mark.parametrize("lens", [(-3.25, -1.25, 172), (-1.0, -1.5, 45), (2.0, -3.0, 120), (-0.5, -0.25, 90)])
@pytest.mark.parametrize("letter_mrad", [8.0, 11.6, 20.0])
def test_the_figure_stays_small_and_its_pictures_can_be_read(
    lens: tuple[float, float, float], letter_mrad: float
) -> None:
    from PIL import Image

    drawing = sight(panels=panels(*lens), pupil_mm=4.0, letter_height_mrad=letter_mrad)
    assert len(drawing.svg) < 60_000
    found = re.findall(rb'"data:image/png;base64,([A-Za-z0-9+/=]+)"', drawing.svg)
    assert len(found) == 4
    pictures = [np.asarray(Image.open(io.BytesIO(base64.b64decode(data))).convert("L")) for data in found]
    contrasts = [int(picture.max()) - int(picture.min()) for picture in pictures]
    assert contrasts[2] == max(contrasts)
    np.testing.assert_array_equal(pictures[2], printed(raster(PIXELS_PER_MM)))


def test_the_panels_keep_their_order_and_words() -> None:
    drawing = sight(panels=panels(-1, -1, 90), pupil_mm=4, letter_height_mrad=20)
    shown = sorted((label.x_mm, label.key, label.value) for label in drawing.labels)
    assert [(key, value) for _, key, value in shown] == [
        ("nothing", None),
        ("sphere_only", None),
        ("both", None),
        ("turned", 10),
    ]


def test_what_cannot_be_drawn_is_refused() -> None:
    with pytest.raises(RenderError, match="axis"):
        kernel(0, -1.0, None)
    with pytest.raises(OutOfRange):
        kernel(0, pupil=0)
    with pytest.raises(OutOfRange):
        sight(panels=[Panel("both", 0)], pupil_mm=4, letter_height_mrad=0)
    with pytest.raises(RenderError, match="one to four"):
        sight(panels=[], pupil_mm=4, letter_height_mrad=20)
