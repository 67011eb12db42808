"""The workshop's logo: a small picture, looked into before anything draws it.

A picture's name proves nothing, so its content is checked: that it is what its ending says, that it is no larger
unpacked than a logo needs to be, and, for a drawing, that it holds shapes only.
"""

from __future__ import annotations

import contextlib
import warnings
from collections.abc import Iterator
from functools import lru_cache
from io import BytesIO
from pathlib import Path

from explainer.errors import Fault
from explainer.orders.shop.drawing import clean_drawing, drawing_fault
from explainer.places import is_plain_file, real, start_of, why_not

LARGEST_BYTES = 2_000_000
LARGEST_SIDE = 4_000
_STARTS = ((b"\x89PNG\r\n\x1a\n", "PNG"), (b"\xff\xd8\xff", "JPEG"))
_KINDS = {".png": "PNG", ".jpg": "JPEG", ".jpeg": "JPEG"}


def checked_logo(folder: Path, name: str, faults: list[Fault]) -> Path:
    """The logo's path; a fault when it may not be used."""
    path = folder / name
    wrong = _place_fault(folder, path) or _content_fault(path)
    if wrong:
        faults.append(Fault("logo", *wrong))
    return path


@lru_cache(maxsize=8)
def drawable(body: bytes) -> bytes:
    """The picture as the engine is to have it: a drawing's clean copy, and pixels in the depth that it can draw.

    ValueError for what `checked_logo` refuses; it may have been exchanged since.
    """
    kind = next((kind for start, kind in _STARTS if body.startswith(start)), None)
    if kind is None:
        copy = clean_drawing(body)
        if isinstance(copy, tuple):
            raise ValueError(copy[0])
        return copy
    wrong = _picture_fault(body, kind)
    if wrong:
        raise ValueError(wrong[0])
    return _in_eight_bits(body) if kind == "PNG" else body


def _in_eight_bits(body: bytes) -> bytes:
    """A picture of sixteen bits of grey in eight, which is what paper shows; others as they are."""
    from PIL import Image

    with Image.open(BytesIO(body), formats=["PNG"]) as picture:
        if not picture.mode.startswith("I"):
            return body
        grey = picture.point(lambda level: level / 256).convert("L")
    written = BytesIO()
    grey.save(written, "PNG")
    return written.getvalue()


def _place_fault(folder: Path, path: Path) -> tuple[str, str] | None:
    if path.suffix.lower() not in {*_KINDS, ".svg"}:
        return f"a file ending in {path.suffix[:8] or 'nothing'}", "a PNG, JPEG or SVG file"
    if not is_plain_file(path):
        return "no such file", "a picture beside the workshop file"
    if not real(path).is_relative_to(real(folder)):
        return "a link to another folder", "a picture beside the workshop file"
    if path.stat().st_size > LARGEST_BYTES:
        return f"a file of {path.stat().st_size} bytes", f"at most {LARGEST_BYTES} bytes"
    return None


def _content_fault(path: Path) -> tuple[str, str] | None:
    try:
        body = start_of(path, LARGEST_BYTES + 1)
    except OSError as error:
        return why_not(error), "a readable picture"
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
