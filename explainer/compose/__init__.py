"""Which sections a leaflet has, in which order, with which figures: decided by the order alone, without a word."""

from explainer.compose.document import Document, FigureRequest
from explainer.compose.plan import compose

__all__ = ["Document", "FigureRequest", "compose"]
