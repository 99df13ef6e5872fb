"""How often and how long: frequency multiplier, duration class, and the composite index of several tasks."""

from collections.abc import Sequence
from typing import NamedTuple

from standfast.faults import OutsideTable
from standfast.sheet import Value, chosen, missing, total, work, worst
from standfast.shelf import Edition

CLASSES = ("short", "moderate", "long")


class Period(NamedTuple):
    """A stretch of a day: ``lifting``, or ``light`` (light work or rest, which counts as recovery), and its minutes."""

    work: str
    minutes: Value


class Duration(NamedTuple):
    """The duration class of the longest pooled period, its minutes, and the recovery it asks for in minutes."""

    word: Value
    work_min: Value
    recovery_min: Value


class Task(NamedTuple):
    """One of several lifting tasks: load, lifts a minute, and weight limit without the frequency multiplier."""

    L: Value
    F: Value
    FIRWL: Value


class Composite(NamedTuple):
    """Single-task indices in the order of the tasks, and the composite lifting index."""

    STLI: list[Value]
    CLI: Value


def multiplier(book: Edition, F: Value, duration: str, band: Value, symbol: str = "FM") -> Value:
    """FM (table 5), linear between rows; rarer than the first row counts as the first, oftener than the last gives 0.

    Args:
        book: the edition.
        F: lifts a minute.
        duration: ``short``, ``moderate`` or ``long``.
        band: height band of the hands at the **origin** of the lift.
        symbol: symbol of the result.
    """
    least, most = book.number("frequency_least"), book.number("frequency_most")
    if F.missing:
        return missing(symbol, "1", F.how, F)
    if F.quantity < 0:
        raise OutsideTable(f"{book.short}: {F.quantity:g} lifts a minute is no frequency")
    used = work("F_used", "max(F, F_least)", F.unit, book.clause("frequency_multiplier"), least, F=F)
    if used.quantity > most.quantity:
        how = f"more than {most.quantity:g} lifts a minute: nothing may be lifted"
        return chosen(symbol, 0.0, "1", how, most.clause, F, most)
    return book.table("frequency_multiplier").look(symbol, "fm", duration=duration, height=band, f=used)


def special(book: Edition, lifts_per_min: Value, work_min: Value, window_min: Value) -> Value:
    """F where lifting fills only part of a window of time (the manual's special procedure for 15 minutes)."""
    clause = book.clause("special_frequency")
    return work("F", "n * t_work / t_window", lifts_per_min.unit, clause, n=lifts_per_min, t_work=work_min,
                t_window=window_min)  # fmt: skip


def duration_class(book: Edition, minutes: Value) -> Value:
    """The duration class of a stretch of lifting. OutsideTable beyond the longest: the manual covers no such day."""
    if minutes.missing:
        return missing("duration", "", minutes.how, minutes)
    for word in CLASSES:
        limit = book.number(f"{word}_minutes")
        if minutes.quantity <= limit.quantity:
            how = f"not more than {limit.quantity:g} min"
            return chosen("duration", word, "", how, book.clause("duration"), minutes, limit)
    raise OutsideTable(f"{book.short}: {minutes.quantity:g} min of lifting is longer than the equation covers")


def recovery(book: Edition, minutes: Value) -> Value:
    """Minutes of light work or rest that a stretch of lifting asks for before the next one counts as new."""
    ratio = book.number(f"recovery_{duration_class(book, minutes).word}", "r")
    return work("t_recovery", "r * t_work", "min", book.clause("duration"), ratio, t_work=minutes)


def pooled(book: Edition, periods: Sequence[Period]) -> Duration:
    """Duration of a day's lifting: stretches without enough recovery between them are added together.

    Raises:
        OutsideTable: without any lifting, with another word for a period, or beyond the longest class.
    """
    pools: list[Value] = []
    now: list[Value] = []
    rest: list[Value] = []
    for period in periods:
        if period.work == "light":
            rest.append(period.minutes)
        elif period.work != "lifting":
            raise OutsideTable(f"{book.short}: a period is 'lifting' or 'light', not {period.work!r}")
        else:
            if now and rest and _rested(book, now, rest):
                pools.append(total("t_work", now, "min"))
                now = []
            now.append(period.minutes)
            rest = []
    if not now:
        raise OutsideTable(f"{book.short}: no lifting in these periods")
    pools.append(total("t_work", now, "min"))
    longest = worst("t_work", pools, "max", book.clause("duration"))
    return Duration(duration_class(book, longest), longest, recovery(book, longest))


def composite(book: Edition, tasks: Sequence[Task], duration: str, band: Value) -> Composite:
    """CLI of several tasks in one period (p. 28): the worst single task, plus what each further task adds.

    Raises:
        OutsideTable: without a task, or at a frequency at which nothing may be lifted.
    """
    clause = book.clause("composite_index")
    if not tasks:
        raise OutsideTable(f"{book.short}: a composite index needs at least one task")
    singles = []
    for task in tasks:
        FM = _above_zero(book, multiplier(book, task.F, duration, band))
        singles.append(work("STLI", "L / (FIRWL * FM)", "1", clause, L=task.L, FIRWL=task.FIRWL, FM=FM))
    order = sorted(range(len(tasks)), key=lambda each: -singles[each].quantity)
    parts = [singles[order[0]]]
    lifts = [tasks[order[0]].F]
    before = multiplier(book, lifts[0], duration, band)
    for each in order[1:]:
        task = tasks[each]
        lifts.append(task.F)
        together = total("F_sum", lifts, task.F.unit, clause)
        after = _above_zero(book, multiplier(book, together, duration, band, "FM_with"))
        fili = work("FILI", "L / FIRWL", "1", clause, L=task.L, FIRWL=task.FIRWL)
        parts.append(
            work("dLI", "FILI * (1 / FM_with - 1 / FM_without)", "1", clause, fili, FM_with=after, FM_without=before)
        )
        before = after
    return Composite(singles, total("CLI", parts, "1", clause))


def _rested(book: Edition, now: list[Value], rest: list[Value]) -> bool:
    asked = recovery(book, total("t_work", now, "min"))
    return total("t_rest", rest, "min").quantity >= asked.quantity


def _above_zero(book: Edition, FM: Value) -> Value:
    if not FM.missing and FM.quantity <= 0:
        raise OutsideTable(f"{book.short}: at this frequency nothing may be lifted, so there is no index")
    return FM
