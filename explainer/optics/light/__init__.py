"""The model of light: places, dyes, glass, and what reaches the eye. It issues no claim; `claims.tint` does.

Bands are printed with each assumption taken alone to the ends of what is published; with all at once they would say
nothing. `explainer claims ORDER --sensitivity` prints, from a run, which assumption moves which band by how much.
For light-reactive lenses the strongest are the darkness at the test bench (a remembered range) and, behind glass,
the edges of the glass and of the dye, on which the answer hinges.

Held against sayings of the trade (tests/optics/claims/test_trade_facts.py), the model agrees on darkening within 30
to 45 seconds, lightening seen within 45 to 75 seconds at room temperature, working well to about 29 degrees and in
an open car, and pale in the roof's shade of a closed one. It does not agree that a car always keeps them pale (low
sun ahead, or sun through clear side glass, darkens them), that 35 degrees is a cliff (it is a slope), or that a
visible lightening is clear (that takes minutes, at 5 degrees most of an hour). The leaflet follows the evidence.
"""
