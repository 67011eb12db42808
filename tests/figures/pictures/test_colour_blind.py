"""What carries meaning is told by lightness, in grey print and with each kind of colour blindness.

Colour blindness by the matrices of Machado, Oliveira and Fernandes (2009), as colour-science holds them; contrast as in
WCAG 2.2, 1.4.11: 3 to 1 for parts of pictures.
"""

from __future__ import annotations

import warnings
from itertools import pairwise

import pytest

from explainer.figures.look import GLASS, HELP, INK, MIST, PANEL, PAPER, SECOND, STRUCTURE
from explainer.figures.tones import tone

LINES = (INK, SECOND, STRUCTURE, HELP)
GROUNDS = (PAPER, PANEL, GLASS, MIST)
KINDS = ("grey", "Protanomaly", "Deuteranomaly", "Tritanomaly")


def luminance(colour: str, kind: str) -> float:
    """Relative luminance of the colour as that eye sees it."""
    import colour as science
    import numpy as np

    linear = science.cctf_decoding([int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)], function="sRGB")
    if kind != "grey":
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # the library says that tritanomaly is the roughest of the three
            matrix = science.matrix_cvd_Machado2009(kind, 1.0)
        linear = np.clip(matrix @ linear, 0, 1)
    return float(np.dot([0.2126, 0.7152, 0.0722], linear))


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("ground", GROUNDS)
@pytest.mark.parametrize("line", LINES)
def test_lines_stand_out_from_every_ground(line: str, ground: str, kind: str) -> None:
    dark, pale = sorted((luminance(line, kind), luminance(ground, kind)))
    assert (pale + 0.05) / (dark + 0.05) >= 3


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("hue", ["grey", "brown", "green", "blue", "rose"])
def test_the_five_categories_stay_in_order(hue: str, kind: str) -> None:
    """The middles of the categories of ISO 12312-1, from clear to very dark."""
    seen = [luminance(tone(percent, hue), kind) for percent in (90, 61.5, 30.5, 13, 5.5)]
    assert all(darker < 0.75 * lighter for lighter, darker in pairwise(seen))
