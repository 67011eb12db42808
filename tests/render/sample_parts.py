"""The pieces of which the sample leaflets are built, in the markup that the leaflet's style sheets lay out."""

from __future__ import annotations

from html import escape


def n(text: str) -> str:
    """A number group: kept together, and from left to right in every language."""
    return f'<bdi class="n" dir="ltr">{escape(text)}</bdi>'


def figure(name: str, width: float, height: float, alt: str, caption: str, labels: object = ()) -> str:
    """A drawing of that size [mm] with its labels (x, y, words, anchor)."""
    spans = "".join(
        f'<span class="label {anchor}" style="left:{x}mm;top:{y}mm">{escape(words)}</span>'
        for x, y, words, anchor in labels  # type: ignore[attr-defined]
    )
    return (
        f'<figure class="drawing" style="width:{width}mm"><div class="canvas" style="height:{height}mm">'
        f'<img src="figure:{name}" alt="{escape(alt)}">{spans}</div><figcaption>{escape(caption)}</figcaption></figure>'
    )


def row(*figures: str) -> str:
    """Small figures side by side."""
    return f'<div class="figure-row">{"".join(figures)}</div>'


def table(caption: str, heads: object, rows: object, *, words: bool = False, last_words: bool = False) -> str:
    """A table of readings: numbers in all cells but the row's head, unless it is one of words."""
    head = "".join(
        f'<th scope="col">{escape(text)}</th>' if text else "<td></td>" for text in heads  # type: ignore[attr-defined]
    )
    body = ""
    for first, *cells in rows:  # type: ignore[attr-defined]
        body += f"<tr><td>{escape(first)}</td>" if words else f'<tr><th scope="row">{escape(first)}</th>'
        for place, cell in enumerate(cells):
            is_words = words or (last_words and place == len(cells) - 1)
            body += f"<td>{escape(cell)}</td>" if is_words else f'<td>{n(cell)}</td>'
        body += "</tr>"
    return (
        f'<table class="readings{" words" if words else ""}"><caption>{escape(caption)}</caption>'
        f"<thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>"
    )


def aside(signal: str, what: str, consequence: str, avoid: str) -> str:
    """A caution: signal word, hazard, consequence, what to do."""
    return (
        f'<aside class="caution {signal.lower()}"><p class="signal">{signal}</p>'
        f"<p><strong>{escape(what)}</strong> {escape(consequence)} {escape(avoid)}</p></aside>"
    )
