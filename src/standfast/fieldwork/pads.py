"""What a new concrete pad under a standing unit takes: concrete by its size; bars and forms by its drawing."""

from standfast.fieldwork.material import Material, material
from standfast.fieldwork.plan import Plan
from standfast.sheet import chosen, work
from standfast.survey.house import Wall


def pad_rows(plan: Plan) -> list[Material]:
    """Concrete, bars and forms of every new pad that something of this job stands on."""
    used = {held.wall for held in plan.held if held.floor}
    walls = [wall for wall in plan.survey.job.walls if wall.id in used and _is_cast(wall)]
    return [row for wall in walls for row in _rows(plan, wall)]


def _is_cast(wall: Wall) -> bool:
    under = wall.footing
    return under is not None and under.kind == "concrete pad" and under.state == "new"


def _rows(plan: Plan, wall: Wall) -> list[Material]:
    path = f"walls.{wall.id}.footing"
    b, d, t = (
        plan.survey.fact(f"{path}.{word}", symbol, "ft")
        for word, symbol in (("width", "b_pad"), ("depth", "d_pad"), ("thickness", "h_pad"))
    )
    weight = work("W_pad", "w_c * b_pad * d_pad * h_pad", "lb", None, plan.practice.number("pad_weight"), b, d, t)
    strength = plan.survey.fact(f"{path}.concrete_strength", "f_c", "psi")
    psi = plan.say("common.not_known") if strength.missing else f"{strength.quantity:.0f} psi"
    what = plan.say("materials.concrete", strength=psi, wall=wall.id)
    concrete = material("fixing", what, weight, plan.say("materials.concrete_use"), plan.language)
    one = chosen("n", 1.0, "1", "one set for the pad", None)
    bars = plan.say("materials.pad_bars", wall=wall.id)
    by_drawing = plan.say("materials.by_drawing")
    return [concrete, material("fixing", bars, one, plan.say("materials.pad_bars_use"), plan.language, by_drawing)]
