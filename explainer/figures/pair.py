"""The pair in life size, as someone facing the wearer sees it, and the ruler that proves the size.

One millimetre on paper is one millimetre of the frame. The wearer's right lens is on the left of the page, in every
language. Where the words of the page stand is left open as slots: material, tint, and a prescription under each lens.
"""

from __future__ import annotations

from collections.abc import Sequence

from explainer.figures.drawing import Drawing
from explainer.figures.front.drawn import Place, draw_frame, draw_lenses, draw_seen_through
from explainer.figures.front.pair import Pair, pair_of
from explainer.figures.front.zones import Zones, draw_zones, label_zones
from explainer.figures.look import FINE_PT, GLASS, PAPER, SECOND, fill, pen
from explainer.figures.paths import Point, circle
from explainer.figures.style import ACCENT, Canvas
from explainer.figures.tones import tone

WIDTH_MM = 180.0
WORDS_MM, GAP_MM, FOOT_MM = 10.6, 5.0, 1.0  # two lines of words, then a gap down to the frame; below the frame
BARE_HEAD_MM = 1.0
DARK_PERCENT = 35.0
RULE_MM, RULE_WIDE_MM, RULE_HIGH_MM = 50.0, 80.0, 5.0


def pair(
    *,
    right: Sequence[Point],
    left: Sequence[Point],
    dbl_mm: float,
    kind: str | None = None,
    percent: float | None = None,
    colour: str = "grey",
    zones: Zones | None = None,
    words: bool = True,
    accent: str = ACCENT,
) -> Drawing:
    """Both lenses to their outlines, `dbl_mm` apart, in a frame of that kind.

    `percent` is the light let through by a fixed tint of that colour, which fills the lenses in its true shade. `zones`
    shows where a bifocal or progressive lens is looked through. Without `words` there are no leaders.
    """
    glasses = pair_of(right, left, dbl_mm, kind)
    head = WORDS_MM + GAP_MM if words else BARE_HEAD_MM
    canvas = Canvas("pair", WIDTH_MM, head + glasses.top_mm - glasses.bottom_mm + FOOT_MM, accent)
    place = Place(WIDTH_MM / 2, head + glasses.top_mm)
    tones = (GLASS if percent is None else tone(percent, colour),) * 2
    draw_lenses(canvas, glasses, place, tones)
    if zones is None:
        draw_seen_through(canvas, glasses, place, tones)
    else:
        draw_zones(canvas, glasses, place, Zones(*zones))
    draw_frame(canvas, glasses, place)
    if zones is not None:
        label_zones(canvas, glasses, place, Zones(*zones))
    if words:
        _leaders(canvas, glasses, place, dark=percent is not None and percent < DARK_PERCENT)
    _sides(canvas, glasses, place)
    return canvas.drawing()


def _leaders(canvas: Canvas, glasses: Pair, place: Place, *, dark: bool) -> None:
    """A line under each label on top, that drops into the lens beside it; on a dark lens its end is pale."""
    for turn, key in ((-1, "slot_material"), (1, "slot_tint")):
        xs, ys = zip(*glasses.lens(turn), strict=True)
        spot = place.at((turn * (abs(min(xs, key=abs)) + 0.62 * (max(xs) - min(xs))), 0.62 * max(ys)))
        edge = 0.0 if turn < 0 else WIDTH_MM
        thin = pen(SECOND, FINE_PT)
        canvas.line((edge, WORDS_MM), (spot[0], WORDS_MM), spot, pen=thin)
        if dark:
            canvas.line((spot[0], place.at((0, max(ys)))[1]), spot, pen=pen(PAPER, FINE_PT))
        canvas.add(circle(spot, 0.8), fill(PAPER if dark else SECOND))
        canvas.slot((edge, 0.0), key, anchor="start" if turn < 0 else "end", width_mm=WIDTH_MM / 2 - 2)


def _sides(canvas: Canvas, glasses: Pair, place: Place) -> None:
    """Which eye is which beside the frame, and the slots for what is written under each lens."""
    level = place.at((0, -0.3 * max(y for _, y in glasses.right)))[1]
    for turn, eye in ((-1, "right"), (1, "left")):
        outer = abs(max((x for x, _ in glasses.lens(turn)), key=abs)) + glasses.kind.rim_mm
        room = WIDTH_MM / 2 - outer
        beside = WIDTH_MM / 2 + turn * (outer + max(room / 2, 6.5))
        canvas.label((beside, level), f"eye_{eye}", strong=True, width_mm=min(room, 20.0))
        middle = place.at((turn * (glasses.dbl_mm + _wide(glasses, turn)) / 2, 0))[0]
        canvas.slot(
            (middle, canvas.height_mm),
            f"slot_under_{eye}",
            width_mm=min(2 * (middle if turn < 0 else WIDTH_MM - middle), 84.0),
        )


def _wide(glasses: Pair, turn: int) -> float:
    xs = [x for x, _ in glasses.lens(turn)]
    return max(xs) - min(xs)


def rule(*, accent: str = ACCENT) -> Drawing:
    """Fifty millimetres with a tick every five, to be checked with a ruler."""
    canvas = Canvas("rule", RULE_WIDE_MM, RULE_HIGH_MM, accent)
    start, level = (RULE_WIDE_MM - RULE_MM) / 2, RULE_HIGH_MM - 1.2
    end = start + RULE_MM
    canvas.line((start, level), (end, level), pen=pen(width_pt=0.8), name="rule")
    for step in range(11):
        x, high = start + step * RULE_MM / 10, 2.2 if step % 2 == 0 else 1.2
        canvas.line((x, level), (x, level - high), pen=pen(width_pt=0.8))
    canvas.label((start - 1.6, level - 1.0), "rule_zero", 0, anchor="end")
    canvas.label((end + 1.6, level - 1.0), "rule_end", RULE_MM, unit="mm", anchor="start")
    return canvas.drawing()
