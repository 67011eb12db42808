"""The workshop file: who made the spectacles, what the shop says in its own words, and what it knows of its lenses."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from types import MappingProxyType
from typing import Annotated, Any, Literal

from pydantic import Field

from explainer.errors import Fault, InputError
from explainer.optics.rules import BenchRules
from explainer.optics.spectacles import LensData
from explainer.orders.shop.colour import LEAST_CONTRAST, contrast_on_white, darkened
from explainer.orders.shop.export import ExportTable
from explainer.orders.shop.limits import read_limits
from explainer.orders.shop.logo import checked_logo
from explainer.orders.values.field_types import (
    Colour,
    Country,
    Email,
    FileName,
    Language,
    Line,
    PageAddress,
    Paragraph,
    ShortLine,
    ShownName,
    Strict,
)
from explainer.orders.values.files import read_toml
from explainer.orders.values.validate import validated
from explainer.places import is_folder, is_plain_file, real

Paper = Literal["A4", "Letter"]
WORKSHOP_FILE = "workshop.toml"
_Percent = Annotated[float, Field(gt=0, le=100)]


class LensTable(Strict):
    """What the workshop knows of one of its lenses; what is given replaces the generic figure."""

    front_curve_d: Annotated[float, Field(ge=0, le=20)] | None = None
    minimum_centre_mm: Annotated[float, Field(ge=0.3, le=10)] | None = None
    minimum_edge_mm: Annotated[float, Field(ge=0.3, le=10)] | None = None
    clear_percent: _Percent | None = None
    dark_percent: dict[Literal["5", "23", "35"], _Percent] = Field(
        default_factory=dict, description="luminous transmittance of the darkened lens by degrees Celsius"
    )
    darken_half_s: Annotated[float, Field(gt=0, le=3600)] | None = None
    fade_half_s: Annotated[float, Field(gt=0, le=7200)] | None = None


class RulesTable(Strict):
    """How the workshop judges finished pairs."""

    bench: Annotated[
        Literal["required", "optional"],
        Field(description='"required": an order without readings of both lenses is refused'),
    ] = "optional"
    standard: Annotated[
        Literal["ansi-z80-1-2015", "new-jersey"], Field(description="the table that readings are held against")
    ] = "ansi-z80-1-2015"
    limits: Annotated[
        FileName | None, Field(description="a file with the limits of the workshop's own copy of a standard")
    ] = None


LegalProfile = Literal["eu", "uk", "us"]


class WorkshopFile(Strict):
    """The workshop file as TOML."""

    name: ShownName
    address: Paragraph | None = None
    phone: ShortLine | None = None
    email: Email | None = None
    country: Country | None = None
    language: Language | None = None
    paper: Paper | None = None
    accent: Colour | None = None
    logo: FileName | None = None
    urgent_help: Paragraph | None = None
    emergency: Paragraph | None = None
    legal_profile: LegalProfile | None = None
    returns: Paragraph | None = None
    adjustments: Paragraph | None = None
    opening_hours: Paragraph | None = None
    recheck_days: Annotated[int, Field(ge=1, le=365, description="how long the free check lasts")] | None = None
    delivery_days: Annotated[int, Field(ge=0, le=60, description="how long a parcel may take")] | None = None
    signer: Annotated[Line | None, Field(description="who answers for the pair: name, qualification")] = None
    supervisor: Annotated[Line | None, Field(description="under whose supervision it is dispensed")] = None
    mail_greeting: Paragraph | None = None
    mail_opening: Paragraph | None = None
    mail_closing: Paragraph | None = None
    house_wording: FileName | None = None
    parcel: list[Literal["leaflet", "first-sheet", "sheet", "card", "label", "tag", "page"]] = Field(
        default_factory=list, description="what `make` makes for each order, if not the leaflet alone"
    )
    pages_at: Annotated[PageAddress | None, Field(description="where phone pages stand; {page} for the name")] = None
    label: Annotated[ShortLine | None, Field(description="size of the parcel labels, such as 89x36 or A4-14")] = None
    export: Annotated[ExportTable | None, Field(description="how the shop's own table of orders is read")] = None
    rules: RulesTable = RulesTable()
    lenses: dict[ShortLine, LensTable] = Field(default_factory=dict, max_length=200)


@dataclass(frozen=True, slots=True, kw_only=True)
class Workshop:
    """The workshop as the documents use it. Paths are checked and absolute; texts are the shop's own words."""

    name: str
    address: str | None = None
    phone: str | None = None
    email: str | None = None
    country: str | None = None
    language: str | None = None
    paper: Paper | None = None
    accent: str | None = None
    logo: Path | None = None
    urgent_help: str | None = None
    emergency: str | None = None
    legal_profile: LegalProfile | None = None
    returns: str | None = None
    adjustments: str | None = None
    opening_hours: str | None = None
    recheck_days: int | None = None
    delivery_days: int | None = None
    signer: str | None = None
    supervisor: str | None = None
    mail_greeting: str | None = None
    mail_opening: str | None = None
    mail_closing: str | None = None
    house_wording: Path | None = None
    parcel: tuple[str, ...] = ()
    pages_at: str | None = None
    label: str | None = None
    export: ExportTable | None = None
    bench_rules: BenchRules = field(default_factory=BenchRules)
    lenses: Mapping[str, LensData] = field(default_factory=lambda: MappingProxyType({}))
    source: str = ""


def find_workshop(order: Path) -> Path | None:
    """The workshop file beside the order, or one folder up."""
    beside = order.absolute().parent
    candidates = (beside / WORKSHOP_FILE, beside.parent / WORKSHOP_FILE)
    return next((path for path in candidates if is_plain_file(path)), None)


def read_workshop(path: Path) -> Workshop:
    """Read a workshop file, or raise InputError with every fault in it."""
    faults: list[Fault] = []
    model = validated(WorkshopFile, read_toml(path), faults)
    if model is None:
        raise InputError(str(path), faults)  # with faults, a model serves only to find the rest of them
    folder = real(path).parent
    logo = checked_logo(folder, model.logo, faults) if model.logo else None
    wording = folder / model.house_wording if model.house_wording else None
    if wording and not (is_folder(wording) and real(wording).is_relative_to(folder)):
        faults.append(Fault("house_wording", "no such folder", "a folder beside the workshop file"))
    if model.accent and contrast_on_white(model.accent) < LEAST_CONTRAST:
        found = f"a contrast of {contrast_on_white(model.accent):.1f} on white"
        faults.append(Fault("accent", found, f"at least {LEAST_CONTRAST:g}, such as {darkened(model.accent)}"))
    own = read_limits(folder / model.rules.limits, faults) if model.rules.limits else None
    if faults:
        raise InputError(str(path), faults)
    dropped = {"logo", "house_wording", "lenses", "export", "parcel", "rules"}
    plain: dict[str, Any] = model.model_dump(exclude=dropped)
    lenses = MappingProxyType({name: lens_data(table) for name, table in model.lenses.items()})
    rules = BenchRules(standard=model.rules.standard, own=own, required=model.rules.bench == "required")
    return Workshop(
        **plain,
        logo=logo,
        house_wording=wording,
        parcel=tuple(model.parcel),
        bench_rules=rules,
        export=model.export,
        lenses=lenses,
        source=str(path),
    )


def lens_data(table: LensTable) -> LensData:
    """One lens of the workshop in the core's terms."""
    return LensData(
        front_curve_d=table.front_curve_d,
        minimum_centre_mm=table.minimum_centre_mm,
        minimum_edge_mm=table.minimum_edge_mm,
        clear_percent=table.clear_percent,
        dark_percent_by_celsius=tuple(sorted((float(celsius), dark) for celsius, dark in table.dark_percent.items())),
        darken_half_s=table.darken_half_s,
        fade_half_s=table.fade_half_s,
    )
