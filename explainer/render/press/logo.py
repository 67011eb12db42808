"""The workshop's logo as the engine may have it: a clean copy, drawn once apart under limits before any leaflet has it.

The closed list keeps out what is known to run away; the trial finds what nobody has thought of yet. That a drawing was
tried is kept by its content, so that a workshop waits for it once.
"""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from functools import lru_cache
from pathlib import Path

from explainer.errors import Fault, InputError
from explainer.keeping import keeping_folder, read_kept, write_kept
from explainer.orders.shop.logo import LARGEST_BYTES, drawable
from explainer.places import start_of, why_not
from explainer.render.press.trial import CANNOT_TELL, LONGEST_S

_PIXELS = (b"\x89PNG", b"\xff\xd8\xff")  # looked into by the reader of pictures already, under its own limits


def logo_picture(path: Path, source: str) -> bytes:
    """The picture to draw. InputError, in the name of the workshop file, when it may not or cannot be drawn."""
    try:
        body = start_of(path, LARGEST_BYTES + 1)
        copy = drawable(body)
    except OSError as error:
        raise InputError(source, [Fault("logo", why_not(error), "a picture beside the workshop file")]) from None
    except ValueError as error:
        raise InputError(source, [Fault("logo", str(error), "the picture that was looked at")]) from None
    if not copy.startswith(_PIXELS) and not _drawn(copy):
        found = f"a drawing that takes more than {LONGEST_S} seconds or too much memory, or cannot be drawn"
        raise InputError(source, [Fault("logo", found, "a simpler drawing, or a PNG picture of it")])
    return copy


@lru_cache(maxsize=8)
def _drawn(copy: bytes) -> bool:
    """Whether the engine draws it; tried in another process, unless that was done before."""
    key = hashlib.sha256(copy).hexdigest()
    folder = keeping_folder("logos")
    file = folder / f"{key}.json" if folder else None
    if file and (read_kept(file, key) or {}).get("drawn") is True:
        return True
    drawn = _tried(copy)
    if drawn and file:
        write_kept(file, key, {"drawn": True})
    return drawn


def _tried(copy: bytes) -> bool:
    home = str(Path(__file__).parents[3])
    paths = os.pathsep.join(part for part in (home, os.environ.get("PYTHONPATH", "")) if part)
    try:
        done = subprocess.run(
            [sys.executable, "-P", "-m", "explainer.render.press.trial"],  # -P: nothing is loaded from this folder
            input=copy,
            env={**os.environ, "PYTHONPATH": paths},
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            timeout=3 * LONGEST_S,
            check=False,
        )
    except subprocess.TimeoutExpired:
        return False
    return done.returncode in (0, CANNOT_TELL)
