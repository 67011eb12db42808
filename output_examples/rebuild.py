"""Makes everything in this folder anew from orders/: leaflets, page images, evidence tables, replies.

    .venv/bin/python output_examples/rebuild.py

Page images need pdftoppm (Debian package poppler-utils).
"""

from __future__ import annotations

import shutil
import subprocess
import sys
from datetime import UTC, datetime, time
from pathlib import Path

from explainer.batch.documents import Settings, make_document
from explainer.optics.claims import explain
from explainer.orders import Order, read_orders
from explainer.orders.reference import reference
from explainer.render.evidence import evidence_json, evidence_text
from explainer.render.files import write_file
from explainer.render.leaflet import leaflet_name, make_leaflet
from explainer.render.mail.forms import reply_draft, reply_name
from explainer.render.mail.reply import make_reply

HERE = Path(__file__).parent
ORDERS = HERE / "orders"
EDITIONS = {"FL-3107": ("standard", "large-print")}
PARCEL_OF = "FL-3107"
IMAGES_OF = ("FL-3107", "FL-3112", "FL-3125")
# What the customers of these three wrote; nothing of it is kept in the reply.
QUESTIONS = {
    "FL-3107": "My lenses stay pale in the car. Are they faulty?",
    "FL-3112": "Your numbers don't match my slip. Which are right?",
    "FL-3125": "The floor slopes since I wear them, and this morning I saw flashes.",
}


def leaflets(order: Order, folder: Path) -> list[Path]:
    """The leaflets of one order, in the editions that this folder shows."""
    made = []
    for edition in EDITIONS.get(order.number, ("standard",)):
        path = folder / leaflet_name(order, edition)
        write_file(path, make_leaflet(order, edition=edition).pdf)
        made.append(path)
    return made


def evidence(order: Order, folder: Path) -> None:
    """The evidence of one order, for a person and for a program."""
    claims = explain(order.spectacles).claims
    (folder / f"{order.number}-claims.txt").write_text(evidence_text(claims) + "\n", encoding="utf-8")
    (folder / f"{order.number}-claims.json").write_text(
        evidence_json(order.number, order.language, claims) + "\n", encoding="utf-8"
    )


def reply(order: Order, folder: Path) -> None:
    """The draft reply to what the customer wrote, dated as if answered the same day."""
    made = make_reply(order, question=QUESTIONS[order.number])
    noon = datetime.combine(order.date, time(12), tzinfo=UTC)
    write_file(folder / reply_name(made), reply_draft(made, moment=noon))


def parcel(order: Order, folder: Path) -> None:
    """What goes with the leaflet of one order."""
    settings = Settings()
    for kind in ("sheet", "card", "label", "tag", "page"):
        made = make_document(kind, order, settings)
        write_file(folder / settings.name(order, kind), made.data)


def images(pdf: Path, folder: Path) -> None:
    """Every page of a leaflet as a picture for the README."""
    subprocess.run(["pdftoppm", "-r", "80", "-png", str(pdf), str(folder / pdf.stem)], check=True)


def rebuild(target: Path = HERE, *, with_images: bool = True) -> None:
    """Everything, into the given folder."""
    for name in ("leaflets", "evidence", "pages", "replies", "parcel"):
        shutil.rmtree(target / name, ignore_errors=True)
        (target / name).mkdir(parents=True)
    (target / "fields.md").write_text(reference() + "\n", encoding="utf-8")
    for result in read_orders([ORDERS, ORDERS / "overseas"]):
        if result.order is None:
            sys.exit(str(result.error))
        made = leaflets(result.order, target / "leaflets")
        evidence(result.order, target / "evidence")
        if result.order.number in QUESTIONS:
            reply(result.order, target / "replies")
        if result.order.number == PARCEL_OF:
            parcel(result.order, target / "parcel")
            if with_images:
                images(target / "parcel" / Settings().name(result.order, "sheet"), target / "pages")
        if with_images and result.order.number in IMAGES_OF:
            images(made[0], target / "pages")


if __name__ == "__main__":
    rebuild()
