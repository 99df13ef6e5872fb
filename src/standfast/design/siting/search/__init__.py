"""The cheapest places of several units together, on one wall or several: whole-number geometry that knows no rule.

How to ask::

    asked = Together(
        units=((on_east, on_north), (on_east, on_north)),  # for each unit one Question per wall that it may stand on
        apart=Apart(along=3000, up=3000),                  # what every two units keep from each other, tenths
        strips=(Strip("east", panel_x, 7620, Span(0, 19812), low=0, high=84000),),
    )
    answer = cheapest(asked)      # Answer: spots (one per unit, in order), cost, bound, proven, nodes, need
    in_order(asked)               # lazily: Placement(cost, spots) after Placement, cost never falling
    room_for_another(first, second, apart)  # keep-out that leaves a second unit a place; None where it always has one
    beside(first, spot, second, apart)      # keep-out of a second unit round a first one that stands

`Question` and `Spot` are those of one unit (`siting.choosing`); `Question.wall` names the wall, `Question.wall_cost` is
run that choosing this wall counts for. Costs are halves of a tenth of run, as there. Units with equal questions change
places freely, so only one order of them is looked at. For one unit on one wall without strips this is
`choosing.cheapest`.

Distance between units: two units on one wall are far enough apart where the gap along the wall is at least `along`
or the gap up it at least `up`. Where a rule is read as the true distance, this rectangular form is on the safe side: it
never lets two units stand too near, and may ask a little more of two that stand diagonally. Units on different walls
meet by `Corner` only.

What is proven: `answer.bound` is a cost that no placement is below. `answer.proven` is true where the spots cost
exactly that, or where there are none and none can be: the optimum lies at a vertex, where each coordinate is an edge of
a keep-out, a line on which the cost bends, or such a line and a chain of units in contact (difference constraints; for
equal units a multiple of size and distance). All vertices are looked at, best bound first. Where the budget of nodes
runs out, an exact solver finishes over the same vertices (HiGHS: extra `opt`); without it the best placement that was
met is given, `proven` is false, and `need` says what to install. Round corners: exact to the rounding to whole tenths
for one and two units and for units that cannot stand above one another; else (three units wedged between them, one
upon the others, might stand at no such vertex) the answer is not called proven, and the bound is that of the units each
by itself.
"""

from standfast.design.siting.search.asked import Apart, Corner, Strip, Together
from standfast.design.siting.search.best import Answer, Placement, cheapest, in_order
from standfast.design.siting.search.room import beside, room_for_another

__all__ = [
    "Answer", "Apart", "Corner", "Placement", "Strip", "Together", "beside", "cheapest", "in_order",
    "room_for_another",
]  # fmt: skip
