"""The one-line diagram, laid out from the installation graph: one symbol and one name for each device.

The utility stands at the top; every busbar is a heavy line with what hangs from it. Runs of conductors carry a ringed
number that the schedule beside the diagram explains; (E) is there already, (N) is new. A diagram that one sheet cannot
hold goes on on others.
"""

from collections.abc import Sequence
from functools import partial

from standfast.handover.drawings import one_line_draw, one_line_schedule
from standfast.handover.drawings.one_line_cut import Grown, pieces
from standfast.handover.drawings.one_line_draw import ELECTRODE_MM, symbol_of, words_of
from standfast.handover.drawings.one_line_inside import is_inside
from standfast.handover.drawings.one_line_order import arrange
from standfast.handover.drawings.one_line_place import bottom_of, head_of, hidden, lower, move, spread
from standfast.handover.drawings.one_line_told import CODES, OneLine
from standfast.handover.drawings.one_line_tree import HALF, LINE_MM, TEXT_MM, Node, tree
from standfast.paper.drawing import DoesNotFit, Drawing
from standfast.paper.sheets import ANSI_B

TITLE = "One-line diagram"
APART = f"Ringed numbers: see the conductor schedule on sheet {CODES['one-line schedule']}."
APART_MM = 4.0
"""Height of the foot of that line above the edge."""
SIDE_MM = 106.0
"""Width of the schedule beside the diagram."""
PITCH_MM, LEAST_PITCH_MM = 23.0, 18.5
"""From symbol to symbol, if there is room, and at least."""
LEANS = (0.5, 1.0)
"""Where busbars are fed from above: over the middle, or over the last of what hangs from them."""
TOP_MM = 7.0
FORK_MM = 9.0
"""From the fork below a part that several hang from to the symbols of these: room for the ring of a run."""
STEP_MM, STEPS = 1.5, 80
"""How far a part is moved down where a line that leads across would run through a text, and how often."""


def drawings(facts: OneLine, paper: tuple[float, float] = ANSI_B.drawing) -> dict[str, Drawing]:
    """The diagram with its schedule beside it, or each on sheets of its own where they do not fit together.

    A diagram that is too large for one sheet is cut at panels and continued on others.

    Raises:
        DoesNotFit: where a panel with what hangs from it is too large for a sheet, or the schedule for one.
        NoUtility: where the installation has no utility.
    """
    try:
        return {"one-line": draw(facts, paper)}
    except DoesNotFit:
        schedule = draw_schedule(facts, paper)

    def sheet(grown: Grown, number: int) -> Drawing:
        title = f"{TITLE}, continued" if number else TITLE
        return _drawn(facts, grown, paper, beside=False, title=title)

    return {**pieces(partial(_grown, facts), sheet), **schedule}


def draw(facts: OneLine, paper: tuple[float, float] = ANSI_B.drawing, *, beside: bool = True) -> Drawing:
    """The whole diagram on a sheet of paper in mm, with its schedule beside it or without.

    Raises:
        DoesNotFit: where the installation is too large for the sheet.
        NoUtility: where it has no utility.
    """
    return _drawn(facts, partial(_grown, facts), paper, beside=beside)


def draw_schedule(facts: OneLine, paper: tuple[float, float] = ANSI_B.drawing) -> dict[str, Drawing]:
    """Conductors, grounding, notes and symbols on sheets of their own.

    Raises:
        DoesNotFit: where a single entry is too long for a sheet.
        NoUtility: where the installation has none.
    """
    title = "Schedule of the one-line diagram"
    columns = [one_line_schedule.Column(left, SIDE_MM + 40, paper[1] - TOP_MM) for left in (4.0, paper[0] / 2 + 4)]
    kinds = _kinds(_grown(facts, TEXT_MM[0]), facts)
    made = one_line_schedule.sheets(
        facts, kinds, columns, lambda: Drawing(title, "Conductors, grounding, notes and symbols", *paper)
    )
    for drawing in made:
        drawing.finish()
    return {f"one-line schedule, {number}" if number > 1 else "one-line schedule": each
            for number, each in enumerate(made, 1)}  # fmt: skip


def _grown(facts: OneLine, text_mm: float) -> Node:
    return tree(facts.installation, lambda part: words_of(facts, part), text_mm)


def _drawn(
    facts: OneLine, grown: Grown, paper: tuple[float, float], *, beside: bool, title: str = TITLE
) -> Drawing:  # fmt: skip
    """One sheet: the tree that `grown` gives for a width of texts, with the schedule beside it or not."""
    told = "Electrical one-line diagram from the utility to every source and group of loads"
    drawing = Drawing(title, f"{told}, with conductor schedule" if beside else told, *paper)
    edge = 2.0 if beside else APART_MM + LINE_MM
    widths = TEXT_MM[:-1] if beside else TEXT_MM  # texts as narrow as the last are for a sheet that has no choice
    root = _fitted(grown, (paper[0] - (SIDE_MM + 6 if beside else 4), paper[1]), edge, widths)
    numbers = {id: str(number) for number, run in enumerate(facts.runs, 1) for id in run.ids}
    with drawing.part("diagram", title):
        one_line_draw.parts(drawing, root, facts, numbers)
        one_line_draw.earth(drawing, facts, root, numbers)
    if beside:
        with drawing.part("schedule", "Conductor schedule, grounding, notes and symbols"):
            left = paper[0] - SIDE_MM
            drawing.line((left - 4, paper[1] - 2), (left - 4, 2), pen="thin")
            column = one_line_schedule.Column(left, SIDE_MM, paper[1] - TOP_MM)
            one_line_schedule.one_column(drawing, facts, _kinds(root, facts), column)
    else:
        drawing.text((4.0, APART_MM), APART)
    drawing.finish()
    return drawing


def _kinds(root: Node, facts: OneLine) -> list[str]:
    """Names of the symbols that are drawn, in the order of the diagram, for the legend."""
    found = [symbol_of(node, facts) for node in root.parts() if not node.earthed]
    return [each for each in dict.fromkeys(found) if each]


# Where things stand


def _fitted(grown: Grown, room: tuple[float, float], edge: float, widths: Sequence[float] = TEXT_MM) -> Node:
    """The tree in its place, above an edge at the foot, with texts as wide as the room allows."""
    against = ""
    for text_mm in widths:
        for lean in LEANS:
            root = grown(text_mm)
            arrange(root)
            against = _arrange(root, room, edge, lean)
            if not against:
                return root
    raise DoesNotFit(against)


def _arrange(root: Node, space: tuple[float, float], edge: float, lean: float) -> str:
    """Put the tree into a width and a height; what is against it, or nothing where it fits."""
    against = ""
    for _ in range(STEPS):
        against = _placed(root, space, edge, lean)
        under = None if against else hidden(root)
        if under is None:
            return against
        under.lower += STEP_MM
    return "a line of the one-line diagram finds no way between its texts"


def _placed(root: Node, space: tuple[float, float], edge: float, lean: float) -> str:
    room, height = space
    top = height - TOP_MM - (head_of(root) if root.part.kind == "busbar" else HALF)
    for step in range(int(2 * (PITCH_MM - LEAST_PITCH_MM)) + 1):
        lower(root, top, partial(_drop, pitch=PITCH_MM - step / 2))
        if min(bottom_of(node) for node in root.walk()) > edge:
            break
    else:
        return "the one-line diagram is higher than the sheet: it has too many parts in a row"
    left, right = spread(root, lean)
    bus = next((node for node in root.walk() if node.part.kind == "busbar"), root)
    left = min(left, bus.x - bus.left - ELECTRODE_MM)
    if right - left > room:
        return f"the one-line diagram is {right - left:.0f} mm wide, the sheet has {room:.0f} mm"
    move(root, (room - (right - left)) / 2 - left)
    return ""


def _drop(parent: Node, node: Node, pitch: float) -> float:
    """How far a part stands below the one above it; what hangs from one busbar hangs at one height."""
    if node.earthed:
        return max([pitch, *(each.block_mm + 4 for each in parent.children)]) + 4 * HALF
    if parent.part.kind == "busbar":
        inner = [each for each in parent.children if each.inside]
        apart = max([pitch - 4, *(each.block_mm + 4 for each in inner or parent.children)])
        if node.inside or not inner:
            return apart + (0.0 if node.inside else head_of(node) - HALF)
        low = apart + max(max(HALF, each.block_mm / 2) + 1.5 for each in inner)  # the lower edge of the enclosure
        return low + FORK_MM + head_of(node)
    if node.part.kind == "busbar":
        return max(pitch, node.block_mm + HALF + (4 if node.inside else 12))
    if node.part.kind == "load":
        return 2 * HALF + 6
    least = 2 * HALF if is_inside(parent.part) and not node.inside else 0.0  # below the outline of a device
    apart = max(pitch - 4 if node.inside else pitch, (max(parent.block_mm, least) + node.block_mm) / 2 + 3)
    return max(apart, parent.y - bottom_of(parent) + FORK_MM + HALF) if len(parent.fed) > 1 else apart
