"""What a maker's manual says about taking a unit down again: state of charge, locks, spacers, lifting."""

from standfast.reading.quantities import Many, Ratio, Table, Text


class Removal(Table):
    """How the maker has it taken down."""

    discharge_to: Ratio | None = None
    """State of charge to which it is brought before it is taken down: "30 %"."""
    transport_locks: Many[Text] = ()
    """Locks that are fitted before it is moved."""
    spacers: Many[Text] = ()
    """Spacers and caps that are put back before it is moved."""
    lift_notes: Many[Text] = ()
    """What the maker says about lifting its parts down."""
    strong_casing: bool | None = None
    """true where the maker states a strong casing that withstands impact, as the rules of carriage ask."""
    damaged: Text | None = None
    """Whom the maker wants called where it is damaged, defective or recalled."""
