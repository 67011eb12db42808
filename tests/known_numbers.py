"""Every number that a leaflet may hold, and where each is from."""

from __future__ import annotations

import re

from explainer import __version__
from explainer.compose.pictures import picture_requests
from explainer.compose.plan import compose
from explainer.figures import draw
from explainer.figures.cache import cached
from explainer.figures.keys import SLOTS
from explainer.optics import facts
from explainer.optics.claims import Explanation
from explainer.orders import Order
from explainer.render.figures import label_text
from explainer.render.labels import NAMES
from explainer.render.language import language
from explainer.render.numbers import claim_text, date_text
from explainer.render.situations import recheck_days

NUMBER = re.compile(r"[+\u2212-]?\d+(?:[.,]\d+)*")
SIGNED = re.compile(r"(?:(?<![\w.,])[+\u2212])?\d+(?:[.,]\d+)*")
LISTS = ("1", "2", "3", "01234")  # the steps of the table test; the category scale, read as one run


def tokens(text: str) -> set[str]:
    """The numbers of a text without their signs."""
    return {match.lstrip("+-\u2212") for match in NUMBER.findall(text)}


def signed_tokens(text: str) -> set[str]:
    """The numbers of a text with a plus or a true minus where one stands before them."""
    return set(SIGNED.findall(text))


def known_texts(order: Order, *, said: list[str], explanation: Explanation, pages: int) -> list[str]:
    """Everything with a number in it that this document may print: claims, labels, contact, dates, pages, lists."""
    spoken = language(order.language)
    claims = [explanation.claims[claim_id] for claim_id in said]
    printable = [claim for claim in claims if claim.unit != "yes-no" and not claim.id.startswith("drive.")]
    texts = [claim_text(claim, spoken) for claim in printable if claim.unit != "word"]
    names = [NAMES.get(str(claim.value), "") for claim in printable if claim.unit == "word"]
    bare = [claim_text(claim, spoken, bare=True) for claim in printable if claim.unit != "word"]
    figures = [
        *compose(order.spectacles, explanation).figures.values(),
        *picture_requests(order.spectacles, explanation, recheck_days=recheck_days(order)).values(),
    ]
    drawings = [cached(each.name, draw, each.values) for each in figures]
    labels = [label_text(label, spoken) for each in drawings for label in each.labels if label.key not in SLOTS]
    release = [order.release.by, order.release.reason, date_text(order.release.date, spoken)] if order.release else []
    numbers = [str(number) for number in range(1, pages + 1)]
    titles = [source.short for source in facts.sources().values()]
    own = [*_contact(order), order.number, order.wearer_name or "", date_text(order.date, spoken), *release]
    return [*texts, *bare, *names, *labels, *own, *numbers, *LISTS, *titles, __version__]


def _contact(order: Order) -> list[str]:
    names = "name address phone email opening_hours urgent_help emergency returns adjustments".split()
    return [str(getattr(order.workshop, name, None) or "") for name in names]
