"""explainer: what a pair of spectacles does, told to the person who wears it.

The three public calls are imported where they are used, so that `import explainer` costs nothing:

    from explainer.orders import read_order            # an order file in
    from explainer.optics.claims import explain        # everything that may be asserted about it
    from explainer.render.leaflet import make_leaflet  # the PDF out
"""

__version__ = "0.1.0"
