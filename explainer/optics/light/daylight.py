"""The places of a leaflet, and the daylight in front of the lens there (before any car glass)."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from typing import Literal, get_args

from explainer.errors import FactError
from explainer.optics.facts import spectra
from explainer.optics.formulas import sky
from explainer.optics.formulas.spectrum import Spectrum
from explainer.optics.light.assumptions import Assumption, Looked, from_facts

Place = Literal[
    "bench",
    "summer_noon",
    "open_shade",
    "overcast",
    "snow",
    "windscreen_low_sun",
    "windscreen_shaded",
    "side_window_clear",
    "side_window_green",
    "convertible",
]
PLACES: tuple[Place, ...] = get_args(Place)


@dataclass(frozen=True, slots=True)
class Daylight:
    """The light of one place: its assumptions, the spectrum for one value of each, the settled facts behind."""

    assumptions: tuple[Assumption, ...]
    build: Callable[..., Spectrum]
    facts: tuple[str, ...]


@cache
def daylight(place: Place) -> Daylight:
    """The light of a place; FactError when there is no such place."""
    if place not in _BUILDERS:
        raise FactError(f"there is no place {place}")
    return _BUILDERS[place]()


def _bench() -> Daylight:
    return Daylight((), lambda: spectra.load("sky", "bench_direct"), ())


def _sunshine(elevation_fact: str) -> Daylight:
    known = Looked()
    elevation, ground = known.number(elevation_fact), known.part(_GROUND)

    def build(turn_deg: float) -> Spectrum:
        return _in_sun(elevation, turn_deg, ground)

    return Daylight((from_facts("light.place.turn"),), build, known.ids)


def _summer_noon() -> Daylight:
    return _sunshine("light.place.summer_noon.elevation")


def _side_window() -> Daylight:
    return _sunshine("light.place.side_window.elevation")


def _open_shade() -> Daylight:
    return _sky_only("light.place.open_shade")


def _windscreen_shaded() -> Daylight:
    return _sky_only("light.place.windscreen_shaded")


def _overcast() -> Daylight:
    known = Looked()
    elevation, ground = known.number("light.place.overcast.elevation"), known.part(_GROUND)

    def build(cloud_share: float) -> Spectrum:
        direct, diffuse = _clear_sky(elevation)
        return sky.under_cloud(
            direct=direct,
            diffuse=diffuse,
            elevation_deg=elevation,
            cloud_share=cloud_share,
            ground_share=ground,
        )

    return Daylight((from_facts("light.place.overcast.cloud_share"),), build, known.ids)


def _snow() -> Daylight:
    known = Looked()
    elevation = known.number("light.place.snow.elevation")
    ground = from_facts("light.place.snow.ground", scale=0.01)

    def build(turn_deg: float, ground_share: float) -> Spectrum:
        # The sky over snow is brighter too, so each kind of snow has its own computed sky.
        column = "snow_diffuse" if ground_share == ground.usual else "old_snow_diffuse"
        return sky.on_lens(
            direct=spectra.load("sky", "snow_direct"),
            diffuse=spectra.load("sky", column),
            elevation_deg=elevation,
            turn_deg=turn_deg,
            ground_share=ground_share,
        )

    return Daylight((from_facts("light.place.turn"), ground), build, known.ids)


def _low_sun() -> Daylight:
    known = Looked()
    ground = known.part(_GROUND)

    def build(elevation_deg: float) -> Spectrum:
        return _in_sun(elevation_deg, 0.0, ground)

    return Daylight((from_facts("light.place.windscreen_low_sun.elevation"),), build, known.ids)


def _convertible() -> Daylight:
    noon = _summer_noon()

    def build(turn_deg: float, share: float) -> Spectrum:
        outdoors = noon.build(turn_deg)
        return Spectrum(outdoors.wavelength_nm, share * outdoors.values)

    share = from_facts("light.place.convertible.share", scale=0.01)
    return Daylight((*noon.assumptions, share), build, noon.facts)


def _sky_only(base: str) -> Daylight:
    known = Looked()
    elevation = known.number(f"{base}.elevation")

    def build(sky_share: float) -> Spectrum:
        return sky.in_shade(diffuse=_clear_sky(elevation)[1], sky_share=sky_share)

    return Daylight((from_facts(f"{base}.sky_share"),), build, known.ids)


def _in_sun(elevation_deg: float, turn_deg: float, ground_share: float) -> Spectrum:
    direct, diffuse = _clear_sky(elevation_deg)
    return sky.on_lens(
        direct=direct,
        diffuse=diffuse,
        elevation_deg=elevation_deg,
        turn_deg=turn_deg,
        ground_share=ground_share,
    )


def _clear_sky(elevation_deg: float) -> tuple[Spectrum, Spectrum]:
    column = f"sun{elevation_deg:g}"
    return spectra.load("sky", f"{column}_direct"), spectra.load("sky", f"{column}_diffuse")


_GROUND = "light.place.clear_ground"


_BUILDERS: dict[Place, Callable[[], Daylight]] = {
    "bench": _bench,
    "summer_noon": _summer_noon,
    "open_shade": _open_shade,
    "overcast": _overcast,
    "snow": _snow,
    "windscreen_low_sun": _low_sun,
    "windscreen_shaded": _windscreen_shaded,
    "side_window_clear": _side_window,
    "side_window_green": _side_window,
    "convertible": _convertible,
}
