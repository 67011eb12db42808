"""The machine-readable code of an order: its number and check word, nothing else, as ISO/IEC 18004 (QR)."""

from __future__ import annotations

from io import BytesIO

from explainer.errors import Fault, InputError
from explainer.orders import Order
from explainer.orders.assembly.check_word import check_word

QUIET_MODULES = 4  # ISO/IEC 18004: the margin that a reader needs around a QR code


def code_text(order: Order) -> str:
    """What the code says, and a person could type: `FL-3107 WAFU`. No name and no prescription."""
    return f"{order.number} {check_word(order)}"


def code_svg(text: str) -> bytes:
    """The code as a drawing of one black path, its quiet margin included; the size is given by who places it."""
    import segno

    written = BytesIO()
    made = segno.make_qr(text, error="m", boost_error=False)
    made.save(written, kind="svg", border=QUIET_MODULES, omitsize=True, xmldecl=False, svgns=True, nl=False)
    return written.getvalue()


def read_code(text: str) -> tuple[str, str]:
    """Order number and check word of a scanned code. InputError when it is none of ours."""
    number, _, word = text.strip().rpartition(" ")
    if not number or not word.isalpha() or not word.isupper():
        fault = Fault("code", "something else", "an order number and a check word, such as FL-3107 WAFU")
        raise InputError("scanned code", [fault])
    return number, word
