"""The one place that knows where templates/ and locales/ are: inside an installed wheel, or beside a checkout."""

from __future__ import annotations

from pathlib import Path
from typing import Literal

from explainer.errors import RenderError

Kind = Literal["templates", "locales"]


def root(kind: Kind) -> Path:
    """The folder of that kind.

    A wheel carries both folders inside the package. An editable install or a checkout has them beside it
    (hatchling does not put force-included folders there), so that is looked at second.
    """
    package = Path(__file__).parent
    for candidate in (package / kind, package.parent / kind):
        if candidate.is_dir():
            return candidate
    raise RenderError(f"the folder {kind}/ is missing from this installation; install explainer again")
