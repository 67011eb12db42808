"""A drawing as the renderer marks it up, for the tests that need one of a certain size."""

from __future__ import annotations

from html import escape


def figure(name: str, width_mm: float, height_mm: float, alt: str) -> str:
    """A figure of that size without labels."""
    return (
        f'<figure class="drawing" style="width:{width_mm}mm"><div class="canvas" style="height:{height_mm}mm">'
        f'<img src="figure:{name}" alt="{escape(alt)}"></div></figure>'
    )
