"""Claims about the tint: its kind, how much light it lets through where, how fast it changes, and the car."""

from __future__ import annotations

from explainer.optics import facts
from explainer.optics.claim import Interval
from explainer.optics.claims.ledger import FACT, Ledger
from explainer.optics.formulas import tint
from explainer.optics.light.bands import Band, darken_half_time, fade_time, transmittance
from explainer.optics.light.daylight import PLACES
from explainer.optics.light.rules import category, driving_by_night
from explainer.optics.spectacles import LensChoice, Spectacles

REACTIVE = ("photochromic", "photochromic-visible")
_NIGHT, _DARKEST = "light.night_driving_limit", "light.day_driving_limit"
_TEMPERATURES = ("cold", "mild", "hot")


def issue(ledger: Ledger, spectacles: Spectacles) -> None:
    """Nothing when no tint was given."""
    lens = spectacles.lens
    if lens.tint is None:
        return
    ledger.ordered("tint.class", lens.tint)
    ledger.fact("tint.night_limit", _NIGHT)
    ledger.fact("tint.day_limit", _DARKEST)
    for name in _TEMPERATURES:
        ledger.fact(f"tint.temperature.{name}", f"rules.temperature.{name}")
    if lens.tint != "clear":
        ledger.fact("tint.category.lowest", "light.category.0", value=0)
        ledger.fact("tint.category.highest", "light.category.4", value=4)
    _windscreen(ledger)
    if lens.tint in REACTIVE:
        _reactive(ledger, lens)
    else:
        _unchanging(ledger, lens)


def _reactive(ledger: Ledger, lens: LensChoice) -> None:
    if lens.tint == "photochromic":
        ledger.fact("tint.needs_uv", "light.dye.needs_ultraviolet", value=True)
    else:
        ledger.fact("tint.reacts_to_violet", "light.activation.visible_peak", value=True)
    ledger.fact("tint.cold_darker", "light.dye.in_the_cold", value=True)
    ledger.fact("tint.cold_fade_ratio", "light.dye.cold_fade_ratio")
    ledger.fact("tint.tail", "light.dye.two_speeds", value=True)
    ledger.fact("drive.visor", "light.visor.photochromic", value=True)
    ledger.fact("car.not_measured", "light.in_car.not_measured", value=True)
    ledger.fact("car.side.uva_blocked", "light.side_window.uva_blocked.range")
    for celsius in temperatures():
        for place in PLACES:
            band = transmittance(lens, place=place, celsius=celsius)
            _band(ledger, f"tint.{place}.{celsius:g}.transmittance", band)
        for limit, name in ((75.0, "to_75"), (80.0, "to_80")):
            _time(ledger, f"tint.fade.{celsius:g}.{name}", fade_time(lens, celsius=celsius, to_percent=limit))
        _time(ledger, f"tint.darken.{celsius:g}.half", darken_half_time(lens, celsius=celsius))
    _reactive_driving(ledger, lens)


def _reactive_driving(ledger: Ledger, lens: LensChoice) -> None:
    """By day not when darkest: the darkest lenses on record are too dark for the road; by night once cleared.

    This rests on published figures and not on the computed bands, because a permission must not rest on memory.
    """
    on_record = f"{FACT}light.photochromic.dark.claimed"
    darkest = facts.get("light.photochromic.dark.claimed").interval.low
    day = tint.drives_by_day(transmittance=darkest / 100, darkest=facts.number(_DARKEST) / 100)
    verdict = "yes" if day else "not-when-darkest"
    ledger.derived("drive.day", verdict, tint.drives_by_day, ("tint.class", on_record, FACT + _DARKEST))
    clear = "lens.data.clear_percent"
    inputs = ("tint.class", "tint.night_limit", *((clear,) if clear in ledger else ()))
    ledger.derived("drive.night", driving_by_night(lens), driving_by_night, inputs)


def _unchanging(ledger: Ledger, lens: LensChoice) -> None:
    known = lens.tint == "fixed" and (lens.tint_percent is not None or lens.tint_category is not None)
    if not known:
        _unknown_or_clear(ledger, lens)
        return
    if lens.tint_percent is not None:
        ledger.supplied("tint.transmittance", lens.tint_percent)
        light, source = Interval(lens.tint_percent, lens.tint_percent), "tint.transmittance"
        number = lens.tint_category
        if number is None:
            number = category(lens.tint_percent)
        if number is not None:
            ids = tuple(f"{FACT}light.category.{i}" for i in range(5))
            ledger.derived("tint.category", number, tint.category, (source, *ids))
    else:
        ledger.ordered("tint.category", lens.tint_category or 0)
        source = "tint.category"
        ledger.fact("tint.category.light", f"light.category.{lens.tint_category or 0}")
        light = facts.get(f"light.category.{lens.tint_category or 0}").interval
    _fixed_driving(ledger, light, source)


def _fixed_driving(ledger: Ledger, light: Interval, source: str) -> None:
    """A category is a band: it passes only where its darkest end passes."""
    by_day = tint.drives_by_day(transmittance=light.high / 100, darkest=facts.number(_DARKEST) / 100)
    by_night = tint.drives_by_night(transmittance=light.low / 100, lightest=facts.number(_NIGHT) / 100)
    ledger.derived("drive.day", "yes" if by_day else "no", tint.drives_by_day, (source, FACT + _DARKEST))
    ledger.derived("drive.night", "yes" if by_night else "no", tint.drives_by_night, (source, "tint.night_limit"))
    glass = facts.get("light.windscreen.light.range").interval
    both = Interval(
        100 * tint.through_both(lens=light.low / 100, glass=glass.low / 100),
        100 * tint.through_both(lens=light.high / 100, glass=glass.high / 100),
    )
    inputs = (source, f"{FACT}light.windscreen.light.range")
    ledger.derived("tint.windscreen.light.with_glass", both, tint.through_both, inputs)


def _unknown_or_clear(ledger: Ledger, lens: LensChoice) -> None:
    """Clear lenses drive at any hour; a fixed tint that nobody described counts as dark at night."""
    verdict = "yes" if lens.tint == "clear" else "no"
    ledger.derived("drive.night", verdict, tint.drives_by_night, ("tint.class", "tint.night_limit"))


def temperatures() -> tuple[float, ...]:
    """The lens temperatures [degrees Celsius] for which a leaflet states the tint: cold, mild, hot."""
    return tuple(facts.number(f"rules.temperature.{name}") for name in _TEMPERATURES)


def _windscreen(ledger: Ledger) -> None:
    ledger.fact("car.windscreen.uva_blocked", "light.windscreen.uva_blocked.range")
    ledger.fact("car.windscreen.light", "light.windscreen.light.minimum")


def _time(ledger: Ledger, claim_id: str, band: Band | None) -> None:
    """A time that some lens of the band never reaches has no range, and is not stated."""
    if band is not None and band.interval is not None:
        _band(ledger, claim_id, band)


def _band(ledger: Ledger, claim_id: str, band: Band) -> None:
    assert band.interval is not None
    inputs = tuple(FACT + name for name in band.facts)
    for name in band.supplied:
        if f"lens.data.{name}" not in ledger:
            ledger.supplied(f"lens.data.{name}", True)
    inputs += tuple(f"lens.data.{name}" for name in band.supplied)
    if band.formula is None:
        ledger.supplied(claim_id, band.interval)
    else:
        ledger.derived(claim_id, band.interval, band.formula, inputs)
