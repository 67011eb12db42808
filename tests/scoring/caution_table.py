"""Which cautions an order calls for, by the order alone; and the words that each caution has in the templates."""

from __future__ import annotations

import math
import re
from functools import cache

from scoring import eyes

from explainer.optics.spectacles import SIDES, Eye, LensChoice, Spectacles
from explainer.render.language import Language
from explainer.resources import root

# The limits and where they are from: 75 % by night, 8 % by day (filter categories of BS EN ISO 12312-1, as in the
# College of Optometrists' guidance on tints); 0.75 D of change and 2 D between the eyes as in facts/advice.toml; 1.5
# prism dioptres of upright imbalance (slab-off, common practice); a slanting change of 0.50 D (ours).
NIGHT_PERCENT, DAY_PERCENT = 75.0, 8.0
CHANGE_D, OBLIQUE_D, UNEQUAL_D, UPRIGHT_PD, CHILD_YEARS = 0.75, 0.5, 2.0, 1.5, 16
DARKEST_OF_CATEGORY = {0: 80.0, 1: 43.0, 2: 18.0, 3: 8.0, 4: 3.0}
_CALL = re.compile(
    r"caution\('caution\.(\w+)',\s*'(\w+)'\)\s*\+?-?%\}\s*\{%-?\s*trans[^%]*%\}(.*?)\{%-?\s*endtrans", re.DOTALL
)


def called_for(spectacles: Spectacles) -> tuple[set[str], set[str]]:
    """The cautions that must fire, and those that may."""
    must, may = _tint(spectacles.lens)
    wearer, lens = spectacles.wearer, spectacles.lens
    two_eyes = wearer.only_seeing_eye is None
    conditions = {
        "not_protective": True,
        "sun": lens.tint not in (None, "clear"),
        "near_only": lens.design == "reading",
        "stairs": lens.design in ("progressive", "bifocal"),
        "prism": two_eyes and any(eye.prism_in_pd or eye.prism_up_pd for eye in _eyes(spectacles)),
        "child": wearer.age_years is not None and wearer.age_years < CHILD_YEARS,
        "one_eye": wearer.only_seeing_eye is not None,
        "glass": lens.material == "crown-glass",
        "big_change": lens.design != "reading" and _changed_much(spectacles),
        "unequal": two_eyes and _unequal(spectacles),
    }
    return must | {name for name, holds in conditions.items() if holds}, may


def _eyes(spectacles: Spectacles) -> list[Eye]:
    return [spectacles.prescription.eye(side) for side in SIDES]


def _tint(lens: LensChoice) -> tuple[set[str], set[str]]:
    if lens.tint == "fixed":
        percent = lens.tint_percent
        if percent is None and lens.tint_category is not None:
            percent = DARKEST_OF_CATEGORY[lens.tint_category]
        if percent is not None and percent < DAY_PERCENT:
            return {"too_dark"}, {"fixed_dark"}
        return ({"fixed_dark"}, set()) if percent is None or percent < NIGHT_PERCENT else (set(), set())
    if lens.tint in ("photochromic", "photochromic-visible"):
        clear = lens.supplied.clear_percent
        night = "night_tint" if clear is None or clear >= NIGHT_PERCENT else "fixed_dark"
        dark = dict(lens.supplied.dark_percent_by_celsius)
        if not dark or min(dark.values()) < DAY_PERCENT:
            return {night, "cold_tint"}, set()
        return {night}, {"cold_tint"}  # by how dark the sun on snow makes them, which the order does not say
    return set(), set()


def _changed_much(spectacles: Spectacles) -> bool:
    before = spectacles.previous
    if before is None:
        return False
    changes = [eyes.change(before.eye(side), spectacles.prescription.eye(side)) for side in SIDES]
    return any(length > CHANGE_D or slant >= OBLIQUE_D - 1e-9 for length, slant in changes)


def _unequal(spectacles: Spectacles) -> bool:
    """By the mean power, or by the upright prism a centimetre below the centres (Prentice's rule)."""
    right, left = _eyes(spectacles)
    mean = abs(eyes.vector(eyes.received(right))[0] - eyes.vector(eyes.received(left))[0])
    upright = abs(_upright_power(right) - _upright_power(left))
    return mean >= UNEQUAL_D or upright >= UPRIGHT_PD


def _upright_power(eye: Eye) -> float:
    """Power in the vertical meridian: sphere and the part of the cylinder that works there."""
    return eye.sphere_d + eye.cylinder_d * math.cos(math.radians(eye.axis_deg or 0.0)) ** 2


@cache
def words(spoken: Language) -> dict[str, tuple[str, re.Pattern[str]]]:
    """Signal word and text of each caution as the reader sees them, from the template and the catalogue."""
    found = {}
    template = (root("templates") / "sections" / "cautions.md").read_text(encoding="utf-8")
    for name, signal, text in _CALL.findall(template):
        message = re.sub(r"\{\{\s*(\w+)\s*\}\}", r"%(\1)s", " ".join(text.split()))
        said = spoken.gettext(message).replace("**", "")
        parts = [r"\s*".join(map(re.escape, part.split())) for part in re.split(r"%\(\w+\)s", said)]
        other = f"{found[name][1].pattern}|" if name in found else ""  # some lenses have words of their own
        found[name] = (signal, re.compile(other + r".+?".join(parts)))
    return found
