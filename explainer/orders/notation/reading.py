"""What a written prescription says, before it is asked whether that is enough to make a lens.

Conventions are those of explainer.optics.spectacles: dioptres, axis 1 to 180, base in and base up positive.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from explainer.optics.spectacles import Eye, Side


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One eye as read. None means: not written. A cylinder of 0.0 means: written, and none."""

    side: Side | None = None
    sphere_d: float | None = None
    cylinder_d: float | None = None
    axis_deg: float | None = None
    add_d: float | None = None
    prism_in_pd: float = 0.0
    prism_up_pd: float = 0.0
    vertex_mm: float | None = None
    pd_mm: float | None = None
    acuity: str | None = None
    received: str = field(default="", compare=False)

    @property
    def complete(self) -> bool:
        """Whether a lens could be made of it: a sphere, and an axis exactly where there is a cylinder."""
        return self.sphere_d is not None and bool(self.cylinder_d) == (self.axis_deg is not None)

    def eye(self) -> Eye:
        """The eye for the core; the caller has asked `complete` before."""
        assert self.sphere_d is not None
        return Eye(
            sphere_d=self.sphere_d,
            cylinder_d=self.cylinder_d or 0.0,
            axis_deg=self.axis_deg if self.cylinder_d else None,
            add_d=self.add_d,
            prism_in_pd=self.prism_in_pd,
            prism_up_pd=self.prism_up_pd,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """Both eyes of one text."""

    right: Reading
    left: Reading

    def eye(self, side: Side) -> Reading:
        """The reading of that side."""
        return self.right if side == "right" else self.left


def on_side(reading: Reading, side: Side) -> Reading:
    """The same reading, said of that eye."""
    return replace(reading, side=side)


def power(value_d: float) -> str:
    """A power with its sign and as many decimals as its step needs: -3.25, +0.125, 0.00."""
    if value_d == 0:
        return "0.00"
    text = f"{value_d:+.3f}"
    return text[:-1] if text.endswith("0") else text


def plain(value: float) -> str:
    """A number without sign and without empty decimals: 172, 172.5, 13."""
    return f"{value:.3f}".rstrip("0").rstrip(".")


def written(reading: Reading) -> str:
    """The reading in this program's own notation, which the parser reads back to the same reading."""
    parts = [] if reading.side is None else [{"right": "R", "left": "L"}[reading.side]]
    if reading.sphere_d is not None:
        parts.append(power(reading.sphere_d))
        if reading.cylinder_d and reading.axis_deg is not None:
            parts.append(f"{power(reading.cylinder_d)} x {plain(reading.axis_deg)}")
        else:
            parts.append("DS" if reading.cylinder_d is None else "0.00")
    elif reading.axis_deg is not None:
        parts.append(f"axis {plain(reading.axis_deg)}")  # half a prescription; no eye is made of it
    parts.extend(_prism(reading.prism_in_pd, "in", "out"))
    parts.extend(_prism(reading.prism_up_pd, "up", "down"))
    if reading.add_d is not None:
        parts.append(f"Add {power(reading.add_d)}")
    if reading.vertex_mm is not None:
        parts.append(f"BVD {plain(reading.vertex_mm)}")
    if reading.pd_mm is not None:
        parts.append(f"PD {plain(reading.pd_mm)}")
    if reading.acuity is not None:
        parts.append(f"VA {reading.acuity}")
    return " ".join(parts)


def _prism(amount_pd: float, positive: str, negative: str) -> list[str]:
    if round(abs(amount_pd), 3) == 0:
        return []
    return [f"{plain(abs(amount_pd))}Δ base {positive if amount_pd > 0 else negative}"]
