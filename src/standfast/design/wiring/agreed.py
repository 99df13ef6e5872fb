"""Faults between the job file and the data sheets: both state one fact, and differently."""

from collections.abc import Iterator, Mapping

from standfast.design.installation.build import JobFile, SheetFile
from standfast.faults import Fault
from standfast.survey.joined import has_inverter, owner


def outputs(job: JobFile, sheets: Mapping[str, SheetFile]) -> Iterator[Fault]:
    """The output that a circuit states against that of the equipment which it feeds from.

    Args:
        job: the job file.
        sheets: data sheets by role.
    """
    sheet = sheets.get("inverter" if has_inverter(job.content) else "battery")
    rated = None if sheet is None or sheet.content.electrical is None else sheet.content.electrical.output_current
    if sheet is None or rated is None:
        return
    for number, panel in enumerate(job.content.panels):
        for nth, circuit in enumerate(panel.circuits):
            stated = circuit.source_output
            if stated is not None and owner(job.content, circuit) and stated.number != rated.number:
                what = f'source_output of "{circuit.id}" is "{stated.text}"'
                why = f'{sheet.file} states an output_current of "{rated.text}"'
                todo = "make both one, or take source_output out: the data sheet says it"
                yield job.fault(("panels", number, "circuits", nth, "source_output"), what, why, todo)
