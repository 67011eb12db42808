"""Claims about the tint: its kind, how much light it lets through where, how fast it changes, and the car."""

from __future__ import annotations

from explainer.optics import facts
from explainer.optics.claims.ledger import FACT, Ledger
from explainer.optics.claims.working import Plain, Ref, Working, formula_name, high, low
from explainer.optics.formulas import tint
from explainer.optics.formulas.reactive import ReactiveClass, is_reactive
from explainer.optics.light.bands import Band
from explainer.optics.light.views import reactive_bands
from explainer.optics.spectacles import LensChoice, LensData, Spectacles

_TEMPERATURES = ("cold", "mild", "hot")
_CLEAR = "lens.data.clear_percent"


def issue(ledger: Ledger, spectacles: Spectacles) -> None:
    """Nothing when no tint was given."""
    lens = spectacles.lens
    if lens.tint is None:
        return
    ledger.ordered("tint.class", lens.tint)
    ledger.fact("tint.night_limit", "light.night_driving_limit")
    ledger.fact("tint.day_limit", "light.day_driving_limit")
    for name in _TEMPERATURES:
        ledger.fact(f"tint.temperature.{name}", f"rules.temperature.{name}")
    if lens.tint != "clear":
        ledger.fact("tint.category.lowest", "light.category.0", value=0)
        ledger.fact("tint.category.highest", "light.category.4", value=4)
    ledger.fact("car.windscreen.uva_blocked", "light.windscreen.uva_blocked.range")
    ledger.fact("car.windscreen.light", "light.windscreen.light.minimum")
    if is_reactive(lens.tint):
        _reactive(ledger, lens.tint, lens)
    elif lens.tint_percent is not None or lens.tint_category is not None:
        _fixed(ledger, lens)
    else:
        # Clear spectacles are of the clearest category; a tint that nobody described counts as dark at night.
        lightness = low(f"{FACT}light.category.0") if lens.tint == "clear" else None
        _by_night(ledger, _part(ledger, lightness) if lightness else Plain(0.0))


def _reactive(ledger: Ledger, kind: ReactiveClass, lens: LensChoice) -> None:
    """What the dye needs is stated only where the order says what kind it is."""
    data = lens.supplied
    if kind == "photochromic" and lens.dye == "ultraviolet":
        ledger.fact("tint.needs_uv", "light.dye.needs_ultraviolet", value=True)
    elif kind == "photochromic-visible":
        ledger.fact("tint.reacts_to_violet", "light.activation.visible_peak", value=True)
    ledger.fact("tint.cold_darker", "light.dye.in_the_cold", value=True)
    ledger.fact("tint.cold_fade_ratio", "light.dye.cold_fade_ratio")
    ledger.fact("tint.tail", "light.dye.two_speeds", value=True)
    ledger.fact("drive.visor", "light.visor.photochromic", value=True)
    ledger.fact("car.not_measured", "light.in_car.not_measured", value=True)
    ledger.fact("car.side.uva_blocked", "light.side_window.uva_blocked.range")
    _supplied(ledger, data)
    supplied = supplied_refs(data)
    for name in _TEMPERATURES:
        at = f"tint.temperature.{name}"
        for claim_id, band in reactive_bands(kind, data.of_light(), ledger.number(at)).items():
            issue_band(ledger, claim_id, band, at, supplied)
    _reactive_driving(ledger)


def _supplied(ledger: Ledger, data: LensData) -> None:
    """The workshop's own data of the lens as claims."""
    for name in ("clear_percent", "darken_half_s", "fade_half_s"):
        value = getattr(data, name)
        if value is not None:
            ledger.supplied(f"lens.data.{name}", value)
    for celsius, dark in data.dark_percent_by_celsius:
        ledger.supplied(f"lens.data.dark.{celsius:g}", dark)


def supplied_refs(data: LensData) -> dict[str, tuple[str, ...]]:
    """The claims of the workshop's own data, by the field they come from."""
    single = ("clear_percent", "darken_half_s", "fade_half_s")
    found = {name: (f"lens.data.{name}",) for name in single if getattr(data, name) is not None}
    darks = tuple(f"lens.data.dark.{celsius:g}" for celsius, _ in data.dark_percent_by_celsius)
    return {**found, "dark_percent_by_celsius": darks}


def issue_band(ledger: Ledger, claim_id: str, band: Band, at: str, supplied: dict[str, tuple[str, ...]]) -> None:
    """One band of the model of light, which brings what it was worked out from. A time never reached has no range."""
    if band.interval is None:
        return
    if band.formula is None:
        ledger.supplied(claim_id, band.interval)
        return
    known = (ref for name in band.supplied for ref in supplied[name])
    inputs = (at, *(FACT + name for name in band.facts), *known)
    ledger.part(claim_id, Working((band.interval,), formula_name(band.formula), inputs))


def _reactive_driving(ledger: Ledger) -> None:
    """By day not when darkest: the darkest lenses on record are too dark for the road; by night once cleared.

    This rests on published figures and not on the computed bands, because a permission must not rest on memory. The
    lens counts as clear enough at night, once cleared, unless the workshop's own figure says otherwise.
    """
    _by_day(ledger, _part(ledger, low(f"{FACT}light.photochromic.dark.claimed")))
    _by_night(ledger, _part(ledger, _CLEAR) if _CLEAR in ledger else Plain(1.0))


def _fixed(ledger: Ledger, lens: LensChoice) -> None:
    """A category is a band: by night it passes only where its darkest end passes; by day its lightest end decides."""
    if lens.tint_category is not None:
        ledger.ordered("tint.category", lens.tint_category)
    if lens.tint_percent is not None:
        light = ledger.supplied("tint.transmittance", lens.tint_percent).id
        if lens.tint_category is None:
            _category(ledger, light)
    else:
        light = ledger.fact("tint.category.light", f"light.category.{lens.tint_category}").id
    _by_day(ledger, _part(ledger, high(light)))
    _by_night(ledger, _part(ledger, low(light)))
    ledger.compute(
        "tint.windscreen.light.with_glass",
        tint.through_both,
        scale=100,
        lens=_part(ledger, light),
        glass=_part(ledger, f"{FACT}light.windscreen.light.range"),
    )


def _category(ledger: Ledger, light: str) -> None:
    """The category of a light given in percent; a filter darker than the last has none."""
    names = [f"{FACT}light.category.{number}" for number in range(5)]
    found = ledger.work(
        tint.category,
        transmittance=_part(ledger, light),
        upper_bounds=[_part(ledger, high(name)) for name in names],
        darkest=_part(ledger, low(names[-1])),
    )
    if found.result is not None:
        ledger.part("tint.category", found)


def _by_day(ledger: Ledger, light: Ref) -> None:
    enough = ledger.work(tint.drives_by_day, transmittance=light, darkest=_part(ledger, "tint.day_limit"))
    ledger.compute("drive.day", tint.day_verdict, light_enough=enough, tint="tint.class")


def _by_night(ledger: Ledger, light: Ref) -> None:
    enough = ledger.work(tint.drives_by_night, transmittance=light, lightest=_part(ledger, "tint.night_limit"))
    ledger.compute("drive.night", tint.night_verdict, light_enough=enough, tint="tint.class")


def _part(ledger: Ledger, percent: Ref) -> Working:
    return ledger.work(tint.part_of_hundred, percent=percent)


def temperatures() -> tuple[float, ...]:
    """The lens temperatures [degrees Celsius] for which a leaflet states the tint: cold, mild, hot."""
    return tuple(facts.number(f"rules.temperature.{name}") for name in _TEMPERATURES)
