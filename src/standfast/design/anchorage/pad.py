"""A concrete pad under a unit that stands: whether it stays where it is, there already or cast for the job."""

from collections.abc import Iterator

from standfast.design.anchorage import loads, tipping
from standfast.design.anchorage.edges import Sides
from standfast.design.anchorage.loads import Case
from standfast.design.anchorage.ratios import governing, within
from standfast.design.anchorage.task import Task
from standfast.faults import OutsideTable
from standfast.sheet import Check, Value, attempt, cannot_tell, not_applicable, settle, work
from standfast.survey.joined import installed

NOT_DRAWN = (
    "footing: without its bars the pad does not stay, and they are not worked out here: have an engineer draw them, or "
    "cast it so heavy and wide that it stays by itself"
)
SEEN_BARS = "the bars that tie the pad to the house are on a drawing that was seen, or are laid bare and seen"
CURED = (
    "it was cast and has the strength that is written here before it is drilled: usual practice 28 days, sooner only "
    "where cylinders of it were tested; its bars were seen before, by a drawing"
)


def checks(task: Task, cases: list[Case], ends: Sides) -> Iterator[Check]:
    """A pad stays where it is by its own weight and that of the unit, or because bars tie it to the house.

    Bars are not worked out here: those of a pad that is there are a condition, those of a new one somebody has to draw.
    """
    clause, doweled = task.practice.clause("standing"), task.of_wall("footing.doweled", "doweled")
    titles = {
        "pad-slides": "The pad does not slide with the unit",
        "pad-tips": "The pad does not tip with the unit",
    }
    if doweled.missing:
        for rule, title in titles.items():
            yield cannot_tell(task.id(rule), title, clause, doweled.how, doweled)
        return
    weight = attempt("W_pad", "lb", lambda: _pad_weight(task))
    slides = settle(task.id("pad-slides"), titles["pad-slides"], clause, lambda: _slides(task, cases, weight))
    tips = settle(task.id("pad-tips"), titles["pad-tips"], clause, lambda: _tips(task, cases, ends, weight))
    yield from (_tied(task, check, doweled) for check in (slides, tips))
    yield _cast(task)


def _tied(task: Task, check: Check, doweled: Value) -> Check:
    """A pad that does not stay by itself, where bars tie it to the house; any other as it is."""
    if check.verdict == "pass" or not doweled.yes:
        return check
    state = task.of_wall("footing.state", "state")
    if state.missing:
        return cannot_tell(check.id, check.title, check.clause, state.how, *_known(check), state)
    if state.word == "new":
        return cannot_tell(check.id, check.title, check.clause, NOT_DRAWN, *_known(check))
    return Check(check.id, check.title, check.clause, "pass", demand=_known(check)[0] if _known(check) else doweled,
                 condition=SEEN_BARS, reason="by itself it would not stay, or nobody can tell")  # fmt: skip


def _known(check: Check) -> list[Value]:
    return [] if check.demand is None or check.demand.missing else [check.demand]


def _cast(task: Task) -> Check:
    """A new pad is cast, and has its strength before it is drilled; its bars are on a drawing that somebody made."""
    id, title = task.id("pad-cast"), "A new pad is cast before it is drilled"
    clause, state = task.practice.clause("standing"), task.of_wall("footing.state", "state")
    if state.missing:
        return cannot_tell(id, title, clause, state.how, state)
    if state.word == "existing":
        return not_applicable(id, title, clause, "the pad is there")
    return Check(id, title, clause, "pass", demand=state, condition=CURED)


def _pad_weight(task: Task) -> Value:
    b, d, t = (task.of_wall(f"footing.{word}", symbol, "ft") for word, symbol in
               (("width", "b_pad"), ("depth", "d_pad"), ("thickness", "h_pad")))  # fmt: skip
    kind = task.of_concrete("concrete_kind", "concrete_kind")
    w = task.practice.number("pad_weight")
    if not kind.missing and kind.word == "normalweight":
        n = installed(task.job, "n_units")
        return work("W_pad", "w_c * b_pad * d_pad * h_pad / n_units", "lb", None, w, b, d, t, n)
    raise OutsideTable("only the weight of a pad of normal-weight concrete is held")


def _slides(task: Task, cases: list[Case], pad: Value) -> Check:
    """The pad moves with the ground, so the earthquake pushes the unit alone; what holds is friction below the pad."""
    mu = task.practice.bounding("pad_friction", "the soil under the pad is not known")
    used = []
    for case in cases:
        push = work("E", "hypot(E_out, E_along)", "lb", None, E_out=case.out, E_along=case.along)
        share = work("k_held", "W_held / W_p", "1", None, W_held=case.W, W_p=loads.weight(task))
        text = "E / (mu * (W_held + k_held * W_pad))"
        used.append(work(f"r_{case.name}", text, "1", None, mu, share, E=push, W_held=case.W, W_pad=pad))
    return _judged(task, "pad-slides", "The pad does not slide with the unit", used,
                   "tie it to the slab or foundation of the house with bars, or cast it heavier")  # fmt: skip


def _tips(task: Task, cases: list[Case], ends: Sides, pad: Value) -> Check:
    """Unit and pad together about the edge of the pad, the brace not counted."""
    used = []
    b, d, t = (task.of_wall(f"footing.{word}", symbol, "in") for word, symbol in
               (("width", "b_pad"), ("depth", "d_pad"), ("thickness", "h_pad")))  # fmt: skip
    left = work("x_unit", "x / 25.4", "in", None, x=task.place.left)
    x_cg = work("x_cg", "x_unit + x_own", "in", None, left, x_own=task.battery.fact("body.cg_left", "x_cg", "in"))
    e = task.battery.fact("body.cg_out", "e", "in")
    for case in cases:
        h = work("h_low", "h + h_pad", "in", None, t, h=tipping.height(task, case))
        share = work("k_held", "W_held / W_p", "1", None, W_held=case.W, W_p=loads.weight(task))
        ways = ((case.out, work("a", "d_pad - e", "in", None, d, e), d),
                (case.along, work("a", "x - x_end", "in", None, x=x_cg, x_end=ends.left[0]), b),
                (case.along, work("a", "x_end - x", "in", None, x=x_cg, x_end=ends.right[0]), b))  # fmt: skip
        for push, arm, wide in ways:
            text = "E * h / (W_held * a + k_held * W_pad * b / 2)"
            used.append(work(f"r_{case.name}", text, "1", None, share, E=push, h=h, W_held=case.W, a=arm, W_pad=pad,
                             b=wide))  # fmt: skip
    return _judged(task, "pad-tips", "The pad does not tip with the unit", used, "cast it wider")


def _judged(task: Task, rule: str, title: str, used: list[Value], way_out: str) -> Check:
    clause = task.practice.clause("standing")
    return within(task.id(rule), title, governing(used, clause), task.books.book("aci318"), clause, way_out)
