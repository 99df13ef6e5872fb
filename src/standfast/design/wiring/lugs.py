"""Conductors that begin without a breaker of their own: from feed-through lugs, and taps of a feeder."""

from collections.abc import Iterator, Mapping, Sequence

from standfast.design.wiring import protected
from standfast.design.wiring.feeder import Feeder
from standfast.design.wiring.material import Material
from standfast.design.wiring.sources import Beside, Source, by_source, generating
from standfast.rulebooks.nfpa70 import busbars, feeders
from standfast.sheet import Check, Value, at_least, at_most, cannot_tell, missing


def checks(
    task: Material, found: Feeder, added: Sequence[Source], beside: Mapping[str, Sequence[Beside]]
) -> Iterator[Check]:  # fmt: skip
    """What is asked of a feeder beside what every feeder is asked.

    Args:
        task: the job.
        found: the feeder.
        added: every source that the job adds.
        beside: of each panel, generators on it or beyond it that can feed while its own feed does.
    """
    content = task.panel(found.panel)
    if content.fed_by == protected.LUGS:
        yield _feed_through(task, found, added, beside)
    elif content.fed_by == protected.TAP and content.fed_from is not None:
        yield from _tap(task, found, content.fed_from, added)
    taps = [
        each.id for each in task.job.content.panels if each.fed_by == protected.TAP and each.fed_from == found.panel
    ]
    on_taps = [output for each in taps for output in by_source(task, each, added).values()]
    if on_taps:
        id, title = f"wiring.feeder-beyond/{found.panel}", f"{found.title}: beyond the tap that a source feeds"
        yield _beyond(task, id, title, found, found.device, on_taps)


def _feed_through(
    task: Material, found: Feeder, added: Sequence[Source], beside: Mapping[str, Sequence[Beside]]
) -> Check:  # fmt: skip
    """The conductors carry what protects the busbar that they begin at, and every source that is on it."""
    primary, own = protected.device(task, found.above), by_source(task, found.panel, added)
    others = [output for source, output in by_source(task, found.above, added).items() if source not in own]
    beyond = {each.generator for each in beside.get(found.panel, ())}
    others += [generating(task, each) for each in beside.get(found.above, ()) if each.generator not in beyond]
    id, title = f"wiring.feed-through/{found.panel}", f"{found.title}: conductors of the feed-through lugs"
    clause = task.nec.clause("source_busbar_feed_through")
    return _beyond(task, id, title, found, primary, others)._replace(clause=clause)


def _beyond(
    task: Material, id: str, title: str, found: Feeder, primary: Value, outputs: Sequence[Value]
) -> Check:  # fmt: skip
    lugs = task.panel(found.panel).main_lugs
    end = None if lugs else task.job.fact(f"panels.{found.panel}.main", "I_end", "A")
    needed = feeders.needed_beyond_source(task.nec, primary, outputs)
    return feeders.beyond_source(task.nec, id, found.usable, needed, end)._replace(title=title)


def _tap(task: Material, found: Feeder, tapped: str, added: Sequence[Source]) -> Iterator[Check]:
    """A tap by its length: a tenth or a third of the feeder's device and the sources on it; it ends in one device."""
    id, title, clause = f"wiring.tap/{found.panel}", f"{found.title}: a tap", task.nec.clause("source_tap")
    length = found.part.length
    outputs = by_source(task, tapped, added) | by_source(task, found.panel, added)
    sources = busbars.sources_125(task.nec, list(outputs.values()))
    if length.missing:
        yield cannot_tell(id, title, clause, length.how, length)
    elif length.quantity <= task.nec.number("tap_10_length").quantity:
        yield at_least(id, title, clause, found.usable, feeders.tap(task.nec, found.device, sources, 10))
    elif length.quantity <= task.nec.number("tap_25_length").quantity:
        yield at_least(id, title, clause, found.usable, feeders.tap(task.nec, found.device, sources, 25))
    else:
        yield at_most(id, title, task.nec.clause("tap_25_ft"), length, task.nec.number("tap_25_length"))
    end = task.job.fact(f"panels.{found.panel}.main", "I_end", "A")
    if task.panel(found.panel).main_lugs:
        end = missing("I_end", "A", f"panels.{found.panel}.main: a tap ends in one device; lugs are none")
    title = f"{found.title}: the device at the end of the tap"
    yield at_most(f"wiring.tap-end/{found.panel}", title, task.nec.clause("tap"), end, found.usable)
