"""Near: how far off and how close print is clear through a lens for the distance with an addition.

Distances count from the lens. The eye is taken as corrected for the distance, without any leftover error.
"""

from __future__ import annotations

from explainer.errors import OutOfRange
from explainer.optics.formulas.ranges import within


def far_end_cm(*, add_d: float) -> float:
    """Where clear sight through an addition ends, for an eye at rest.

    Parameters: add_d addition [D].
    Returns: distance from the lens [cm].
    Raises: OutOfRange for an addition outside 0.25 to 6 D.
    Equation: 100 / add: the focus of the addition.
    Reference: derived from vergence.
    """
    return 100 / within("addition", add_d, 0.25, 6, "D")


def near_end_cm(*, add_d: float, amplitude_d: float) -> float:
    """The nearest clear distance when the eye focuses with all it has.

    Parameters: add_d addition [D]; amplitude_d amplitude of accommodation [D].
    Returns: distance from the lens [cm].
    Raises: OutOfRange for an addition outside 0 to 6 D, an amplitude outside 0 to 25 D, or neither above 0.
    Equation: 100 / (add + amplitude).
    Reference: derived from vergence.
    """
    return _distance_cm(within("addition", add_d, 0, 6, "D") + within("amplitude", amplitude_d, 0, 25, "D"))


def comfortable_near_end_cm(*, add_d: float, amplitude_d: float, share_in_reserve: float) -> float:
    """The nearest distance that can be read at for long, with a share of the focusing power kept in reserve.

    Parameters: add_d addition [D]; amplitude_d amplitude of accommodation [D]; share_in_reserve [percent].
    Returns: distance from the lens [cm].
    Raises: OutOfRange as near_end_cm, and for a share outside 0 to 100.
    Equation: 100 / (add + amplitude (1 - share / 100)).
    Reference: accommodation-reserve-1989 (half of it is used).
    """
    used = 1 - within("share in reserve", share_in_reserve, 0, 100, "percent") / 100
    return near_end_cm(add_d=add_d, amplitude_d=used * within("amplitude", amplitude_d, 0, 25, "D"))


def fire_focus_mm(*, power_d: float) -> float:
    """Where a plus lens gathers sunlight.

    Parameters: power_d power of the lens [D].
    Returns: distance behind the lens [mm].
    Raises: OutOfRange for a power outside 0.25 to 40 D; a minus lens gathers nothing.
    Equation: 1000 / F, thin lens.
    Reference: derived from vergence.
    """
    return 1000 / within("power", power_d, 0.25, 40, "D")


def _distance_cm(power_d: float) -> float:
    if power_d <= 0:
        raise OutOfRange("addition and amplitude together", power_d, 0.01, 31, "D")
    return 100 / power_d
