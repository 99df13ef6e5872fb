"""Who can feed what: every busbar, and every conductor that is fed from both its ends, as a table of the permit set."""

from collections.abc import Sequence

from standfast.design.installation import Installation
from standfast.design.wiring.feeds import Feed, Side
from standfast.paper.document import Block, Heading, Table, Text, Words
from standfast.sheet.printed import amount

RULE = (
    "Worst sums of steady currents in every state that the switches can be in, loads not taken off; a breaker on "
    "the way lets through no more than its rating. A source that no device clears limits its own current, or is the "
    "utility ahead of the service. Branch circuits to loads are fed from their panel alone and are left out."
)


def blocks(feeds: Sequence[Feed], installation: Installation) -> list[Block]:
    """Heading, rule and table; nothing where nothing was worked out.

    Args:
        feeds: from the wiring.
        installation: the graph of the job, for the names of its parts.
    """
    told = [each for each in feeds if each.a == each.b or (each.from_utility.sources and each.from_other.sources)]
    if not told:
        return []
    rows = [_row(each, installation) for each in told]
    head = ["Busbar or conductor", "From the utility's side", "From the other side", "At most", "While", "Cleared by"]
    table = Table(head, rows, [2.4, 2.6, 2.6, 0.9, 2.4, 4], right=[3], size=7)
    return [Heading("Who can feed each busbar and conductor", 2), Words(RULE, 8), table]


def _row(feed: Feed, installation: Installation) -> list[Text]:
    names = {id: part.name for id, part in installation.parts.items()}
    names |= {f"{part.id}/main": f"{part.name} main" for part in installation.of_kind("busbar")}
    what = f"Busbar of the {names[feed.a]}" if feed.a == feed.b else f"{names[feed.a]} to {names[feed.b]}"
    by = dict[str, list[str]]()
    for each in feed.clearing:
        by.setdefault(each.device, []).append(names[each.source])
    cleared = "; ".join(
        f"{names[device] if device else 'none'}: {', '.join(sources)}" for device, sources in by.items()
    )
    state = "" if feed.state is None else feed.state.name
    most = "no limit" if feed.through is None else amount(feed.through)
    return [what, _side(feed.from_utility, names), _side(feed.from_other, names), most, state, cleared]


def _side(side: Side, names: dict[str, str]) -> str:
    if not side.sources:
        return "nothing"
    current = "no limit" if side.current is None else amount(side.current)
    return f"{', '.join(names[each] for each in side.sources)}: {current}"
