"""Every statement of the core can be reached: none stands in the shadow of a wider one."""

from __future__ import annotations

import pytest

from explainer.optics.claims.statements import every_statement, sentence, statement


@pytest.mark.parametrize("claim_id", [pattern for pattern in every_statement() if "<" not in pattern])
def test_a_statement_of_one_claim_is_that_claims(claim_id: str):
    assert statement(claim_id).pattern == claim_id


def test_a_statement_for_many_is_filled_in():
    assert statement("care.solvents.frame").pattern == "care.solvents.<part>"
    assert sentence("care.solvents.frame") == "solvents harm the frame"
