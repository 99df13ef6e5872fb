"""Answers for several columns of a case at once."""

from collections.abc import Callable

from standfast.proof.inputs import BadCase, Inputs


def columns(case: Inputs, one: Callable[..., float], *names: str) -> float | list[float]:
    """Ask once for each row of some inputs.

    Args:
        case: the inputs.
        one: takes a number of each input and gives the answer of a row.
        names: inputs, each a number for all rows or a list; the lists have one length.

    Returns:
        A list, or a single answer where every input is a single number.
    """
    given = [case.numbers(name) for name in names]
    lists = {name: len(column) for name, column in zip(names, given, strict=True) if isinstance(case.raw(name), list)}
    if len(set(lists.values())) > 1:
        raise BadCase(f"the lists have unlike lengths: {lists}")
    rows = next(iter(lists.values()), 1)
    filled = [column if name in lists else column * rows for name, column in zip(names, given, strict=True)]
    answers = [one(*row) for row in zip(*filled, strict=True)]
    return answers if lists else answers[0]
