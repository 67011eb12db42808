"""What the fuzzer starts from: whole inputs of each kind, and words worth putting into them."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

from plain_order import PLAIN

TESTS = Path(__file__).parents[1]
DATA = TESTS / "data"
ORDERS = TESTS.parent / "output_examples" / "orders"

JOB = (
    "OMAV=03.10\nJOB=LT-7\nDO=B\nSPH=1.25;-0.50\nCYL=-0.75;0.00\nAX=20;0\nADD=2;2\nPRVM=1;0\nPRVA=90;0\n"
    "IPD=31;32\nHBOX=50;50\nVBOX=36;36\nDBL=18\nFED=53;53\nBVD=12;12\nLIND=1.498;1.498\nLTYPE=SV;SV\n_DATE=2026-11-20\n"
    "INSSPH=1.2;-0.5\nINSCYL=-0.7;0\nINSAX=21;0\nSTATUS=0\n"
)
TRACE = "".join(f"TRCFMT=1;36;E;{eye};F\nR={';'.join(['2500'] * 36)}\n" for eye in "RL") + "DBL=18\n"
CSV = 'order,date,right,left,frame_a_mm\nA-1,2026-11-20,-1.00 DS,plano,51\nA-2,2026-11-20,"-2,00 -0,50 x 5",+1.00 DS,\n'


def seeds(name: str) -> Iterator[bytes]:
    """Whole inputs of that kind."""
    if name == "notation":
        yield from _notations()
    elif name in ("toml", "workshop"):
        yield from (path.read_bytes() for path in sorted(ORDERS.rglob("*.toml")))
    elif name == "json":
        yield json.dumps(PLAIN).encode()
    elif name == "jsonl":
        yield (json.dumps(PLAIN) + "\n" + json.dumps(PLAIN | {"order": "B"}) + "\n").encode()
    elif name == "fhir":
        yield from (path.read_bytes() for path in sorted(DATA.glob("*.json")))
    elif name == "csv":
        yield from (CSV.encode(), CSV.replace(",", ";").encode(), CSV.encode("utf-16"))
    else:
        yield from (JOB.encode(), TRACE.encode(), (JOB + TRACE).encode())


def _notations() -> Iterator[bytes]:
    languages = ("-", "en", "de", "fr", "es", "it", "pt", "pl")
    for line in (DATA / "more_notations.tsv").read_text(encoding="utf-8").splitlines()[1:]:
        text, language, _ = line.split("\t")
        plain = text.replace("\\n", "\n").replace("\\t", "\t")
        yield bytes([languages.index(language)]) + plain.encode()
    for line in (DATA / "rx_notations.tsv").read_text(encoding="utf-8").splitlines()[1:]:
        yield b"\0" + line.split("\t")[0].encode()


def dictionary(name: str) -> list[str]:
    """Words and marks of that kind of input, ASCII."""
    if name == "notation":
        from explainer.orders.notation.words import words_of

        words = {word for language in (None, "de", "fr", "es", "it", "pt", "pl") for word in words_of(language)}
        plain = sorted(word for word in words if word.isascii() and word.isprintable() and '"' not in word)
        return [*plain, "-2.00", "+0.50", "180", " x "]
    if name in ("job", "trace"):
        return "SPH= CYL= AX= ADD= PRVM= PRVA= IPD= HBOX= VBOX= DBL= FED= TRCFMT=1;36;E;R;F R= ? ; JOB= _DATE=".split()
    return [
        "null",
        "true",
        "1e9",
        "-0.0",
        "[]",
        "{}",
        "prescription",
        "right",
        "left",
        "job",
        "trace",
        "fhir",
        "2026-02-30",
    ]
