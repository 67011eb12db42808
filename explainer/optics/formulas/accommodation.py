"""What the eye can still focus by itself at a given age, and how much of a plus error that takes away.

Push-up measurements, which Hofstetter's lines rest on, say more than the eye's optics really do; objective
accommodation ends shortly after 50.
"""

from __future__ import annotations

from typing import Literal, NamedTuple

from explainer.errors import FactError
from explainer.optics.formulas.ranges import power, within

Rule = Literal["push-up"]


class AmplitudeRange(NamedTuple):
    """Expected amplitude of accommodation [D]: least, mean, greatest."""

    least_d: float
    mean_d: float
    greatest_d: float


def least_amplitude(*, age_years: float) -> float:
    """Least amplitude to expect of a healthy eye of that age.

    Parameters: age_years 5 to 120.
    Returns: amplitude [D]; 0 from 60 on, because the line would go below nothing.
    Raises: OutOfRange outside 5 to 120 years.
    Equation: 15 - 0.25 age, not below 0; a line through push-up data of about 8 to 60 years.
    Reference: hofstetter-encyclopedia; hofstetter-exam-item (8.75 D at 25, 5 D at 40).
    """
    return max(0.0, 15 - 0.25 * _age(age_years))


def mean_amplitude(*, age_years: float) -> float:
    """Mean amplitude at that age by push-up data.

    Parameters: age_years 5 to 120.
    Returns: amplitude [D]; 0 from 61.7 on.
    Raises: OutOfRange outside 5 to 120 years.
    Equation: 18.5 - 0.30 age, not below 0.
    Reference: hofstetter-encyclopedia.
    """
    return max(0.0, 18.5 - 0.30 * _age(age_years))


def greatest_amplitude(*, age_years: float) -> float:
    """Greatest amplitude to expect at that age by push-up data.

    Parameters: age_years 5 to 120.
    Returns: amplitude [D]; 0 from 62.5 on.
    Raises: OutOfRange outside 5 to 120 years.
    Equation: 25 - 0.40 age, not below 0.
    Reference: hofstetter-encyclopedia.
    """
    return max(0.0, 25 - 0.40 * _age(age_years))


def amplitude_range(*, age_years: float, rule: Rule = "push-up") -> AmplitudeRange:
    """Least, mean and greatest amplitude at that age by push-up data.

    Parameters: age_years 5 to 120; rule by which the amplitude was taken, of which only push-up has three lines.
    Returns: the three amplitudes [D], in order.
    Raises: OutOfRange outside 5 to 120 years; FactError for another rule.
    Equation: Hofstetter's three lines, none below 0.
    Reference: hofstetter-encyclopedia.
    """
    if rule != "push-up":
        raise FactError(f"no formula knows the amplitude by {rule}")
    return AmplitudeRange(
        least_amplitude(age_years=age_years),
        mean_amplitude(age_years=age_years),
        greatest_amplitude(age_years=age_years),
    )


def focused_away(*, refraction_d: float, amplitude_d: float) -> float:
    """How much of a plus error the eye can focus away by itself, for a distant object.

    Parameters: refraction_d plus power needed [D]; amplitude_d amplitude of accommodation [D].
    Returns: part made up for [D]; 0 for a minus eye, which accommodation cannot help.
    Raises: OutOfRange for an amplitude outside 0 to 25 D.
    Equation: the lesser of the two, not below 0; for a moment, not for a working day.
    Reference: derived.
    """
    power("refraction", refraction_d)
    return max(0.0, min(refraction_d, within("amplitude", amplitude_d, 0, 25, "D")))


def _age(age_years: float) -> float:
    return within("age", age_years, 5, 120, "years")
