"""The tests of a DC side: insulation, sign and size of each voltage before it closes, alarm of a ground fault."""

from standfast.commissioning.due_test import Blank, DueTest, Site, blank_test, limited
from standfast.commissioning.limit import limit_of
from standfast.design.installation import Part
from standfast.sheet import work
from standfast.survey.power import Array
from standfast.units import show


def _own(site: Site) -> list[Part]:
    """Inverters that stand by themselves, and so have a DC side that this job joins."""
    return [part for part in site.installation.of_kind("inverter") if part.role == "inverter" and not part.existing]


def insulation(site: Site) -> list[DueTest]:
    """Each pole to ground with the electronics joined; no source states a limit for it."""
    found = []
    for part in _own(site):
        blanks = [Blank(site.say("tests.pole_to_ground", pole=pole), "MΩ") for pole in ("DC+", "DC−")]
        found.append(blank_test(site, "dc_insulation", "connected", blanks, name=part.name))
    return found


def batteries(site: Site) -> list[DueTest]:
    """Sign and size of each battery's voltage, with the range of its data sheet."""
    found = []
    for part in site.installation.of_kind("battery") if _own(site) and "battery" in site.sheets else []:
        if not part.existing:
            blanks = [Blank(site.say("tests.sign"), "", limited=False), Blank(site.say("tests.plus_to_minus"), "V")]
            test = blank_test(site, "dc_battery", "before DC closes", blanks, name=part.name)
            sheet = site.sheets["battery"]
            least, most = (sheet.fact(f"dc.voltage_{end}", "U", "V") for end in ("min", "max"))
            if not (least.missing or most.missing):
                text = site.say("tests.between", least=show(least.quantity, "V"), most=show(most.quantity, "V"))
                test = limited(test, text, most, site.say("tests.data_sheet", file=sheet.file), "at most")
                test = test._replace(bounds=limit_of("between", least, most))
            found.append(test._replace(of=part.id))
    return found


def strings(site: Site) -> list[DueTest]:
    """Sign and open-circuit voltage of each string of a new array, and the most that its input withstands."""
    arrays = [each for each in site.survey.job.arrays if each.state != "existing"] if _own(site) else []
    return [_of_array(site, each) for each in arrays]


def _of_array(site: Site, array: Array) -> DueTest:
    path, fact = f"arrays.{array.id}", site.survey.fact
    module, row = fact(f"{path}.open_circuit_voltage", "U_oc", "V"), fact(f"{path}.modules", "n_mod", "1")
    usual = work("U_string", "U_oc * n_mod", "V", None, module, row)
    shown = site.say("common.not_known") if usual.missing else show(usual.quantity, "V")
    blanks = []
    numbers = [str(number) for number in range(1, array.strings + 1)] if array.strings else [site.say("tests.each")]
    for number in numbers:
        blanks.append(Blank(site.say("tests.string_sign", number=number), "", limited=False))
        blanks.append(Blank(site.say("tests.string_volts", number=number), "V"))
    name = array.name or array.id
    test = blank_test(site, "pv_string", "before DC closes", blanks, name=name, usual=shown)._replace(of=array.id)
    sheet = site.sheets["inverter"]
    most = sheet.fact(f"pv_inputs.{array.input or 'unknown'}.voltage_max", "U_max", "V")
    if most.missing:
        return test
    text = site.say("tests.at_most", value=show(most.quantity, "V"))
    return limited(test, text, most, site.say("tests.data_sheet", file=sheet.file), "at most")


def ground_fault(site: Site) -> list[DueTest]:
    """The alarm of a ground fault on the DC side, unless data sheets say of all of it that nothing detects one."""
    told = [
        sheet.sheet.dc.fault_detection
        for role in ("battery", "inverter")
        if (sheet := site.sheets.get(role)) is not None and sheet.sheet.dc is not None
    ]
    if not _own(site) or (told and all(each is False for each in told)):
        return []
    blanks = [Blank(site.say("tests.alarm_seen"), ""), Blank(site.say("tests.alarm_time"), "s")]
    return [blank_test(site, "dc_ground_fault", "unit running", blanks, name=part.name) for part in _own(site)]
