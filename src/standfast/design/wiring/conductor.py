"""The smallest conductor that does: two checks that stay apart.

Before factors, in the column of the terminations, it reaches 125 % of the continuous current; after ambient and
bundling, in the column of its insulation, it reaches the current itself, and its device protects it.
"""

from collections.abc import Callable, Sequence
from typing import NamedTuple

from standfast.design.wiring.pieces import Piece, Portion, deciding, heat
from standfast.design.wiring.runs import Run, agreed
from standfast.faults import Refusal
from standfast.rulebooks.nfpa70 import conductors, overcurrent
from standfast.sheet import Value, attempt, chosen, missing, total, worst
from standfast.shelf import Edition
from standfast.units import convert

Fits = Callable[[Value], bool]


class Need(NamedTuple):
    """What a conductor has to do: amperes before factors, after factors, and its device; own current-carrying ones."""

    before: Value
    after: Value
    device: Value
    own: Value


class Conditions(NamedTuple):
    """What decides its ampacity: metal, insulation, columns in °C, the worst pair of factors of its runs."""

    material: Value
    insulation: Value
    terminations: Value
    insulation_c: Value
    ambient: Value
    bundling: Value


class Carried(NamedTuple):
    """Ampacities of one size in A: at the terminations, after factors, the lower of both, and its largest device."""

    at_terminations: Value
    after_factors: Value
    usable: Value
    device: Value


class Conductor(NamedTuple):
    """The chosen conductor.

    Attributes:
        conditions: what decided its ampacity.
        least: smallest size by ampacity and device: where the equipment grounding conductor starts from.
        size: size to install: `least`, or larger for terminals or voltage.
        carried: ampacities of `size`.
    """

    conditions: Conditions
    least: Value
    size: Value
    carried: Carried


def conditions(book: Edition, column: Value, own: Value, runs: Sequence[Run], metals: Sequence[str]) -> Conditions:
    """Metal, insulation and factors of one conductor through all its runs; the piece that carries least decides.

    Args:
        book: the code.
        column: termination column in °C.
        own: current-carrying conductors of the circuit itself.
        runs: at least one.
        metals: that every end takes, for a run that leaves the metal open.
    """
    material = agreed(runs, "material")
    if material is None:
        found = "copper: every end takes it" if "cu" in metals else "aluminium: every end takes it"
        material = chosen("material", "cu" if "cu" in metals else "al", "", found, None)
    insulation = next((each.insulation for each in runs if each.insulation is not None), None)
    if insulation is None:
        insulation = chosen("insulation", "thhn", "", "usual single conductors, THHN with THWN-2", None)
    kinds = [insulation if each.insulation is None else each.insulation for each in runs]
    limits = [_insulation_limit(book, kind, run) for kind, run in zip(kinds, runs, strict=True)]
    limit = worst("T_ins", limits, "min", book.clause("insulation_temperature"))
    portions = [
        _portion(book, limit, own, run, piece, kind)
        for kind, run in zip(kinds, runs, strict=True)
        for piece in run.pieces
    ]
    ambient, bundling = deciding(book, portions, total("L_min", [run.shortest for run in runs], "ft"))
    return Conditions(material, insulation, column, limit, ambient, bundling)


def carried(book: Edition, where: Conditions, size: Value) -> Carried:
    """What one size carries."""
    at = conductors.tabulated(book, where.material, size, where.terminations, "I_term")
    table = conductors.tabulated(book, where.material, size, where.insulation_c)
    after = conductors.corrected(book, table, where.ambient, where.bundling)
    usable = worst("I_use", [at, after], "min", book.clause("termination_temperature"))
    round_up = chosen("round_up", True, "", "not a branch circuit of receptacles, not a tap", None)
    device = overcurrent.largest(book, usable, round_up, where.material, size)
    return Carried(at, after, usable, device)


def choose(book: Edition, where: Conditions, need: Need, stated: Value | None, takes: Fits, steady: Fits) -> Conductor:
    """The smallest size that carries its current, and the smallest from there that terminals and voltage also ask.

    Args:
        book: the code.
        where: what decides its ampacity.
        need: what it has to do.
        stated: size that the job fixes; None where it is worked out.
        takes: whether the terminals of every end take a size; where none does, the smallest by ampacity stays.
        steady: whether a size keeps the change of voltage small; where none does, the largest that the terminals
            take is chosen. The checks then say what is wrong.
    """
    inputs = (*where, *need)
    if any(each.missing for each in inputs):
        least = chosen("size", "", "", "", None, *inputs)
    else:
        least = attempt("size", "", lambda: _least(book, where, need))
    size = stated if stated is not None else _larger(book, where, least, takes, steady)
    return Conductor(where, least, size, carried_or_missing(book, where, size))


def ladder(book: Edition, where: Conditions) -> list[str]:
    """Sizes that have an ampacity in both columns, smallest first."""
    material, columns = where.material.word, (where.terminations.quantity, where.insulation_c.quantity)
    low, high = (conductors.usable(book, material, each, False) for each in columns)
    return [size for size in low if size in high]


def _least(book: Edition, where: Conditions, need: Need) -> Value:
    for word in ladder(book, where):
        size = chosen("size", word, "", "smallest that carries its current and is protected by its device",
                      book.clause("ampacity"), need.before, need.after, need.device)  # fmt: skip
        try:
            found = carried(book, where, size)
        except Refusal:
            continue
        if (
            found.at_terminations.quantity >= need.before.quantity
            and found.after_factors.quantity >= need.after.quantity
            and found.device.quantity >= need.device.quantity
        ):
            return size
    return missing("size", "", f"no size of {book.table('ampacity').clause} carries {need.before.quantity:.4g} A here")


def _larger(book: Edition, where: Conditions, least: Value, takes: Fits, steady: Fits) -> Value:
    if least.missing or (takes(least) and steady(least)):
        return least
    words, found = ladder(book, where), least
    for word in words[words.index(least.word) + 1 :]:
        size = chosen("size", word, "", f"larger than {least.word} for terminals or voltage", None, least)
        if takes(size):
            found = size
            if steady(size):
                break
    return found


def carried_or_missing(book: Edition, where: Conditions, size: Value) -> Carried:
    """What one size carries; missing where a fact is missing or a rule cannot be applied."""

    def ask(symbol: str, pick: Callable[[Carried], Value]) -> Value:
        if size.missing or any(each.missing for each in where):
            return chosen(symbol, 0.0, "A", "", None, size, *where)
        return attempt(symbol, "A", lambda: pick(carried(book, where, size)))

    return Carried(
        ask("I_term", lambda found: found.at_terminations),
        ask("I_z", lambda found: found.after_factors),
        ask("I_use", lambda found: found.usable),
        ask("I_max", lambda found: found.device),
    )


def _insulation_limit(book: Edition, insulation: Value, run: Run) -> Value:
    return attempt("T_ins", "°C", lambda: conductors.insulation_temperature(book, insulation, run.wet))


def _portion(book: Edition, limit: Value, own: Value, run: Run, piece: Piece, insulation: Value) -> Portion:
    """Both factors of a piece; a raceway that is short from end to end, between two enclosures, bundles nothing."""
    ambient = attempt("k_amb", "1", lambda: conductors.ambient_factor(book, limit, heat(book, piece, insulation)))
    count, nipple = total("n_ccc", [own, piece.others], "1", book.clause("bundling")), book.number("bundle_length")
    if not (count.missing or run.longest.missing) and convert(run.longest.quantity, "ft", "in") <= nipple.quantity:
        met = "the whole raceway is not longer than what the table is for"
        bundling = chosen("k_adj", 1.0, "1", met, book.clause("bundling"), run.longest, nipple, count)
    else:
        bundling = attempt("k_adj", "1", lambda: conductors.bundling_factor(book, count))
    return Portion(f"{run.id} {piece.name}".strip(), piece.longest, ambient, bundling)
