"""The files of a workshop's own words: small texts inside its folder, and nothing that a link brings in."""

from __future__ import annotations

from pathlib import Path

from explainer.errors import Fault, InputError
from explainer.orders.values.files import read_text
from explainer.places import is_folder, real

LARGEST = 20_000
_MOST = 100


def house_files(home: Path, folder: Path) -> tuple[tuple[str, str], ...]:
    """Name and text of each Markdown file in `folder`, which lies in `home`. InputError for what may not be read."""
    if not is_folder(folder):
        return ()
    paths = sorted(path for path in folder.iterdir() if path.suffix == ".md" and not path.name.startswith("."))
    if len(paths) > _MOST:
        raise InputError(str(folder), [Fault("files", f"{len(paths)} files", f"at most {_MOST}")])
    faults = [
        Fault(path.name, "a link out of the folder", f"a file inside {home.name}/")
        for path in paths
        if not real(path).is_relative_to(real(home))
    ]
    if faults:
        raise InputError(str(folder), faults)
    return tuple((path.name, read_text(path, largest=LARGEST).replace("\r\n", "\n")) for path in paths)
