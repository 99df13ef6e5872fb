"""The torque that a maker prints for a bolted joint against the band of reason round the bolt's own table torque.

The maker's torque always wins. A torque outside the band is asked about before the work: a wrong unit, a wrong bolt or
a misprint is found on paper, not by a torn bolt.
"""

from collections.abc import Iterator

from standfast.design.anchorage.task import SheetFile
from standfast.equipment.task import Joint
from standfast.faults import Refusal
from standfast.rulebooks.iso898 import strength
from standfast.rulebooks.iso3506 import strength as stainless
from standfast.rulebooks.vdi2230 import tightening
from standfast.sheet import Check, Value, at_least, at_most, cannot_tell, not_applicable
from standfast.shelf import Adoption
from standfast.units import show


def checks(books: Adoption, sheet: SheetFile, unit: str) -> Iterator[Check]:
    """One check for every joint of a data sheet, ids by unit and joint."""
    for joint in sheet.content.joints:
        yield check(books, sheet, joint, f"anchorage.joint-torque/{unit}/{joint.id}")


def check(books: Adoption, sheet: SheetFile, joint: Joint, id: str) -> Check:
    """Does the printed torque lie in the band? Outside it nobody can tell until the maker has confirmed it."""
    vdi = books.book("vdi2230")
    clause, title = vdi.clause("sanity_band"), f"Torque of {joint.name or joint.id} suits its bolt"
    if joint.bolt is None or joint.class_ is None:
        need = "bolt" if joint.bolt is None else "class"
        return cannot_tell(id, title, clause, sheet.fact(f"joints.{joint.id}.{need}", need).how)
    if not joint.bolt.startswith("M"):
        return not_applicable(id, title, clause, f"no table torque is held for {joint.bolt} bolts")
    torque = sheet.fact(f"joints.{joint.id}.torque", "M_maker", "N·m")
    try:
        low, high = tightening.band(vdi, joint.bolt, _yield(books, joint, tightening.bolt(vdi, joint.bolt).d))
    except Refusal as refusal:
        return cannot_tell(id, title, clause, str(refusal))
    under, over = at_least(id, title, clause, torque, low), at_most(id, title, clause, torque, high)
    if under.verdict == "fail":
        return _flagged(under, "low", torque, low)
    return _flagged(over, "high", torque, high) if over.verdict == "fail" else under


def _flagged(check: Check, word: str, torque: Value, limit: Value) -> Check:
    side = "under" if word == "low" else "over"
    reason = (
        f"{word}: {show(torque.quantity, 'N·m')} is {side} {show(limit.quantity, 'N·m')}, the end of the usual band; "
        "the maker must confirm bolt, class and torque"
    )
    return Check(check.id, check.title, check.clause, "cannot tell", check.relation, torque, limit, check.margin,
                 reason=reason)  # fmt: skip


def _yield(books: Adoption, joint: Joint, d: Value) -> Value:
    word = str(joint.class_)
    if word.startswith("A"):
        return stainless.yield_strength(books.book("iso3506"), word)
    return strength.yield_strength(books.book("iso898"), word, d)
