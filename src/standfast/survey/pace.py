"""How long the firm's own people take for each kind of work, and how its day goes."""

from standfast.reading.quantities import Many, Table, Time
from standfast.survey.visit import Clock


class Pace(Table):
    """The firm's own time for each kind of work; what is absent is common practice, marked as such."""

    papers: Time | None = None
    """To read the papers on site, once."""
    delivery: Time | None = None
    """To open and check one unit or inverter."""
    van: Time | None = None
    """To check the van against its lists, once."""
    scan: Time | None = None
    """To mark and scan one hole."""
    dust: Time | None = None
    """To set up dust control, once."""
    hole: Time | None = None
    """To drill one hole and set its fastener."""
    mount: Time | None = None
    """To fix one panel, switch or inverter, its holes not counted."""
    lift_ready: Time | None = None
    """To get the way, the aid and the people ready for the lift."""
    lift: Time | None = None
    """To lift one part into its place."""
    fit: Time | None = None
    """For one other step of a data sheet."""
    raceway: Time | None = None
    """To fit one metre of raceway with its supports."""
    raceway_end: Time | None = None
    """To fit one end of a raceway or cable."""
    cable: Time | None = None
    """To lay one metre of cable with its supports."""
    pull: Time | None = None
    """To pull one metre of one conductor."""
    joint: Time | None = None
    """To land one conductor, or tighten one bolt, with its torque and mark."""
    switch: Time | None = None
    """To open, close, lock or unlock one switch."""
    pair: Time | None = None
    """To test one pair of conductors dead, the tester proved before and after."""
    cover: Time | None = None
    """To take one cover off, or to fit it."""
    circuit: Time | None = None
    """To move one circuit into another panel."""
    label: Time | None = None
    """To put up one label."""
    test: Time | None = None
    """To do one test and write its readings down."""
    look: Time | None = None
    """To look at everything before power, once."""
    extra: Time | None = None
    """For one piece of work on the existing house."""
    hand_over: Time | None = None
    """To hand over to the owner."""


class Break(Table):
    """A break of the whole crew."""

    after: Time
    """How long after arrival it begins: "4 h"."""
    length: Time
    """How long it is: "30 min"."""


class Day(Table):
    """The working day of the firm."""

    start: Clock | None = None
    """Time of day at which a crew arrives, where the job does not say: "08:00"."""
    length: Time | None = None
    """How long a crew is on site at most: "9 h". Longer work is split over days; without it nobody is told how many."""
    longer: Time | None = None
    """By how much the day may grow so that the house is shorter without power; absent: not at all."""
    breaks: Many[Break] = ()
    """Breaks of the whole crew."""
