"""The circuit of the unit: current, device, conductor, equipment grounding conductor, raceways, voltage."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from standfast.design.wiring import conductor, drop, ends, raceway, runs, sets
from standfast.design.wiring.conductor import Conditions, Conductor, Need
from standfast.design.wiring.ends import End
from standfast.design.wiring.material import Material
from standfast.design.wiring.raceway import Raceway
from standfast.design.wiring.runs import Run
from standfast.rulebooks.nfpa70 import grounding, parallel, sizes
from standfast.rulebooks.nfpa70.raceways import Group
from standfast.sheet import Check, Clause, Value, at_least, at_most, attempt, chosen, given, settle, total

WYE = ("120/208 V single-phase", "120/208 V three-phase")
"""Systems of which two lines and the neutral come from a four-wire wye."""


ALIKE = "all of one length, metal, size, insulation and termination; labels at both ends allow as many to a pole"


class Circuit(NamedTuple):
    """One circuit as it is to be built; drawings, schedules and material lists read it.

    Attributes:
        id: ``battery-1``, or the name of the feeder.
        title: what people call it.
        need: amperes before and after factors, device, own current-carrying conductors.
        conductor: the ungrounded conductors, and the neutral where there is one.
        neutral: yes where a neutral is run, of the size of the ungrounded conductors.
        ground: size of the equipment grounding conductor, of the metal of the circuit.
        ground_least: size by the device alone.
        raceways: one for each run.
        length: of all runs at the bad end of the survey, in ft.
        sets: conductors in parallel to each pole; None where there is one.
    """

    id: str
    title: str
    need: Need
    conductor: Conductor
    neutral: Value
    ground: Value
    ground_least: Value
    raceways: tuple[Raceway, ...]
    length: Value
    sets: Value | None = None

    @property
    def part(self) -> drop.Part:
        """Its conductors, for voltage along them."""
        return drop.Part(self.conductor.conditions.material, self.conductor.size, self.length, self.sets)


def own_conductors(task: Material, neutral: Value) -> Value:
    """Current-carrying conductors of a circuit of two lines.

    Its neutral carries only their imbalance and is not counted, unless both lines are of a wye system: then it carries
    about as much as they do.

    Args:
        task: the job.
        neutral: yes where it has one.
    """
    system = task.job.fact("supply.system", "system")
    if not system.missing and system.word in WYE and neutral.number is not False:
        clause = task.nec.clause("neutral_counted")
        return chosen("n_own", 3.0, "1", "two lines of a wye system and their neutral", clause, system, neutral)
    clause = task.nec.clause("neutral_not_counted")
    return chosen("n_own", 2.0, "1", "two lines; the neutral carries only their imbalance", clause)


def build(
    task: Material, id: str, title: str, need: Need, at: Sequence[End], ways: Sequence[Run], neutral: Value,
    current: Value,
) -> Circuit:  # fmt: skip
    """Work out one circuit.

    Args:
        task: the job.
        id: of the circuit.
        title: what people call it.
        need: what its conductors have to do.
        at: its ends.
        ways: its runs, at least one; sets that the job states run in one raceway.
        neutral: yes where it has one.
        current: in A, for the change of voltage that a size has to keep within.
    """
    column = ends.column(task.nec, need.device, list(at))
    metals = [metal for metal in ("cu", "al") if all(end_takes(each, metal) for each in at)]
    length = total("L_max", [run.longest for run in ways], "ft")
    stated = runs.agreed(ways, "size")

    def under(number: Value | None) -> Conditions:
        own = need.own if number is None else parallel.counted(task.nec, need.own, number)
        return conductor.conditions(task.nec, column, own, ways, metals)

    def takes(size: Value) -> bool:
        return size_fits(task, size, at)

    def steady(size: Value, number: Value | None) -> bool:
        part = drop.Part(under(number).material, size, length, number)
        change = drop.along(task, "V_d", [part], current).percent
        return change.missing or change.quantity <= task.handbook.number("rise_limit").quantity

    number = runs.stated_sets(task, ways)
    if number is None or number.quantity <= 1:
        number = None
        found = conductor.choose(task.nec, under(None), need, stated, takes, lambda size: steady(size, None))
    else:
        found = sets.choose(task.nec, under, need, sets.Fixed(stated, number), 1, takes, steady).conductor
    metal = found.conditions.material
    least = attempt("EGC", "", lambda: grounding.equipment(task.nec, metal, need.device))
    ground = attempt("EGC", "", lambda: grown_ground(task, least, found))
    groups = _groups(task, found, ground, neutral, number)
    tubes = tuple(raceway.plan(task.nec, run, groups) for run in ways)
    return Circuit(id, title, need, found, neutral, ground, least, tubes, length, number)


def checks(task: Material, circuit: Circuit, at: Sequence[End]) -> Iterator[Check]:
    """Conductor, protection, grounding, terminals and raceways of a circuit."""
    nec, id, carried = task.nec, circuit.id, circuit.conductor.carried
    clause = nec.clause("termination_temperature")
    yield at_least(
        f"wiring.conductor-terminations/{id}", f"{circuit.title}: conductor at its terminations, before factors",
        clause, carried.at_terminations, circuit.need.before,
    )  # fmt: skip
    yield at_least(
        f"wiring.conductor-ampacity/{id}", f"{circuit.title}: conductor after ambient and bundling",
        nec.clause("ampacity_corrected"), carried.after_factors, circuit.need.after,
    )  # fmt: skip
    yield at_most(
        f"wiring.conductor-protection/{id}", f"{circuit.title}: its device protects the conductor",
        nec.clause("conductor_protection"), circuit.need.device, carried.device,
    )  # fmt: skip
    if circuit.sets is not None:
        yield from parallel_checks(task, circuit)
    clause = nec.clause("equipment_ground" if circuit.sets is None else "equipment_ground_parallel")
    yield ground_check(task, f"wiring.equipment-ground/{id}", clause, circuit)
    size, metal = circuit.conductor.size, circuit.conductor.conditions.material
    yield from ends.checks(task, id, "line", size, metal, list(at))
    for tube in circuit.raceways:
        yield from raceway.checks(task, id, tube)


def parallel_checks(task: Material, circuit: Circuit) -> Iterator[Check]:
    """Conductors of an AC run in parallel are not too small for it; their terminals take as many."""
    id, title = f"wiring.parallel/{circuit.id}", f"{circuit.title}: size of conductors in parallel"
    clause, size = task.nec.clause("parallel_conductors"), circuit.conductor.size

    def ask() -> Check:
        least = sizes.area(task.nec, task.nec.number("smallest_parallel"), "A_least")
        return at_least(id, title, clause, sizes.area(task.nec, size), least, condition=ALIKE)

    yield settle(id, title, clause, ask)


def grown_ground(task: Material, least: Value, found: Conductor) -> Value:
    """Equipment grounding conductor: by the device, grown with conductors that are larger than they need be.

    Args:
        task: the job.
        least: by the device alone.
        found: the ungrounded conductors.
    """
    if least.missing or found.size.missing or found.least.missing:
        return chosen("EGC", "", "", "", None, least, found.size, found.least)
    capped = grounding.equipment_capped(task.nec, least, found.size)
    if found.size.word == found.least.word:
        return capped
    return grounding.equipment_upsized(task.nec, capped, found.least, found.size).size


def ground_check(task: Material, id: str, clause: Clause, circuit: Circuit) -> Check:
    """The equipment grounding conductor is not smaller than its device and its circuit conductors ask.

    Args:
        task: the job.
        id: of the check.
        clause: that asks for it.
        circuit: the circuit.
    """
    title = f"{circuit.title}: equipment grounding conductor"

    def ask() -> Check:
        have = sizes.area(task.nec, circuit.ground, "A_EGC")
        least = grounding.equipment_capped(task.nec, circuit.ground_least, circuit.conductor.size)
        return at_least(id, title, clause, have, sizes.area(task.nec, least, "A_least"))

    return settle(id, title, clause, ask)


def _groups(task: Material, found: Conductor, ground: Value, neutral: Value, number: Value | None) -> list[Group]:
    """Lines and neutral of every set, and one ground of full size in the raceway that they share."""
    insulation, count = found.conditions.insulation, 1.0 if number is None else number.quantity
    lines = given("n_lines", 2.0 * count, "1", "two ungrounded conductors of each set")
    one = given("n_ground", 1.0, "1", "one equipment grounding conductor")
    groups = [Group(lines, found.size, insulation), Group(one, ground, insulation)]
    if neutral.missing:
        groups.append(Group(chosen("n_neutral", 1.0, "1", "", None, neutral), found.size, insulation))
    elif neutral.yes:
        groups.append(Group(given("n_neutral", count, "1", "a neutral of each set"), found.size, insulation))
    return groups


def size_fits(task: Material, size: Value, at: Sequence[End]) -> bool:
    """Whether the terminals of every end take a size, as far as their data sheets say."""

    def reaches(larger: Value | None, smaller: Value | None) -> bool:
        if larger is None or smaller is None or larger.missing or smaller.missing:
            return True
        return sizes.not_smaller(task.nec, larger.word, smaller.word)

    return all(reaches(size, end.smallest) and reaches(end.largest, size) for end in at)


def end_takes(end: End, metal: str) -> bool:
    """Whether an end takes a metal, as far as its data sheet says."""
    return (
        end.metals is None
        or end.metals.missing
        or (isinstance(end.metals.number, tuple) and metal in end.metals.number)
    )
