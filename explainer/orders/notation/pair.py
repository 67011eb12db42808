"""What is written of both eyes together, put to each of them; where it does not fit them, a refusal."""

from __future__ import annotations

from dataclasses import replace
from typing import NoReturn

from explainer.errors import Fault, InputError
from explainer.optics.spectacles import SIDES
from explainer.orders.notation.cursor import Rules
from explainer.orders.notation.lists import MOST_MONOCULAR_MM
from explainer.orders.notation.numbers import MOST_ADD_D
from explainer.orders.notation.reading import Pair, Reading


def with_addition(pair: Pair, said: Reading, rules: Rules) -> Pair:
    """The pair with an addition that stands on its own line behind both eyes."""
    if said != Reading(add_d=said.add_d) or pair.right.add_d is not None or pair.left.add_d is not None:
        _refuse(rules, "an addition for both eyes beside others", "one addition for both, or one for each eye")
    return Pair(
        right=replace(pair.right, add_d=said.add_d, received=f"{pair.right.received} {said.received}"),
        left=replace(pair.left, add_d=said.add_d, received=f"{pair.left.received} {said.received}"),
    )


def with_near(pair: Pair, near: Pair, rules: Rules, *, far_is_named: bool) -> Pair:
    """The pair with its near list: the whole near prescription of each eye, or the addition of each eye."""
    if all(near.eye(side) == Reading(side=side, add_d=near.eye(side).add_d) for side in SIDES):
        additions = {side: near.eye(side).add_d for side in SIDES}
    else:
        additions = {side: _between(pair.eye(side), near.eye(side), rules) for side in SIDES}
        if not far_is_named:
            _refuse(rules, "a near list that may hold powers or additions", '"distance:" before the first list, or Add')
        if len(set(additions.values())) > 1:
            _refuse(rules, "near powers that give each eye another addition", "the addition of each eye: Add +2.00")
    if pair.right.add_d is not None or pair.left.add_d is not None:
        _refuse(rules, "an addition and a near list", "one of the two")
    return Pair(
        **{
            side: replace(
                pair.eye(side),
                add_d=additions[side],
                received=f"{pair.eye(side).received} / near {near.eye(side).received}",
            )
            for side in SIDES
        }
    )


def _between(far: Reading, near: Reading, rules: Rules) -> float:
    """The addition that leads from the distance power to the near power [D]."""
    cylinder = (far.cylinder_d or None, far.axis_deg if far.cylinder_d else None)
    same = cylinder == (near.cylinder_d or None, near.axis_deg if near.cylinder_d else None)
    bare = replace(near, side=None, sphere_d=None, cylinder_d=None, axis_deg=None) == Reading()
    if not same or not bare:
        accepted = "the near cylinder and axis as those for distance; else a second pair with its own order"
        _refuse(rules, "a near prescription with other values", accepted)
    if far.sphere_d is None or near.sphere_d is None or not 0 < near.sphere_d - far.sphere_d <= MOST_ADD_D:
        accepted = f"a near sphere above the distance sphere by at most {MOST_ADD_D:g} D"
        _refuse(rules, "a near sphere that does not fit", accepted)
    return near.sphere_d - far.sphere_d


def with_pds(pair: Pair, pds_mm: tuple[float, float], rules: Rules) -> Pair:
    """The pair with the pupillary distance of each eye, right before left [mm]."""
    if pair.right.pd_mm is not None or pair.left.pd_mm is not None:
        _refuse(rules, "pupillary distances in two places", "each pupillary distance once")
    return Pair(right=replace(pair.right, pd_mm=pds_mm[0]), left=replace(pair.left, pd_mm=pds_mm[1]))


def shared_lengths(pair: Pair, rules: Rules) -> Pair:
    """A vertex distance, or the distance between both pupils, written once behind one eye is said of the pair."""
    vertices = [value for value in (pair.right.vertex_mm, pair.left.vertex_mm) if value is not None]
    pds = [value for value in (pair.right.pd_mm, pair.left.pd_mm) if value is not None]
    if len(set(pds)) == 2 and max(pds) > MOST_MONOCULAR_MM:
        accepted = "the distance from the nose for each eye, or one distance between both pupils"
        _refuse(rules, "two pupillary distances that do not fit", accepted)
    if len(pds) == 1 and pds[0] <= MOST_MONOCULAR_MM:
        accepted = "the pupillary distance of each eye, or the one between both"
        _refuse(rules, "a pupillary distance for one eye only", accepted)
    if len(vertices) == 1:
        pair = Pair(right=replace(pair.right, vertex_mm=vertices[0]), left=replace(pair.left, vertex_mm=vertices[0]))
    if len(pds) == 1:
        pair = Pair(right=replace(pair.right, pd_mm=pds[0]), left=replace(pair.left, pd_mm=pds[0]))
    return pair


def _refuse(rules: Rules, found: str, accepted: str) -> NoReturn:
    raise InputError(rules.field, [Fault(rules.field, found, accepted)])
