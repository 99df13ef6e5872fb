"""A wall and the bodies on it, cut and seen from above: what the plan and its details draw alike."""

from standfast.design.siting.solid import Solid, mm
from standfast.handover.drawings.face import Face
from standfast.paper.drawing import Drawing
from standfast.survey.house import Wall
from standfast.units import Quantity


def known(quantity: Quantity | None) -> float:
    """A length in mm; 0 where it was not surveyed, so that it is not drawn."""
    return 0.0 if quantity is None else float(quantity.number)


def thickness(wall: Wall) -> float:
    """What is known of the thickness of the wall, mm: board and studs, or concrete; 0 where nothing is."""
    made = wall.build_up
    core = made.stud_depth if made.stud_depth is not None else made.concrete_thickness
    return known(made.lining_thickness) + known(core)


def wall_cut(drawing: Drawing, wall: Wall, seen: Face, left: float, right: float) -> None:
    """The wall cut: its face, the board, studs crossed out as cut wood, concrete hatched."""
    made = wall.build_up
    lining, thick = known(made.lining_thickness) if made.lining != "none" else 0.0, thickness(wall)
    with drawing.part("wall", "The wall, cut"):
        drawing.line((left, 0), (right, 0), pen="heavy")
        if lining:
            drawing.line((left, lining), (right, lining), pen="medium")
        if thick:
            drawing.line((left, thick), (right, thick), pen="heavy" if made.kind == "concrete" else "hidden")
        if made.kind == "concrete" and made.concrete_thickness is not None:
            ring = [(left, lining), (right, lining), (right, thick), (left, thick)]
            drawing.zone([ring], "diagonal", "concrete, cut", edge=False)
        wide, deep = known(made.stud_width), known(made.stud_depth)
        for middle in seen.studs if wide and deep else ():
            a, b = max(left, middle - wide / 2), min(right, middle + wide / 2)
            if a < b:
                drawing.rect(a, lining, b - a, deep, "medium", "white")
                drawing.line((a, lining), (b, lining + deep), pen="fine")
                drawing.line((a, lining + deep), (b, lining), pen="fine")


def box(solid: Solid) -> tuple[float, float, float, float] | None:
    """Left, bottom, width and height on the sheet of a body from above; None where its depth is not known."""
    if solid.x is None or solid.y is None:
        return None
    return mm(solid.x.low), -mm(solid.y.high), mm(solid.x.high - solid.x.low), mm(solid.y.high - solid.y.low)
