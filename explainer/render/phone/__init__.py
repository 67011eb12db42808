"""The leaflet as one page for a telephone: `explainer.render.phone.page.make_page`.

The blocks' words, numbers and pictures are the leaflet's own. Pictures stand in the page as SVG; their labels are text
over them, as on paper, so that they keep their size while a picture grows or shrinks with the screen.
"""
