"""Laws of the joints of neutral and ground, on random small installations, against counting by hand."""

from bond_graphs import State, answers, by_hand, graph, said
from hypothesis import given, settings
from hypothesis import strategies as st

from standfast.design.installation import Installation
from standfast.design.wiring.bonds import table
from standfast.design.wiring.neutral import Count, Joint, Layers
from standfast.shelf import edition

NEC = edition("nfpa70", "2023")
KINDS = ("busbar", "breaker", "disconnect", "transfer equipment", "inverter", "generator", "load")
SWITCHES = ("breaker", "disconnect", "transfer equipment")


@st.composite
def houses(draw: st.DrawFn) -> tuple[Installation, State, dict[str, bool | None], dict[str, bool | None]]:
    """A tree of parts with a few more links, a state of it, joints and neutrals that are known or not."""
    kinds = {"p0": "utility"}
    kinds |= {f"p{n}": draw(st.sampled_from(KINDS)) for n in range(1, draw(st.integers(2, 8)))}
    ids = list(kinds)
    pairs = [(ids[draw(st.integers(0, n - 1))], ids[n]) for n in range(1, len(ids))]
    if draw(st.booleans()):
        a, b = draw(st.sampled_from(ids)), draw(st.sampled_from(ids))
        pairs += [(a, b)] if a != b and (a, b) not in pairs and (b, a) not in pairs else []
    switches = [id for id in ids if kinds[id] in SWITCHES]
    opened = frozenset(id for id in switches if draw(st.booleans()))
    idle = frozenset(id for id in ids if kinds[id] in ("utility", "inverter", "generator") and draw(st.booleans()))
    answer = st.sampled_from((True, False, None))
    opens = {id: draw(answer) for id in switches}
    joints = {id: draw(answer) for id in draw(st.permutations(ids))[:4] if id not in switches}
    return graph(kinds, pairs), State(opened, idle), joints, opens


def joints_of(values: dict[str, bool | None]) -> list[Joint]:
    return [Joint(id, id, said(f"bond_{id}", value)) for id, value in values.items()]


def counts(
    house: Installation, state: State, joints: dict[str, bool | None], opens: dict[str, bool | None]
) -> list[Count]:
    layers, sides = Layers(house), {id: said(f"opens_{id}", value) for id, value in opens.items()}
    return [layers.count(state, each, joints_of(joints), sides) for each in layers.alive(state)]


@settings(max_examples=150)
@given(houses())
def test_the_bounds_are_those_of_every_way_of_answering_what_is_not_known(case: tuple) -> None:  # type: ignore[type-arg]
    house, state, joints, opens = case
    for island, found in zip(Layers(house).alive(state), counts(*case), strict=True):
        by = {
            by_hand(house, state, island, joints_of(dict(there)), sides)
            for there in answers(joints)
            for sides in answers(opens)
        }
        assert (found.least, found.most) == (min(by), max(by))
        assert bool(found.open) == (found.least != found.most)


@settings(max_examples=80)
@given(houses(), st.data())
def test_one_more_joint_never_makes_two_into_one(case: tuple, data: st.DataObject) -> None:  # type: ignore[type-arg]
    house, state, joints, opens = case
    more = {**joints, data.draw(st.sampled_from([*house.parts])): True}
    for before, after in zip(counts(*case), counts(house, state, more, opens), strict=True):
        assert after.least >= before.least
        assert after.most >= before.most


@settings(max_examples=80)
@given(houses())
def test_opening_neutrals_parts_and_never_joins(case: tuple) -> None:  # type: ignore[type-arg]
    house, state, joints, _ = case
    known: dict[str, bool | None] = {id: bool(value) for id, value in joints.items()}
    shut = counts(house, state, known, {})
    opened: dict[str, bool | None] = dict.fromkeys(state.opened, True)
    cut = counts(house, state, known, opened)
    assert all(after.most <= before.most for before, after in zip(shut, cut, strict=True))
    for before, after in zip(shut, cut, strict=True):
        assert {each.part for each in after.sure} <= {each.part for each in before.sure}


@settings(max_examples=80)
@given(houses())
def test_no_state_passes_that_another_answer_would_fail(case: tuple) -> None:  # type: ignore[type-arg]
    house, state, joints, opens = case
    sides = {id: said(f"opens_{id}", value) for id, value in opens.items()}
    found = table(NEC, house, [state], joints_of(joints), lambda _: sides)
    known = counts(*case)
    for row in found.rows:
        if row.verdict == "pass":
            assert row.bonds.quantity == 1
    if found.checks and found.checks[0].verdict == "pass":
        assert all(row.verdict == "pass" for row in found.rows)
    if found.checks and found.checks[0].verdict == "cannot tell":
        assert any(each.open for each in known)
        assert found.checks[0].reason
