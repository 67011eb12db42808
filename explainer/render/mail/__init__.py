"""Replies by e-mail from the same words as the leaflet: `explainer.render.mail.reply.make_reply`.

A topic is spoken once, as HTML; the tree of that HTML (`tree.py`) is written as mail HTML (`html.py`), as plain text
(`text.py`) and as Markdown (`markdown.py`). So all forms say the same, in the same order. What is not translated
stands in English, marked as such, and the desk is told. Pictures are the leaflet's own drawings with the labels set
in as text, made into pixels by `resvg-py` (40 ms a picture; mail programs show no SVG). `css-inline` writes the
styles into the elements. Drafts carry `X-Unsent: 1`; nothing sends. A workshop's own topics (`house.py`) are
templates in a sandbox, read as a syntax tree first.
"""
