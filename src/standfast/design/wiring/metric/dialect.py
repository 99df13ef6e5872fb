"""What the engine asks of a country. Each function names its rulebook; the engine holds no number of any country."""

from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

from standfast.design.wiring.house import Row
from standfast.design.wiring.metric.built import MetricWiring, Notification
from standfast.design.wiring.metric.question import Question
from standfast.sheet import Check, Value


class Dialect(NamedTuple):
    """The rules of one country, as functions of a question.

    Every function may raise NotInEdition or OutsideTable: what hangs on it then cannot be told. What the engine itself
    asks of the wiring rules has the same key in each country's book: the clauses ``current``, ``voltage_drop``,
    ``voltage_drop_limit``, ``voltage_rise``, ``earth_loop``, ``disconnection``, ``adiabatic``, ``residual_type``,
    ``residual_direction``, ``assembly_rating``, ``isolation``, ``maker``, ``breaking_capacity``, ``maximum_demand``,
    ``island_protection``; the numbers ``grouping_light`` (%), ``cold_reading`` and ``instantaneous_time`` (s).

    Attributes:
        name: of the country, for texts.
        rules: the book of its wiring rules.
        areas: cable → the areas in mm2 that its tables hold, rising.
        tabulated: cable, method, loaded conductors, area in mm2 → current in A before factors.
        ambient: cable, ambient in °C → factor.
        grouping: method, circuits together → factor.
        insulation: length in mm that insulation surrounds, → factor.
        drop: cable, ``single phase`` or ``three phase``, area → mV/A/m, return conductor included, conductors hot.
        drop_temperature: cable, I_b, I_t, product of ambient and grouping factors → correction of it for the real
            temperature; 1 where the rules have none.
        drop_limit: greatest drop from the origin in per cent.
        rise_limit: greatest rise from the origin to an inverter in per cent.
        resistance: area → ohm/km at 20 °C.
        warm: cable → factor on that for conductors as warm as a fault finds them.
        protective: cable, area of the line → area in mm2 of the protective conductor that goes with it.
        trip_multiple: curve → multiple of the rating at which a breaker trips at once.
        voltage_factor: factor on the voltage for the least fault current.
        longest: earthing of the supply, true for a final circuit, → disconnection time in s.
        k: cable → factor of its protective conductor in A s^0.5/mm2.
        let_through: curve, rating, breaking capacity → energy in A2 s that a breaker lets through.
        residual_time: multiple of the rated residual current, true for a delayed device → longest tripping time in s.
        suits: id, title, type of a residual device, type that the maker of the inverter asks → the check on it.
        direction: id, title, whether sources feed it backwards, whether it is made for that → the check on it.
        demand: the lines of the load of the house without the battery, each a current in A after diversity.
        notification: what the grid operator is told; None where nobody is told.
        more: checks that only this country has.
        by_table: true where a protective conductor of the area that goes with its line needs no proof by energy.
    """

    name: str
    rules: str
    areas: Callable[[Question, str], Sequence[float]]
    tabulated: Callable[[Question, str, str, int, Value], Value]
    ambient: Callable[[Question, str, Value], Value]
    grouping: Callable[[Question, str, Value], Value]
    insulation: Callable[[Question, Value], Value]
    drop: Callable[[Question, str, str, Value], Value]
    drop_temperature: Callable[[Question, str, Value, Value, Value], Value]
    drop_limit: Callable[[Question], Value]
    rise_limit: Callable[[Question], Value]
    resistance: Callable[[Question, Value], Value]
    warm: Callable[[Question, str], Value]
    protective: Callable[[Question, str, Value], Value]
    trip_multiple: Callable[[Question, str], Value]
    voltage_factor: Callable[[Question], Value]
    longest: Callable[[Question, str, bool], Value]
    k: Callable[[Question, str], Value]
    let_through: Callable[[Question, str, Value, Value], Value]
    residual_time: Callable[[Question, Value, bool], Value]
    suits: Callable[[Question, str, str, Value, Value], Check]
    direction: Callable[[Question, str, str, Value, Value], Check]
    demand: Callable[[Question], Sequence[Row]]
    notification: Callable[[Question], Notification | None]
    more: Callable[[Question, MetricWiring], Iterator[Check]]
    by_table: bool = False
