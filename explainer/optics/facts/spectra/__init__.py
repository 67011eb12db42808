"""Spectra looked up: one CSV file each, its origin in its first lines; read when asked for."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path

import numpy as np

from explainer.errors import FactError
from explainer.optics.formulas.spectrum import FloatArray, Spectrum

FOLDER = Path(__file__).parent
_HEADER = ("source", "unit", "step", "origin")


def load(file: str, column: str) -> Spectrum:
    """The spectrum in that column of that file; FactError when there is none."""
    columns = _columns(file)
    if column not in columns or column == "wavelength_nm":
        raise FactError(f"there is no column {column} in {file}.csv")
    return _spectrum(file, column)


def names() -> tuple[tuple[str, str], ...]:
    """Every (file, column) there is."""
    files = sorted(path.stem for path in FOLDER.glob("*.csv"))
    return tuple((f, c) for f in files for c in _columns(f) if c != "wavelength_nm")


def about(file: str) -> Mapping[str, str]:
    """What the first lines say: source (a key of sources.toml), unit, step, origin."""
    return _read(file)[0]


@cache
def _spectrum(file: str, column: str) -> Spectrum:
    columns = _columns(file)
    return Spectrum(columns["wavelength_nm"], columns[column])


def _columns(file: str) -> Mapping[str, FloatArray]:
    return _read(file)[1]


@cache
def _read(file: str) -> tuple[Mapping[str, str], Mapping[str, FloatArray]]:
    try:
        lines = (FOLDER / f"{file}.csv").read_text(encoding="utf-8").splitlines()
    except OSError:
        raise FactError(f"there is no spectrum file {file}.csv") from None
    comments = [line.removeprefix("#").strip() for line in lines if line.startswith("#")]
    parts = [comment.partition(":") for comment in comments]
    said = {key: text.strip() for key, _, text in parts if key in _HEADER}
    if missing := [key for key in _HEADER if not said.get(key)]:
        raise FactError(f"{file}.csv does not say its {', '.join(missing)}")
    heads, *rows = [line.split(",") for line in lines if line and not line.startswith("#")]
    table = np.array(rows, dtype=np.float64).T
    return said, dict(zip(heads, table, strict=True))
