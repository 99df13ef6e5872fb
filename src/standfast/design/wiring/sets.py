"""How many equal conductors in parallel, and of which size: the fewest sets that carry the current and fit."""

from collections.abc import Callable, Iterator
from typing import NamedTuple

from standfast.design.wiring.conductor import Carried, Conditions, Conductor, Fits, Need
from standfast.faults import Refusal
from standfast.rulebooks.nfpa70 import conductors, overcurrent, parallel, sizes
from standfast.sheet import Value, attempt, chosen, missing, worst
from standfast.shelf import Edition

Under = Callable[[Value], Conditions]
"""What decides the ampacity of a number of sets: all of them bundle in one raceway."""
Steady = Callable[[Value, Value], bool]
"""Whether a number of sets of a size keeps the change of voltage small."""


class Sets(NamedTuple):
    """How many sets, and their conductor: its ampacities are those of all sets together."""

    number: Value
    conductor: Conductor


class Fixed(NamedTuple):
    """What the job fixes: size and number of sets; None where it is worked out."""

    size: Value | None
    number: Value | None


def choose(
    book: Edition, under: Under, need: Need, fixed: Fixed, most: int, takes: Fits, steady: Steady
) -> Sets:  # fmt: skip
    """The fewest sets, and of these the smallest size, that carry the current, fit the terminals and hold the voltage.

    Args:
        book: the code.
        under: conditions of a number of sets.
        need: what they have to do; its own conductors are those of one set.
        fixed: what the job fixes.
        most: sets that the terminals take.
        takes: whether the terminals of every end take a size; where none does, the smallest by ampacity stays.
        steady: where nothing is steady, the most copper that the terminals take is chosen, and a check says so.
    """
    numbers = [fixed.number] if fixed.number is not None else list(_numbers(most))
    spare: list[Sets] = []
    for number in numbers:
        where = under(number)
        if any(each.missing for each in (*where, *need, number)):
            size = chosen("size", "", "", "", None, *where, *need, number)
            return Sets(number, _made(book, where, size, size if fixed.size is None else fixed.size, number))
        least = _least(book, where, need, number)
        if fixed.size is not None:
            spare.append(Sets(number, _made(book, where, least, fixed.size, number)))
            if _carries(spare[-1].conductor.carried, need) and steady(fixed.size, number):
                return spare[-1]
            continue
        if least.missing:
            continue
        found = [size for size in _upward(book, where, least, number) if takes(size)]
        held = next((size for size in found if steady(size, number)), None)
        if held is not None:
            return Sets(number, _made(book, where, least, held, number))
        spare.append(Sets(number, _made(book, where, least, found[-1] if found else least, number)))
    if not spare:
        need_text = f"{book.table('ampacity').clause} has no size that carries {need.before.quantity:.4g} A here"
        size = missing("size", "", f"{need_text}, in as many sets as the terminals take")
        return Sets(numbers[0], _made(book, under(numbers[0]), size, size, numbers[0]))
    if fixed.size is not None:
        return next((each for each in spare if _carries(each.conductor.carried, need)), spare[0])
    fitting = [each for each in spare if takes(each.conductor.size)]
    return max(fitting, key=lambda each: _copper(book, each)) if fitting else spare[0]


def carried(book: Edition, where: Conditions, size: Value, number: Value) -> Carried:
    """What a number of sets of one size carries together."""
    at = parallel.tabulated(book, where.material, size, where.terminations, number, "I_term")
    table = conductors.tabulated(book, where.material, size, where.insulation_c)
    one = conductors.corrected(book, table, where.ambient, where.bundling)
    after = conductors.of_sets(book, one, number, size)
    usable = worst("I_use", [at, after], "min", book.clause("termination_temperature"))
    round_up = chosen("round_up", True, "", "not a branch circuit of receptacles, not a tap", None)
    return Carried(at, after, usable, overcurrent.largest(book, usable, round_up, where.material, size))


def _numbers(most: int) -> Iterator[Value]:
    yield chosen("n_set", 1.0, "1", "one conductor to a pole", None)
    for number in range(2, most + 1):
        met = "the fewest that carry the current with a size that every terminal takes"
        yield chosen("n_set", float(number), "1", met, None)


def _least(book: Edition, where: Conditions, need: Need, number: Value) -> Value:
    for word in _ladder(book, where, number):
        size = chosen("size", word, "", "smallest that carries its current and is protected by its device",
                      book.clause("ampacity"), need.before, need.after, need.device, number)  # fmt: skip
        try:
            found = carried(book, where, size, number)
        except Refusal:
            continue
        if _carries(found, need):
            return size
    return missing("size", "", f"no size of {book.table('ampacity').clause} carries {need.before.quantity:.4g} A here")


def _carries(found: Carried, need: Need) -> bool:
    """Whether known ampacities reach what is needed; not known, they do not."""
    pairs = ((found.at_terminations, need.before), (found.after_factors, need.after), (found.device, need.device))
    return all(not have.missing and have.quantity >= asked.quantity for have, asked in pairs)


def _upward(book: Edition, where: Conditions, least: Value, number: Value) -> Iterator[Value]:
    yield least
    words = _ladder(book, where, number)
    for word in words[words.index(least.word) + 1 :]:
        yield chosen("size", word, "", f"larger than {least.word} for terminals or voltage", None, least)


def _ladder(book: Edition, where: Conditions, number: Value) -> list[str]:
    material, columns = where.material.word, (where.terminations.quantity, where.insulation_c.quantity)
    low, high = (conductors.usable(book, material, each, number.quantity > 1) for each in columns)
    return [size for size in low if size in high]


def _made(book: Edition, where: Conditions, least: Value, size: Value, number: Value) -> Conductor:
    def ask(symbol: str, pick: Callable[[Carried], Value]) -> Value:
        if any(each.missing for each in (*where, size, number)):
            return chosen(symbol, 0.0, "A", "", None, size, number, *where)
        return attempt(symbol, "A", lambda: pick(carried(book, where, size, number)))

    return Conductor(
        where, least, size,
        Carried(
            ask("I_term", lambda found: found.at_terminations), ask("I_z", lambda found: found.after_factors),
            ask("I_use", lambda found: found.usable), ask("I_max", lambda found: found.device),
        ),
    )  # fmt: skip


def _copper(book: Edition, found: Sets) -> float:
    return found.number.quantity * sizes.area(book, found.conductor.size).quantity
