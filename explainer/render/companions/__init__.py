"""What goes with the leaflet: the workshop's sheet, the case card, the parcel label, the tag on the frame.

All from the same claims, through the same words and numbers, so nothing can disagree with the leaflet.
"""
