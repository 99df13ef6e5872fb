"""Which packing instructions stand open for a lithium-ion battery that leaves a house.

Between them decides whether it is damaged, and for a damaged one an assessment that a person makes: whether it is
liable to react dangerously. The result names instructions for a trained shipper to check; it is never leave to ship.
"""

from standfast.sheet import Value, chosen, missing
from standfast.shelf import Edition

KEYS = {"sound": ("sound", "large_sound"), "damaged": ("damaged", "large_damaged"),
        "reacting": ("reacting", "large_reacting")}  # fmt: skip


def instructions(book: Edition, damaged: Value, reacts: Value) -> Value:
    """The packing instruction, that of large packagings behind it.

    Args:
        book: the rules of carriage.
        damaged: yes/no: damaged, defective or recalled.
        reacts: yes/no: assessed as liable to disassemble, to burn or to give off heat or gas dangerously; missing where
            nobody has assessed it, which only a damaged battery asks for.

    Returns:
        A word such as ``P908 or LP904``; missing where the assessment is.
    """
    lacking = damaged if damaged.missing else reacts if damaged.yes and reacts.missing else None
    if lacking is not None:
        return missing("instruction", "", lacking.how, lacking)
    state = "sound" if not damaged.yes else "reacting" if reacts.yes else "damaged"
    one, large = (book.clause(key) for key in KEYS[state])
    facts = (damaged,) if state == "sound" else (damaged, reacts)
    return chosen("instruction", f"{one.clause} or {large.clause}", "", f"it is {state}", one, *facts)
