"""Ladders of where units stand: the wished place of a unit moved or left free, another wall."""

import json
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from standfast.design.siting import choosing
from standfast.design.siting.ground import in_force
from standfast.design.siting.keepouts import keepouts
from standfast.design.siting.placed import PlacedUnit
from standfast.design.siting.question import Question, Spot
from standfast.design.siting.ruling import rule_of
from standfast.design.siting.solid import Solid
from standfast.foreman.plan import JobPlan
from standfast.foreman.remedies import tape
from standfast.foreman.remedies.change import Change, Entry, Ladder, New, ladder, one
from standfast.reading.positions import Path
from standfast.sheet import Check
from standfast.survey.model import UnitWish
from standfast.units import read

EDGES = {"left": "left edge", "bottom": "lower edge"}


class Wished(NamedTuple):
    """A unit of which an edge is fixed beforehand: where it stands, its name in a sentence, path of each fixed edge."""

    place: PlacedUnit
    name: str
    paths: Mapping[str, Path]

    @property
    def at(self) -> tuple[int, int]:
        """Its left and lower edge, in tenths of a millimetre."""
        return round(self.place.left.quantity * 10), round(self.place.bottom.quantity * 10)


def asked_of(plan: JobPlan, check: Check) -> list[PlacedUnit]:
    """The units that a check names; all of them where it names none."""
    places = plan.design.siting.places
    return [each for each in places if each.id in check.id.split("/")] or list(places)


def place(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """The least way from the wished place to a free one; then each wish of the place left out.

    Where a check names two units, either may be moved.
    """
    for wished in _wished(plan, check):
        asked = _question(plan, wished.place)
        refusing = {each for each in asked.refusing(*wished.at) if each.rule != rule_of(check)}
        yield ladder(_moves(plan, wished, asked))
        if refusing:
            others = [each for each in asked.keepouts if each not in refusing]
            yield ladder(_moves(plan, wished, asked._replace(keepouts=others)))
        yield ladder(_free(wished, [word]) for word in wished.paths)
        if len(wished.paths) > 1:
            yield ladder([_free(wished, list(wished.paths))])


def _wished(plan: JobPlan, check: Check) -> list[Wished]:
    """The units in question of which an edge is fixed: by a wish of its own or, of the only one, by that of the job."""
    found = []
    for each in asked_of(plan, check):
        paths = _paths(plan, each.id)
        if paths and _wall_is_fixed(plan, each.id):
            found.append(Wished(each, _name(plan, each), paths))
    return found


def _own(plan: JobPlan, unit: str) -> tuple[int, UnitWish] | None:
    """The wish of a unit among those of several, with its number in the list."""
    return next((each for each in enumerate(plan.survey.job.wishes.units) if each[1].id == unit), None)


def _paths(plan: JobPlan, unit: str) -> dict[str, Path]:
    wishes, own, alone = plan.survey.job.wishes, _own(plan, unit), _alone(plan)
    paths: dict[str, Path] = {}
    for word in EDGES:
        if own is not None and getattr(own[1], word) is not None:
            paths[word] = ("wishes", "units", own[0], word)
        elif alone and getattr(wishes, word) is not None:
            paths[word] = ("wishes", word)
    return paths


def _wall_is_fixed(plan: JobPlan, unit: str) -> bool:
    own = _own(plan, unit)
    return plan.survey.job.wishes.wall is not None or (own is not None and own[1].wall is not None)


def _alone(plan: JobPlan) -> bool:
    return len(plan.design.siting.places) == 1


def _name(plan: JobPlan, unit: PlacedUnit) -> str:
    return "the unit" if _alone(plan) else unit.unit.name


def _question(plan: JobPlan, unit: PlacedUnit) -> Question:
    """Where a unit may stand beside the others as they are."""
    judged = plan.design.siting.on(unit.wall)
    if _alone(plan):
        return judged.question
    rest = judged.layout._replace(units=tuple(each for each in judged.layout.units if each.id != unit.id))
    bare = unit.unit._replace(solid=Solid(None, unit.unit.solid.y, unit.unit.solid.z))
    return judged.question._replace(keepouts=keepouts(in_force(plan.adoption, rest), rest, bare))


def _moves(plan: JobPlan, wished: Wished, asked: Question) -> list[Change]:
    """The least way to a free place: along the wall alone, up or down alone, both.

    An edge that nobody fixed is chosen anew, as the design chooses it.
    """
    left, bottom = wished.at
    ways = [(True, False), (False, True), (True, True)] if len(wished.paths) > 1 else [(True, True)]
    spots = [choosing.nearest(asked, left, bottom, along=along, up=up) for along, up in ways]
    moves = [move for each in spots if each is not None for move in _moved(plan, wished, each)]
    return sorted((each for each in moves if each.words), key=lambda each: len(each.words))


def _moved(plan: JobPlan, wished: Wished, spot: Spot) -> Iterator[Change]:
    """A unit moved, as the tape of the job has it, then to the tenth; an edge that nobody fixed needs no word."""
    left, bottom = wished.at
    ways = {"left": (spot.left, spot.left - left, "right", "left"),
            "bottom": (spot.bottom, spot.bottom - bottom, "up", "down")}  # fmt: skip
    found = []
    for word, (at, by, forward, back) in ways.items():
        if by and word in wished.paths:
            tries = tape.texts(plan, wished.paths[word], at / 10, 1 if by > 0 else -1)
            found.append((wished.paths[word], tries, at - by, forward if by > 0 else back))
    for last in range(max((len(tries) for _, tries, _, _ in found), default=0)):
        chosen = [(path, tries[min(last, len(tries) - 1)], start, way) for path, tries, start, way in found]
        far = [f"{_far(text, start)} {way}" for _, text, start, way in chosen]
        yield one(f"move {wished.name} {' and '.join(far)}", *((path, text) for path, text, _, _ in chosen))


def _far(text: str, start: int) -> str:
    """How far a new edge is from where it was, in tenths, in the unit of the new one."""
    by = float(read(text).number) - start / 10
    return tape.said(text, max(by, -by))


def _free(wished: Wished, words: list[str]) -> Change:
    says = f"leave the {' and the '.join(EDGES[word] for word in words)} of {wished.name} free to be chosen"
    return one(says, *((wished.paths[word], None) for word in words))


def walls(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """Another surveyed wall, with the place on it to be chosen: for each unit in question, then for all of them."""
    named = [] if _alone(plan) else asked_of(plan, check)
    for unit in named:
        others = [wall.id for wall in plan.survey.job.walls if wall.id != unit.wall]
        yield ladder(one(f"put {unit.unit.name} on the wall {wall}", *_on(plan, unit, wall)) for wall in others)
    taken = {each.wall for each in plan.design.siting.places}
    who = "the unit" if _alone(plan) else "all units"
    yield ladder(
        one(f"{'hang' if _alone(plan) else 'put'} {who} on the wall {wall.id}", *_all_on(plan, wall.id))
        for wall in plan.survey.job.walls
        if taken != {wall.id}
    )


def _on(plan: JobPlan, unit: PlacedUnit, wall: str) -> list[tuple[Path, New]]:
    """The words that put one unit of several on a wall."""
    own = _own(plan, unit.id)
    if own is None:
        number = len(plan.survey.job.wishes.units)
        return [(("wishes", "units", number), Entry(json.dumps({"id": unit.id, "wall": wall})))]
    at = ("wishes", "units", own[0])
    return [((*at, "wall"), wall), *(((*at, word), None) for word in EDGES if getattr(own[1], word) is not None)]


def _all_on(plan: JobPlan, wall: str) -> list[tuple[Path, New]]:
    """The words that put every unit on a wall."""
    wishes = plan.survey.job.wishes
    words: list[tuple[Path, New]] = [(("wishes", "wall"), wall)]
    words += [(("wishes", word), None) for word in EDGES if getattr(wishes, word) is not None]
    return words + [(("wishes", "units", number), None) for number in reversed(range(len(wishes.units)))]
