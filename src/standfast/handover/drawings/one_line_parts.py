"""What the one-line diagram says beside each kind of symbol: ratings, as job, sheets and design have them."""

from collections.abc import Iterator, Mapping

from standfast.design.installation import Part
from standfast.design.installation.build import JobFile, SheetFile
from standfast.design.installation.circuits import Named
from standfast.design.wiring.whole import Wiring
from standfast.handover.legs import earth_of
from standfast.sheet import Value
from standfast.sheet.printed import amount
from standfast.units import show


class Sayings:
    """Lines about one kind of part each."""

    def __init__(
        self, job: JobFile, sheets: Mapping[str, SheetFile], wiring: Wiring, circuits: Mapping[str, Named]
    ) -> None:
        self.job, self.sheets, self.wiring, self.circuits = job, sheets, wiring, circuits

    def utility(self, part: Part) -> Iterator[str]:
        """System and fault current."""
        yield amount(self.job.fact("supply.system", "system"))
        yield f"fault current at the service {ka(part.facts['fault_current'])}"

    def meter(self, part: Part) -> Iterator[str]:
        """Where the emergency disconnect of the house is, if it has no symbol of its own."""
        where = self.job.fact("supply.emergency_disconnect", "where")
        if where.number != "at the meter" and earth_of(self.job.content.supply.system) == "ground":
            yield f"emergency disconnect: {amount(where)}"

    def breaker(self, part: Part) -> Iterator[str]:
        """Rating and interrupting rating."""
        if part.role == "dc_overcurrent":
            yield from self.fuse(part)
            return
        own = {f"{each.id}/breaker": each.breaker for each in self.wiring.units}
        if self.wiring.metric is not None:
            own |= {f"{each.id}/breaker": each.I_n for each in self.wiring.metric.circuits}
        rating = own.get(part.id, part.facts.get("rating"))
        text = amount(rating) if rating is not None else "rating not known"
        poles = self._poles(part)
        if poles is not None:
            text += f", {poles:g}-pole"
        breaks = ka(part.facts["interrupting"]) if "interrupting" in part.facts else "not known"
        yield f"{text}, interrupting {breaks}"
        known = self.circuits.get(part.id)
        if known is not None and (known.curve or known.residual):
            device = known.device or "breaker"
            curve = f"curve {known.curve}" if known.curve else "curve not known"
            yield f"{device}, {curve}, RCD {known.residual}" if known.residual else f"{device}, {curve}"

    def main(self, part: Part) -> Iterator[str]:
        """Rating of the main of a panel, and whether it is the disconnect of its building."""
        yield f"{amount(part.facts['rating'])}, interrupting {ka(part.facts['interrupting'])}"
        owner = part.id.rpartition("/")[0]
        panel = next((each for each in self.job.content.panels if each.id == owner), None)
        if panel is not None and panel.building is not None:
            where = amount(self.job.fact(f"panels.{owner}.building_disconnect", "where"))
            yield "disconnect of the building" if where == "in the panel" else f"disconnect of the building: {where}"

    def inside(self, part: Part) -> Iterator[str]:
        """Rating of a device in a battery unit or an inverter, as far as its data sheet tells."""
        if "rating" in part.facts:
            kind = self.sheets[part.role].content.dc
            word = None if kind is None else kind.overcurrent_kind
            known = f"{word} of" if word else "fuse or breaker: not known;"
            yield f"{known} {amount(part.facts['rating'])} DC, interrupting {ka(part.facts['interrupting'])}"
        else:
            yield "can be locked open"

    def fuse(self, part: Part) -> Iterator[str]:
        """Rating of the overcurrent device of a battery, and what it breaks."""
        unit = part.id.partition("/")[0]
        rating = next((each.device for each in self.wiring.dc if each.unit == unit), None)
        breaks = ka(part.facts["interrupting"]) if "interrupting" in part.facts else "not known"
        yield f"{'rating not known' if rating is None else amount(rating)} DC, interrupting {breaks}"

    def disconnect(self, part: Part) -> Iterator[str]:
        """Rating, what it withstands, and whether it can be locked."""
        if part.existing:
            mark = amount(self.job.fact("supply.emergency_disconnect_mark", "mark"))
            yield f"marked: {mark}"
            return
        yield from self._switch(part.role or "disconnect")

    def shutdown(self, part: Part) -> Iterator[str]:
        """How it acts on the battery."""
        how = self.sheets["battery"].fact("electrical.emergency_shutdown", "shutdown")
        yield f"readily reached outdoors; of the battery: {amount(how)}"

    def island(self, part: Part) -> Iterator[str]:
        """Rating and what it does."""
        yield from self._switch("island_switch")
        yield "opens by itself while the grid is away"

    def busbar(self, part: Part) -> Iterator[str]:
        """Busbar, where it is fed, and what it withstands."""
        lugs = part.facts.get("main_lugs")
        if lugs is not None and lugs.number is True:
            yield "main lugs, no main breaker"
        elif part.facts["main"].missing:
            yield "main not known"
        panel = next((each for each in self.job.content.panels if each.id == part.id), None)
        fed = "" if panel is None or panel.feed is None else f" {panel.feed}-fed,"
        yield f"busbar {amount(part.facts['busbar'])},{fed} withstands {ka(part.facts['short_circuit'])}"

    def inverter(self, part: Part) -> Iterator[str]:
        """Output, and what it adds to a fault."""
        if not part.role:
            yield f"power source, {amount(part.facts['output_current'])} continuous"
            return
        sheet = self.sheets[part.role]
        if part.role == "inverter":
            yield f"{sheet.content.maker} {sheet.content.name}"
        power = sheet.fact("electrical.output_power", "P_out", "kW")
        yield f"{amount(power)}, {amount(part.facts['output_current'])} continuous"
        yield f"adds {amount(part.facts['fault_contribution'])} to a fault"
        if part.role == "inverter":
            yield _listed(sheet)

    def battery(self, part: Part) -> Iterator[str]:
        """Maker, model and energy."""
        sheet = self.sheets["battery"]
        yield f"{sheet.content.maker} {sheet.content.name}"
        inside = "DC inside" if sheet.content.dc is None else "DC"
        yield f"{amount(part.facts['energy'])} rated, {inside} up to {amount(part.facts['dc_voltage'])}"
        yield _listed(sheet)

    def generator(self, part: Part) -> Iterator[str]:
        """Output, what it adds to a fault, how it is connected, and whether it is kept apart from the grid."""
        each = next((one for one in self.job.content.generators if one.id == part.id), None)
        output, adds = amount(part.facts["output_current"]), amount(part.facts["fault_contribution"])
        yield f"{output} continuous, adds {adds} to a fault"
        if each is not None:
            kept = {True: "interlocked with the grid", False: "NOT interlocked with the grid"}
            how = f"{each.connection}, " if each.connection else ""
            apart = "whether it is interlocked is not known" if each.interlocked is None else kept[each.interlocked]
            yield f"{how}{apart}"

    def array(self, part: Part) -> Iterator[str]:
        """Modules and strings, and the greatest voltage and current."""
        fact, path = self.job.fact, f"arrays.{part.id}"
        modules, strings = fact(f"{path}.modules", "n", "1"), fact(f"{path}.strings", "n", "1")
        yield f"{amount(modules)} modules in a string, strings: {amount(strings)}"
        found = next((each for each in self.wiring.arrays if each.id == part.id), None)
        if found is not None:
            yield f"up to {amount(found.voltage)} and {amount(found.current)} DC"
        if "rapid_shutdown" in part.facts and part.facts["rapid_shutdown"].number is True:
            yield "rapid shutdown at the array"

    def electrode(self, part: Part) -> Iterator[str]:
        """What the electrodes are."""
        owner = part.id.rpartition("/")[0]
        panel = next((each for each in self.job.content.panels if each.id == owner), None)
        kinds = self.job.content.supply.electrodes if panel is None else panel.electrodes
        yield ", ".join(kinds) if kinds else "not known"

    def load(self, part: Part) -> Iterator[str]:
        """Connected load."""
        yield amount(part.facts["load"]) if "load" in part.facts else "not known"

    def _poles(self, part: Part) -> int | None:
        """Poles of a breaker: of a circuit of the job, else of the breaker's data sheet."""
        panel, _, circuit = part.id.partition("/")
        for each in self.job.content.panels:
            if each.id == panel:
                return next((one.poles for one in each.circuits if one.id == circuit), None)
        sheet = self.sheets.get("breaker")
        if sheet is None or sheet.content.switch is None or part.role != "breaker":
            return None
        return sheet.content.switch.poles

    def _switch(self, role: str) -> Iterator[str]:
        sheet = self.sheets.get(role)
        if sheet is None:
            yield "rating not known"
            return
        ratings = sheet.content.switch.ratings if sheet.content.switch is not None else ()
        rating = " or ".join(each.text for each in ratings) or "rating not known"
        locked = ", lockable" if sheet.content.switch is not None and sheet.content.switch.lockable_open else ""
        side = " DC" if role == "dc_disconnect" else ""
        yield f"{rating}{side}, withstands {ka(sheet.fact('switch.short_circuit_rating', 'I_scc', 'A'))}{locked}"


def _listed(sheet: SheetFile) -> str:
    """Standards of the listing, each once; one that a supplement of it is named with stands in that."""
    named = dict.fromkeys(each.standard for each in sheet.content.listing)
    listed = [each for each in named if not any(other.startswith(f"{each} ") for other in named)]
    return f"listed to {', '.join(listed)}" if listed else "listing not known"


def ka(value: Value) -> str:
    """A current in kA, whatever its unit is."""
    if value.missing or value.unit == "kA":
        return amount(value)
    return show(value.quantity / 1000, "kA")
