"""The order file: its fields, and what each may hold. Unknown fields are refused, and all faults come at once."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Discriminator, Field, Tag

from explainer.optics.spectacles import Design, Dye, FrameMaterial, Material, Side, TintClass
from explainer.orders.values.field_types import (
    AS_FIELDS,
    AS_TEXT,
    Date,
    FileName,
    Language,
    Line,
    Name,
    Notation,
    OrderNumber,
    Paragraph,
    ShortLine,
    Strict,
    text_or_fields,
    text_or_number,
)

Use = Literal[
    "driving",
    "night-driving",
    "motorcycle",
    "cycling",
    "screen",
    "reading",
    "close-work",
    "outdoors",
    "snow",
    "water",
    "sport",
    "workshop",
]
Coating = Literal[
    "hard",
    "anti-reflection",
    "easy-clean",
    "anti-static",
    "anti-fog",
    "uv-filter",
    "blue-filter",
    "mirror",
    "polarising",
]
TintColour = Literal["grey", "brown", "green", "blue", "yellow", "orange", "rose", "violet"]
Power = Annotated[float, Field(ge=-1000, le=1000, description="dioptres; the number carries its own sign")]


class PrismTable(Strict):
    """A prism: amount in prism dioptres, base as a word or as an angle of 0 to 360 degrees."""

    amount: float
    base: Annotated[
        Annotated[Literal["in", "out", "up", "down"], Tag(AS_TEXT)]
        | Annotated[float, Field(ge=0, le=360), Tag(AS_FIELDS)],
        Discriminator(text_or_number),
    ]


class EyeTable(Strict):
    """One eye in fields instead of written notation."""

    sphere: Power
    cylinder: Power | None = None
    axis: Annotated[float, Field(description="0 to 180 degrees")] | None = None
    add: Power | None = None
    prism: list[PrismTable] = Field(default_factory=list, max_length=4)


EyeField = Annotated[
    Annotated[Notation, Tag(AS_TEXT)] | Annotated[EyeTable, Tag(AS_FIELDS)], Discriminator(text_or_fields)
]


class WearerTable(Strict):
    """Who will wear the spectacles. All optional."""

    name: Name | None = None
    birth_year: Annotated[int, Field(ge=1890, le=2200)] | None = None
    uses: list[Use] = Field(default_factory=list, max_length=12)
    first_pair: bool = False
    only_seeing_eye: Side | None = None
    falls: Annotated[bool, Field(description="has fallen before")] = False
    patching: Annotated[bool, Field(description="a child whose clinic patches an eye")] = False


class PrescriptionTable(Strict):
    """The prescription as received: right and left, or both in `text`, or a FHIR file, or in the job file."""

    written: Date | None = None
    right: EyeField | None = None
    left: EyeField | None = None
    text: Annotated[Notation | None, Field(description="both eyes in one text, each named")] = None
    fhir: FileName | None = None
    add: (
        Annotated[
            Annotated[Notation, Tag(AS_TEXT)] | Annotated[float, Tag(AS_FIELDS)],
            Discriminator(text_or_number),
            Field(description="one reading addition for both eyes"),
        ]
        | None
    ) = None
    vertex_mm: Annotated[float, Field(ge=5, le=30)] | None = None
    confirmed_steps: Annotated[bool, Field(description="odd steps, such as -1.13, are meant")] = False
    written_in: Annotated[Language | None, Field(description="the prescriber's language, if not the order's")] = None
    axis_scale: Annotated[
        Literal["TABO"] | None, Field(description="how an Italian prescription counts the left axis")
    ] = None


class MeasurementsTable(Strict):
    """Pupillary distances and fitting heights in millimetres."""

    pd_mm: Annotated[float, Field(ge=20, le=100)] | None = None
    pd_right_mm: Annotated[float, Field(ge=10, le=50)] | None = None
    pd_left_mm: Annotated[float, Field(ge=10, le=50)] | None = None
    near_pd_mm: Annotated[float, Field(ge=20, le=100)] | None = None
    height_right_mm: Annotated[float, Field(ge=2, le=60)] | None = None
    height_left_mm: Annotated[float, Field(ge=2, le=60)] | None = None


class FrameTable(Strict):
    """The frame by the boxing system in millimetres, or by its trace."""

    a_mm: Annotated[float, Field(ge=20, le=80)] | None = None
    b_mm: Annotated[float, Field(ge=10, le=75)] | None = None
    dbl_mm: Annotated[float, Field(ge=5, le=40)] | None = None
    ed_mm: Annotated[float, Field(ge=20, le=95)] | None = None
    pantoscopic_tilt_deg: Annotated[float, Field(ge=-10, le=25, description="forward tilt as worn")] | None = None
    wrap_deg: Annotated[float, Field(ge=0, le=35, description="face form of each lens as worn")] | None = None
    material: FrameMaterial | None = None
    trace: FileName | None = None
    own: Annotated[bool, Field(description="the customer's own, worn before")] = False


class LensTable(Strict):
    """The lens in generic words; `data` names an entry under [lenses] of the workshop file."""

    design: Design | None = None
    material: Material | None = None
    tint: TintClass | None = None
    tint_colour: TintColour | None = None
    tint_category: Annotated[int, Field(ge=0, le=4)] | None = None
    tint_percent: Annotated[float, Field(gt=0, le=100, description="light let through")] | None = None
    dye: Annotated[Dye | None, Field(description="what a light-reactive lens reacts to")] = None
    balance: Annotated[Side | None, Field(description="the lens that only matches the other")] = None
    coatings: list[Coating] = Field(default_factory=list, max_length=9)
    front_curve_d: Annotated[float, Field(ge=0, le=20)] | None = None
    data: ShortLine | None = None


class ReleaseTable(Strict):
    """The optician's written release of readings outside tolerance."""

    by: Line
    date: Date
    reason: Paragraph


Prisms = Annotated[
    ShortLine,
    Field(description='what the lensmeter showed at the reference point: "2.00 in & 0.25 up", or "0" for none at all'),
]
Distance = Annotated[float, Field(ge=20, le=100)]
Half = Annotated[float, Field(ge=10, le=50)]


class BenchTable(Strict):
    """What was read from the finished pair, in any step. What has no field filled in was not read.

    A sphere alone is a sphere alone: "-2.25 DS", "-2.25 0.00" or cylinder = 0 say that a cylinder was looked for.
    Reference points show the prescribed prism and belong before the pupils; optical centres show no prism.
    """

    right: EyeField | None = None
    left: EyeField | None = None
    prism_right: Prisms | None = None
    prism_left: Prisms | None = None
    reference_points_mm: Annotated[
        Distance | None, Field(description="distance of the two points that show the prescribed prism")
    ] = None
    optical_centres_mm: Annotated[
        Distance | None, Field(description="distance of the two points that show no prism at all")
    ] = None
    pd_mm: Annotated[Distance | None, Field(description="another name of reference_points_mm, from earlier orders")] = (
        None
    )
    reference_point_right_mm: Annotated[
        Half | None, Field(description="from the middle of the bridge to that point or fitting cross")
    ] = None
    reference_point_left_mm: Half | None = None
    height_right_mm: Annotated[
        float | None,
        Field(ge=2, le=60, description="from the lowest rim point up to the point, fitting cross or segment top"),
    ] = None
    height_left_mm: Annotated[float | None, Field(ge=2, le=60)] = None
    centre_thickness_right_mm: Annotated[float, Field(ge=0.3, le=20)] | None = None
    centre_thickness_left_mm: Annotated[float, Field(ge=0.3, le=20)] | None = None
    job: Annotated[
        FileName | None, Field(description="a job file whose inspection values were read from this pair")
    ] = None
    release: ReleaseTable | None = None


class AnswersTable(Strict):
    """The optician's answers to questions that this order raises; an answer to no question is refused."""

    addition: Annotated[
        Literal["left-out"] | None,
        Field(description="the addition is not in these single-vision lenses: the pair is for one distance"),
    ] = None
    category_four: Annotated[
        Literal["never-for-driving"] | None,
        Field(description="this driver has been told that the tint is for no road, and has other glasses for it"),
    ] = None
    glass: Annotated[
        Literal["advised"] | None,
        Field(
            description="a child, or someone with one seeing eye, was advised against glass lenses, and it is on record"
        ),
    ] = None


class PreviousTable(Strict):
    """The prescription worn before, in the same notation."""

    right: EyeField
    left: EyeField
    vertex_mm: Annotated[float, Field(ge=5, le=30)] | None = None
    confirmed_steps: bool = False
    axis_scale: Literal["TABO"] | None = None


class OrderFile(Strict):
    """One order, as TOML or as JSON of the same structure."""

    order: OrderNumber
    date: Date
    posted: Annotated[Date | None, Field(description="when the parcel goes, if not on the order's date")] = None
    language: Language | None = None
    job: Annotated[FileName | None, Field(description="the trade job file of this order")] = None
    prescription: PrescriptionTable = PrescriptionTable()
    wearer: WearerTable = WearerTable()
    measurements: MeasurementsTable = MeasurementsTable()
    frame: FrameTable = FrameTable()
    lens: LensTable = LensTable()
    bench: BenchTable | None = None
    answers: AnswersTable = AnswersTable()
    previous: PreviousTable | None = None
