"""The runs of a circuit, piece by piece: where a condition changes along them a new piece begins."""

from collections.abc import Iterator
from typing import NamedTuple

from standfast.design.wiring.metric.question import Question
from standfast.sheet import Value, chosen, missing, total, work
from standfast.survey.joined import Way, way
from standfast.survey.power import Route


class Piece(NamedTuple):
    """A piece of a run in which conditions stay alike.

    Attributes:
        id: of the route, and of the section where it has any.
        ambient: highest temperature round it in °C.
        method: reference method of installation.
        together: circuits that touch or share an enclosure, this one counted, those left out that are hardly loaded.
        insulated: length in mm that thermal insulation surrounds on all sides.
    """

    id: str
    ambient: Value
    method: Value
    together: Value
    insulated: Value


class Runs(NamedTuple):
    """The runs of one circuit in a row.

    Attributes:
        routes: their ids.
        pieces: of all of them.
        longest: one way in m, with the tolerance of route lengths.
        cable: kind of cable.
        area: of the live conductors in mm2, where the job states it.
        protective: of the protective conductor in mm2, where the job states it.
        new: true where any of them is added.
    """

    routes: tuple[str, ...]
    pieces: tuple[Piece, ...]
    longest: Value
    cable: Value
    area: Value | None
    protective: Value | None
    new: bool


def between(q: Question, start: str, end: str) -> Runs:
    """The runs from one thing to another; of runs that no route tells, everything is missing."""
    found = way(q.job.content, start, [end])
    return unsaid(start, end) if found is None or not found.routes else of_routes(q, found.routes)


def to_panel(q: Question, source: str) -> Way | None:
    """The way from a source to the nearest panel; None where no routes lead there."""
    return way(q.job.content, source, q.job.ids("panels"))


def of_routes(q: Question, ids: tuple[str, ...]) -> Runs:
    """Routes of the job in a row."""
    routes = [each for id in ids for each in q.job.content.routes if each.id == id]
    lengths = [_longest(q, each.id) for each in routes]
    return Runs(
        ids, tuple(piece for each in routes for piece in _pieces(q, each)), total("L_max", lengths, "m"),
        _agreed(q, "cable", ids), _first(q, "area", ids), _first(q, "protective_area", ids),
        any(each.state != "existing" for each in routes),
    )  # fmt: skip


def _longest(q: Question, route: str) -> Value:
    length = q.job.fact(f"routes.{route}.length", "L", "m")
    return work("L_max", "L * (1 + p_route / 100)", "m", None, length, _tolerance(q))


def _tolerance(q: Question) -> Value:
    """Tolerance of route lengths in per cent: of the survey, else the common one."""
    if q.job.has("tolerances.route"):
        return q.job.fact("tolerances.route", "p_route", "%")
    return q.book("handbook").number("route_tolerance")


def _pieces(q: Question, route: Route) -> Iterator[Piece]:
    """The sections of a route, or the whole of it where it is one all along."""
    base = f"routes.{route.id}"
    for path in [f"{base}.sections.{each.id}" for each in route.sections] or [base]:
        yield Piece(
            path.replace("routes.", "").replace(".sections.", ", "), _of(q, path, base, "ambient", "theta_a", "°C"),
            _of(q, path, base, "method", "method", ""), _together(q, path, base),
            _of(q, path, base, "in_insulation", "l_ins", "mm"),
        )  # fmt: skip


def _of(q: Question, path: str, base: str, word: str, symbol: str, unit: str) -> Value:
    """What a section says of itself, else what its route says for all of it."""
    here = f"{path}.{word}" if q.job.has(f"{path}.{word}") else f"{base}.{word}"
    return q.job.fact(here, symbol, unit)


def _together(q: Question, path: str, base: str) -> Value:
    """Circuits that count for grouping: those that carry little of what they may are left out."""
    count = _of(q, path, base, "circuits_together", "n_together", "1")
    holder = path if q.job.has(f"{path}.circuits_light") else base
    if not q.job.has(f"{holder}.circuits_light"):
        return count
    light = q.job.fact(f"{holder}.circuits_light", "n_light", "1")
    share = q.rules.number("grouping_light")
    if not (light.missing or count.missing) and light.quantity >= count.quantity:
        need = f"{holder}.circuits_light: fewer than circuits_together, of which this one is one"
        return missing("n_group", "1", need, count, light)
    counted = work("n_group", "max(n_together - n_light, 1)", "1", share.clause, n_together=count, n_light=light)
    how = "" if share.missing else f"each of them carries at most {share.quantity:g} % of what it may in the group"
    return counted if counted.missing else chosen("n_group", counted.quantity, "1", how, share.clause, counted, share)


def _agreed(q: Question, word: str, ids: tuple[str, ...]) -> Value:
    """One cable all along: what differs between routes in a row is not known."""
    found = [q.job.fact(f"routes.{id}.{word}", word) for id in ids]
    lacking = next((each for each in found if each.missing), None)
    if lacking is not None:
        return lacking
    if len({each.word for each in found}) > 1:
        return missing(word, "", f"routes {', '.join(ids)}: one {word} all along, or a circuit of its own for each")
    return found[0]


def _first(q: Question, word: str, ids: tuple[str, ...]) -> Value | None:
    """The least area that a row of routes states; None where none states any."""
    symbol = {"area": "S", "protective_area": "S_p"}[word]
    found = [q.job.fact(f"routes.{id}.{word}", symbol, "mm2") for id in ids if q.job.has(f"routes.{id}.{word}")]
    return min(found, key=lambda each: each.quantity) if found else None


def unsaid(start: str, end: str) -> Runs:
    """Runs of which nothing is known but what they have to join."""
    need = f"routes: the runs from {start} to {end}"
    asked = {"ambient": ("theta_a", "°C"), "method": ("method", ""), "together": ("n_together", "1"),
             "insulated": ("l_ins", "mm")}  # fmt: skip
    piece = Piece(f"{start} to {end}", **{word: missing(*said, need) for word, said in asked.items()})
    return Runs((), (piece,), missing("L_max", "m", need), missing("cable", "", need), None, None, new=True)
