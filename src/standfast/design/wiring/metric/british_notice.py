"""What the British grid operator is told: the procedure, and the answers of its form."""

from collections.abc import Iterator

from standfast.design.wiring.metric.built import Field, Notification
from standfast.design.wiring.metric.circuits import Source, sources
from standfast.design.wiring.metric.question import Question
from standfast.rulebooks.erec import route
from standfast.sheet import Check, Value, chosen, is_, missing, settle, total

FORMS = {route.NOTIFY: "G98 installation document", route.APPLY: "G99 application"}


def notification(q: Question) -> Notification:
    """The route by the output of every source of the premises per phase, and the data of its form.

    NotInEdition where the adoption names no network rules.
    """
    erec, every = q.book("erec"), sources(q)
    current = total("I_reg", [each.output for each in every], "A", erec.clause("scope"))
    found = route.route(erec, current)
    return Notification(found, current, tuple(_fields(q, every, found, current)))


def _fields(q: Question, every: list[Source], found: Value, current: Value) -> Iterator[Field]:
    job, fact = q.job, q.job.fact
    yield Field("Procedure", found)
    yield Field("Network operator", fact("utility.name", "operator"))
    yield Field("Account or supply number", fact("utility.account", "account"))
    yield Field("Address of the premises", fact("site.address", "address"))
    yield Field("Customer", fact("owner.name", "customer"))
    yield Field("Customer's telephone", fact("owner.phone", "telephone"))
    yield Field("Installer", fact("contractor.firm", "installer"))
    yield Field("Installer's registration", fact("contractor.licence", "registration"))
    yield Field("Earthing of the supply", fact("supply.earthing", "earthing"))
    yield Field("Cut-out fuse", fact("supply.service", "I_supply", "A"))
    sheet = q.sheets.get(q.role)
    if sheet is not None:
        yield Field("New source: maker and model", sheet.fact("name", "model"))
        tested = [each.standard for each in sheet.content.listing]
        yield Field("New source: type tested to", chosen("tested", "; ".join(tested), "", "its data sheet", None)
                    if tested else missing("tested", "", f"{sheet.file}: listing of the inverter"))  # fmt: skip
    yield Field("New source: rated power", q.own("output_power", "P_reg", "kW"))
    yield Field("New source: phases", q.own("phases", "n_phase", "1"))
    yield Field("New storage: energy", q.of("battery", "energy.rated", "E_rated", "kWh"))
    for each in every:
        word = "new" if each.added else "there already"
        yield Field(f"Source {each.id} ({word}): current per phase", each.output)
    yield Field("All sources: current per phase", current)
    yield Field("Export limit", fact("grid.export_limit", "P_export", "kW") if job.has("grid.export_limit")
                else chosen("P_export", "none asked for", "", "the job sets none", None))  # fmt: skip
    yield Field("Can run without the grid", q.own("forms_grid", "forms_grid"))


def checks(q: Question, found: Notification | None) -> Iterator[Check]:
    """Above the simple procedure nothing is connected before the operator has answered."""
    if found is None:
        return
    erec = q.book("erec")
    id, title = "wiring.grid-notification", "The network operator is told, or asked, as its procedure wants"
    if found.route.number == route.NOTIFY:
        clause = erec.clause("notify")
        told = chosen("told", True, "", found.route.how, clause, found.route)
        days = erec.number("notify_within")
        how = f"the operator is sent the form within {days.quantity:g} days of commissioning"
        yield settle(id, title, clause, lambda: is_(id, title, clause, told, told, condition=how))
        return
    clause = erec.clause("apply_first")
    approval = q.job.fact("grid.approval", "approval")
    given = approval if approval.missing else chosen("approved", True, "", "answer of the operator", clause, approval)
    asked = chosen("asked", True, "", "more than the simple procedure allows", clause, found.route)
    yield settle(id, title, clause, lambda: is_(id, title, clause, given, asked))
