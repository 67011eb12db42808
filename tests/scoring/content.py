"""Block A of the sheet: what the leaflet says is what was ordered, and nothing else."""

from __future__ import annotations

import re
from collections.abc import Iterator

from known_numbers import known_texts, signed_tokens
from scoring import dial, eyes, words
from scoring.leaflet import Made
from scoring.marks import FULL, Mark, apart, item, worst
from scoring.source import name_of, words_of
from scoring.tables import Cell, by_eye_and_part, named, prescription_table, tables_without

from explainer.optics.claim import Basis
from explainer.optics.spectacles import SIDES, Eye
from explainer.render.labels import BASES

ALWAYS = frozenset("lead first urgent cautions numbers settling-in fit care sources".split())
LABELLED = (Basis.ORDERED, Basis.MEASURED, Basis.COMPUTED)


@item("A1")
def every_number_has_its_origin(made: Made) -> Mark:
    """The numbers of the finished page without those of claims, labels, order, workshop and the fixed list."""
    known = known_texts(made.order, said=list(made.said), explanation=made.explanation, pages=made.pages)
    stray = signed_tokens(made.text) - set().union(*map(signed_tokens, known))
    return worst([f"{number} is from nowhere" for number in sorted(stray)])


@item("A2")
def the_prescription_is_that_of_the_order(made: Made) -> Mark:
    """Read back from the table of the finished page, eye by eye."""
    if made.speech not in words.EYE:
        return apart(f"no words for eyes and parts in {made.speech}")
    table = prescription_table(made.tags, made.speech)
    if table is None:
        return Mark(0, "no table holds the sphere of both eyes")
    found = by_eye_and_part(table, made.speech)
    wrong = [fault for side in SIDES for fault in _eye_faults(made, side, found)]
    wrong += list(_prism_faults(made))
    columns = {side: min(cell.column for cell in found[side, "sphere"]) for side in SIDES}
    rows = {side: min(cell.row for cell in found[side, "sphere"]) for side in SIDES}
    if (columns["right"], rows["right"]) > (columns["left"], rows["left"]):
        wrong.append("the left eye stands before the right one")
    lost, slight = _pd_faults(made)
    return worst([*wrong, *lost], slight)


def _eye_faults(made: Made, side: str, found: dict[tuple[str, str], list[Cell]]) -> Iterator[str]:
    eye = made.order.spectacles.prescription.eye(side)  # type: ignore[arg-type]
    near = eyes.is_for_near(made.order.spectacles)
    forms = [_shown(eyes.received(eye), eye, made), _shown(eyes.made(eye, for_near=near), eye, made)]
    for part in ("sphere", "cylinder", "axis", "add"):
        accepted = [form[part] for form in forms]
        shown = [cell.text for cell in found.get((side, part), [])]
        if not shown and all(each is None for each in accepted):
            continue
        if not any(_is(text, accepted[0]) for text in shown):
            yield f"{side} {part}: the page shows {shown or 'nothing'}, the order says {accepted[0]}"
        for text in shown:
            left_out = made.order.spectacles.lens.design == "single-vision"  # made for one distance, and so ordered
            alone = part == "add" and (near or left_out) and _is(text, None)
            if not alone and not any(_is(text, each) for each in accepted):
                yield f"{side} {part}: {text} is neither as ordered nor as made"


def _shown(power: eyes.Power, eye: Eye, made: Made) -> dict[str, str | None]:
    decimal = words.DECIMAL[made.speech]
    return {
        "sphere": eyes.power_text(power.sphere_d, decimal),
        "cylinder": eyes.power_text(power.cylinder_d, decimal) if power.axis_deg is not None else None,
        "axis": eyes.axis_text(power.axis_deg) if power.axis_deg is not None else None,
        "add": eyes.power_text(eye.add_d, decimal) if eye.add_d is not None else None,
    }


def _is(text: str, expected: str | None) -> bool:
    return not re.search(r"\d", text) if expected is None else text == expected


def _prism_faults(made: Made) -> Iterator[str]:
    cells = [
        (eye, cell.text)
        for table in tables_without(made, "bench")
        for (eye, part), group in by_eye_and_part(table, made.speech).items()
        for cell in group
        if part == "prism"
    ]
    for side in SIDES:
        ordered = [
            made.spoken.gettext(f"%(amount)s base {base}") % {"amount": amount}
            for amount, base in eyes.prism_amounts(
                made.order.spectacles.prescription.eye(side), words.DECIMAL[made.speech]
            )
        ]
        shown = [text for eye, text in cells if eye == side and "Δ" in text]
        yield from (f"{side} prism: no cell says {said}" for said in ordered if said not in shown)
        yield from (f"{side} prism: {text} was not ordered" for text in shown if text not in ordered)


def _pd_faults(made: Made) -> tuple[list[str], list[str]]:
    """The whole distance must be there; each eye's own where it was given."""
    measured = made.order.spectacles.measurements
    halves = [measured.pd_right_mm, measured.pd_left_mm]
    whole = measured.pd_mm if None in halves else sum(value for value in halves if value is not None)
    decimal, unit = words.DECIMAL[made.speech], words.UNITS.get(made.speech, {}).get("mm", "mm")

    def absent(value: float | None) -> bool:
        return value is not None and f"{value:.1f} {unit}".replace(".", decimal) not in made.tag_text

    lost = [f"PD {whole:.1f} mm is not on the page"] if absent(whole) and whole is not None else []
    return lost, [f"PD of one eye, {value:.1f} mm, is not on the page" for value in halves if absent(value)]


@item("A3")
def the_dial_shows_the_axis(made: Made) -> Mark:
    """Read from the lines and labels drawn on the finished page."""
    if not any(made.order.spectacles.prescription.eye(side).cylinder_d for side in SIDES):
        return apart("no cylinder, so no dial")
    return worst(dial.faults(made))


@item("A4")
def every_option_has_its_section(made: Made) -> Mark:
    """Sections against the order; and in English, each ordered coating named somewhere."""
    lens = made.order.spectacles.lens
    tinted = lens.tint not in (None, "clear")
    eyes_ = [made.order.spectacles.prescription.eye(side) for side in SIDES]
    matrix = {
        "direction": any(eye.cylinder_d for eye in eyes_),
        "sight": lens.design != "reading" and any(eye.sphere_d or eye.cylinder_d for eye in eyes_),
        "bench": any(
            reading is not None and None not in (reading.sphere_d, reading.cylinder_d)
            for reading in map(made.order.spectacles.readings.eye, SIDES)
        )
        if made.order.spectacles.readings
        else False,
        "lens": lens.material is not None,
        "tint": tinted,
        "car": tinted,
    }
    there = {name.removesuffix("-source") for name in made.source.sections}
    wrong = [f"ordered, but no section {name}" for name, applies in matrix.items() if applies and name not in there]
    wrong += [f"a section {name} without an order for it" for name, on in matrix.items() if not on and name in there]
    slight = [f"section {name} is in no matrix" for name in sorted(there - ALWAYS - set(matrix))]
    if made.speech == "en":
        silent = [each for each in lens.coatings if not re.search(words.COATINGS[each], made.tag_text, re.IGNORECASE)]
        slight += [f"the ordered coating {each} is nowhere named" for each in sorted(silent)]
    return worst(wrong, slight)


@item("A5")
def ordered_calculated_measured_are_told_apart(made: Made) -> Mark:
    """Each kind of statement is labelled, each reading has its limit beside it, and something is said to be unknown."""
    claims = made.explanation.claims
    bases = {claims[claim_id].basis for claim_id in made.said}
    labels = {basis: made.spoken.gettext(BASES[basis.value]) for basis in LABELLED if basis in bases}
    wrong = [f"no label {label!r}" for label in labels.values() if label not in made.tag_text]
    for reading in (claim_id for claim_id in made.said if re.fullmatch(r"bench\.(?:\w+\.)*reading", claim_id)):
        stem = reading.removesuffix(".reading")
        allowed = [f"{stem}.allowed", f"{stem}.allowed_mm"]
        judged = claims.value(f"{stem}.verdict")
        named = "bench.standard.at_home" in claims  # limits of another country are not the customer's business
        if named and judged in ("inside", "outside") and not any(each in made.said for each in allowed):
            wrong.append(f"{stem} is printed without its limit")
    if not re.search(words.NOT_KNOWN.get(made.speech, "$^"), made.tag_text, re.IGNORECASE):
        wrong.append("nothing is said to be unknown")
    return worst(wrong, _pair_under_one_eye(made))


def _pair_under_one_eye(made: Made) -> Iterator[str]:
    """Readings of the pair that stand, and are read aloud, under the head of one eye."""
    for table in made.source.all("table", of="bench"):
        heads = [
            words_of(each).strip() for each in table.iter() if name_of(each) == "th" and each.get("scope") == "col"
        ]
        for row in (each for each in table.iter() if name_of(each) == "tr"):
            for column, cell in enumerate(list(row)[1:]):
                claim = next((each.get("data-claim") for each in cell.iter() if "data-claim" in each.attrib), "")
                over_both = int(cell.get("colspan") or 1) > 2
                if (
                    not over_both
                    and re.match(r"bench\.(reference_points|optical_centres|horizontal|vertical)\b", claim)
                    and named(heads[column], words.EYE[made.speech])
                ):
                    yield f"{claim} of the pair stands under the head {heads[column]!r}"


@item("A6")
def nothing_is_claimed_too_much(made: Made) -> Mark:
    """The banned list, marks of brands, and what a light-reactive lens does not do behind a windscreen."""
    ours = made.source.prose()
    wrong = [f"says {found!r}" for found in re.findall(words.OVER_CLAIMS[made.speech], ours, re.IGNORECASE)]
    wrong += [f"carries {found}" for found in re.findall(words.BRAND_MARKS, made.tag_text)]
    if made.order.spectacles.lens.tint in ("photochromic", "photochromic-visible"):
        if not any(claim_id.startswith(("car.windscreen", "tint.windscreen")) for claim_id in made.said):
            wrong.append("the limits behind a windscreen are not stated")
        if "drive.night" not in made.explanation.claims or "tint.night_limit" not in made.said:
            wrong.append("the limit for driving at night is not stated")
    return worst(wrong) if wrong else FULL
