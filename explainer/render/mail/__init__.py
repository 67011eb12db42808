"""Replies by e-mail from the leaflet's own sections: `explainer.render.mail.reply.make_reply`.

A section is spoken once, as HTML; the tree of that HTML (`tree.py`) is written as mail HTML (`html.py`), as plain text
(`text.py`) and as Markdown (`markdown.py`). So all forms say the same, in the same order.
"""
