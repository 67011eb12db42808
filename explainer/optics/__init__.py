"""The shared optics core: all that may be asserted about a pair of spectacles. Other programs may import it alone.

    from explainer.optics.claims import explain
    explain(spectacles).claims["right.turn.5.residual"]

It imports nothing else of explainer but its errors, and knows no documents, languages, customers or clocks.

Glossary (one name for one thing, the unit is part of the name):

    sphere_d, cylinder_d, add_d, power_d   [D]              plus converges
    axis_deg                               [deg]            1 to 180, facing the wearer, anticlockwise, both eyes alike
    prism_pd, base_in_pd, base_up_pd       [prism dioptre]  base in and base up count positive
    pd_mm, a_mm, b_mm, dbl_mm, ed_mm       [mm]             pupil distance and the boxing system
    decentration_mm, inward_mm             [mm]             towards the nose counts positive
    index, abbe, density_g_cm3             [1], [1], [g/cm3]
    front_curve_d, front_power_d           [D]              true surface power in the lens's own index
    transmittance                          [1]              luminous, 0 to 1; claims state it in percent
    celsius                                [degrees C]      temperature of the lens
"""
