"""The workshop's logo: a small picture, looked into before anything draws it.

A picture's name proves nothing, so its content is checked: that it is what its ending says, that it is no larger
unpacked than a logo needs to be, and, for a drawing, that it holds shapes only.
"""

from __future__ import annotations

import contextlib
import warnings
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

from explainer.errors import Fault
from explainer.orders.shop.drawing import drawing_fault

LARGEST_BYTES = 2_000_000
LARGEST_SIDE = 4_000
_KINDS = {".png": "PNG", ".jpg": "JPEG", ".jpeg": "JPEG"}


def checked_logo(folder: Path, name: str, faults: list[Fault]) -> Path:
    """The logo's path; a fault when it may not be used."""
    path = folder / name
    wrong = _place_fault(folder, path) or _content_fault(path)
    if wrong:
        faults.append(Fault("logo", *wrong))
    return path


def _place_fault(folder: Path, path: Path) -> tuple[str, str] | None:
    if path.suffix.lower() not in {*_KINDS, ".svg"}:
        return f"a file ending in {path.suffix[:8] or 'nothing'}", "a PNG, JPEG or SVG file"
    if not path.is_file():
        return "no such file", "a picture beside the workshop file"
    if not path.resolve().is_relative_to(folder.resolve()):
        return "a link to another folder", "a picture beside the workshop file"
    if path.stat().st_size > LARGEST_BYTES:
        return f"a file of {path.stat().st_size} bytes", f"at most {LARGEST_BYTES} bytes"
    return None


def _content_fault(path: Path) -> tuple[str, str] | None:
    try:
        body = path.read_bytes()
    except OSError as error:
        return f"a file that cannot be read ({error.strerror})", "a readable picture"
    kind = _KINDS.get(path.suffix.lower())
    return drawing_fault(body) if kind is None else _picture_fault(body, kind)


def _picture_fault(body: bytes, kind: str) -> tuple[str, str] | None:
    """What is wrong with a picture of pixels. Its size is read from its head, before anything is unpacked."""
    from PIL import Image

    accepted = f"a whole {kind} picture of at most {LARGEST_SIDE} by {LARGEST_SIDE} pixels"
    try:
        with _strictly(), Image.open(BytesIO(body), formats=[kind]) as picture:
            if max(picture.size) > LARGEST_SIDE:
                return f"{picture.width} by {picture.height} pixels", accepted
            if getattr(picture, "n_frames", 1) > 1:
                return "a moving picture", accepted
            picture.load()
    except Exception as error:  # the reader fails in many ways over what is damaged or made to harm
        return f"no {kind} picture that can be read ({type(error).__name__})", accepted
    return None


@contextlib.contextmanager
def _strictly() -> Iterator[None]:
    """Pictures read without leniency, which the PDF engine asks for in the whole process: a cut one is a fault here."""
    from PIL import ImageFile

    lenient = ImageFile.LOAD_TRUNCATED_IMAGES
    ImageFile.LOAD_TRUNCATED_IMAGES = False
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error")
            yield
    finally:
        ImageFile.LOAD_TRUNCATED_IMAGES = lenient
