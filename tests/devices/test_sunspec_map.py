"""Walking a map: bases in order, ends that are missing, devices that stop answering."""

import pytest

from standfast.devices import sunspec_map
from standfast.devices.sunspec_map import END_MODEL, MARKER, Registers, discover

STORAGE = [713, 7, *range(1, 8)]


def walk(*blocks: tuple[int, list[int]]) -> sunspec_map.Map:
    return discover(Registers(blocks).read)


def test_the_first_base_with_a_marker_counts() -> None:
    both = [(base, [*MARKER, *STORAGE, END_MODEL, 0]) for base in (50000, 0)]
    found = walk(*both)
    assert found.base == 0
    assert [(each.model, each.address, each.length) for each in found.models] == [(713, 2, 7)]
    assert found.end_marker


def test_an_end_model_needs_no_length_behind_it() -> None:
    assert walk((40000, [*MARKER, *STORAGE, END_MODEL])).end_marker


def test_a_map_that_stops_keeps_what_was_read_and_drops_half_a_model() -> None:
    found = walk((40000, [*MARKER, *STORAGE, 701, 153, 1, 2, 3]))
    assert [each.model for each in found.models] == [713]
    assert not found.end_marker


def test_an_unknown_model_is_stepped_over_without_reading_it() -> None:
    found = walk((40000, [*MARKER, 64999, 100]), (40104, [*STORAGE, END_MODEL]))
    assert [each.model for each in found.models] == [64999, 713]
    assert found.end_marker


def test_blocks_that_touch_are_one_map() -> None:
    registers = [*MARKER, *STORAGE, END_MODEL]
    assert walk((40000, registers[:5]), (40005, registers[5:])) == walk((40000, registers))


def test_nothing_and_zeros_are_no_models() -> None:
    assert walk((40000, [*MARKER, 0, 0, 0, 0])).models == []
    assert walk((40000, MARKER)) == sunspec_map.Map(40000, [], False)
    assert walk((40001, MARKER)).base is None


def test_a_long_model_is_read_in_parts_that_the_protocol_allows() -> None:
    registers = Registers([(0, [*MARKER, 701, 153, *[0] * 153, END_MODEL])])
    asked: list[int] = []

    def read(address: int, count: int) -> list[int] | None:
        asked.append(count)
        return registers.read(address, count)

    assert [each.model for each in discover(read).models] == [701]
    assert max(asked) == sunspec_map.LONGEST_READ


def test_blocks_that_disagree_or_leave_the_addresses_are_refused() -> None:
    with pytest.raises(ValueError, match="different numbers"):
        Registers([(5, [1, 2]), (6, [3])])
    with pytest.raises(ValueError, match="no address"):
        Registers([(65535, [1, 2])])
