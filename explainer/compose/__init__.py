"""Which sections a leaflet has, in which order, with which figures: decided by the order alone, without a word.

`explainer.compose.plan.compose` makes the plan, `explainer.compose.release` says whether a pair may be posted.
"""
