"""The bar chart of the crew's day, its sheets, and calendar files read back by their own rules."""

from datetime import UTC, date, datetime

import pytest

from standfast.fieldwork.crew.day import CrewDay, crew_day
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.work_order import WorkOrder, work_order
from standfast.foreman.demo import write_demo
from standfast.foreman.pack import papers, sitework
from standfast.foreman.plan import JobPlan, make_plan
from standfast.handover.calendar import Event, calendars, escaped, folded, lacks, written
from standfast.handover.crew import charts, clipped, letters, off_spans
from standfast.paper.document import Frame, Table
from standfast.paper.drawing import LEAST_MM
from standfast.paper.lettering import width_mm
from standfast.survey.read import Survey
from standfast.survey.visit import Visit

DEMOS = ("one_wall", "cabinet", "terrace")
ZONE = "America/Los_Angeles"


@pytest.fixture(scope="module")
def jobs(tmp_path_factory: pytest.TempPathFactory) -> dict[str, JobPlan]:
    return {name: make_plan(write_demo(name, tmp_path_factory.mktemp(name)), runner_up=False) for name in DEMOS}


def made(job: JobPlan, visit: Visit | None = None) -> tuple[Plan, WorkOrder, CrewDay]:
    site = sitework(job)
    if visit is not None:
        old = site.survey
        content = old.content.model_copy(update={"visit": visit})
        site = site._replace(survey=Survey(old.file, content, old.index, old.unknown, old.raw))
    order = work_order(site)
    return site, order, crew_day(site, order)


@pytest.mark.parametrize("name", DEMOS)
def test_a_draughtsman_would_sign_the_charts(jobs: dict[str, JobPlan], name: str) -> None:
    site, order, day = made(jobs[name])
    drawn = charts(site, order, day)
    rows = 0
    for drawing in drawn.values():
        assert drawing.flaws() == []
        assert drawing.height <= 232
        rows += sum(mark.text in {str(number) for number in order.numbers.values()} and mark.bold
                    for _, mark in drawing.texts)  # fmt: skip
    assert rows == len(order.steps)
    assert any("some circuit is without power" in drawing.keys for drawing in drawn.values())
    who = {mark.text for drawing in drawn.values() for _, mark in drawing.texts}
    assert {"A", "B", "AB"} <= who
    assert letters(day) == ["A", "B"]


def test_times_without_power_that_touch_are_one_band(jobs: dict[str, JobPlan]) -> None:
    _, _, day = made(jobs["one_wall"])
    (span,) = off_spans(day)
    assert span == (min(each.start for each in day.off), max(each.end for each in day.off))
    first = day.off[0]
    parted = day._replace(
        off=(first._replace(start=0, end=5), first._replace(start=5, end=9), first._replace(start=20))
    )
    assert off_spans(parted) == [(0, 9), (20, first.end)]


def test_the_work_order_carries_the_day_and_the_notice(jobs: dict[str, JobPlan]) -> None:
    found = papers(jobs["terrace"])
    titles = [sheet.title for sheet in found.work.sheets]
    days = len(charts(*made(jobs["terrace"])))
    assert titles[-1] == "For the owner: when the power is off"
    assert titles.count("The crew's day") == 1 + days
    assert "crew-day.svg" in found.work.pictures and "crew day" in found.drawings
    assert sorted(found.calendars) == ["crew.ics", "owner.ics"] and found.no_calendar == ""
    (frame, table) = found.work.sheets[-1].blocks
    assert isinstance(frame, Frame) and isinstance(table, Table)
    told = str(frame.blocks)
    assert "Boiler, pump and network: heating." in told and "Keep its doors shut from" in told
    assert len(table.rows) == 7 and all(row[-1] != "stays on" for row in table.rows)


def test_a_job_without_a_day_gets_no_calendar_and_hears_why(jobs: dict[str, JobPlan]) -> None:
    found = papers(jobs["one_wall"])
    assert found.calendars == {} and "visit.on, visit.arrive, visit.time_zone" in found.no_calendar


def test_a_text_that_is_too_wide_is_cut_and_says_so() -> None:
    assert clipped("short", 40) == "short"
    cut = clipped("a text that is far too wide for its place", 30)
    assert cut.endswith("…") and width_mm(cut, LEAST_MM) <= 30


def read_back(text: str) -> list[dict[str, str]]:
    """The events of a calendar file, by the rules of the format: unfolded, one property a line, texts unmarked."""
    assert text.endswith("\r\n") and "\n" not in text.replace("\r\n", "")
    lines = text.replace("\r\n ", "").split("\r\n")[:-1]
    assert (lines[0], lines[1], lines[-1]) == ("BEGIN:VCALENDAR", "VERSION:2.0", "END:VCALENDAR")
    found, within = list[dict[str, str]](), list[str]()
    for line in lines:
        name, _, value = line.partition(":")
        if name == "BEGIN":
            within.append(value)
            found += [{}] if value == "VEVENT" else []
        elif name == "END":
            assert within.pop() == value
        elif within[-1] == "VEVENT":
            assert name not in found[-1]
            found[-1][name] = value
    assert not within
    return found


def instant(text: str) -> datetime:
    return datetime.strptime(text, "%Y%m%dT%H%M%S%z")


def unmarked(text: str) -> str:
    out, signs = "", iter(text)
    for sign in signs:
        mark = next(signs) if sign == "\\" else ""
        out += ("\n" if mark in "nN" else mark) if mark else sign
    return out


def test_the_calendars_hold_the_day_in_instants(jobs: dict[str, JobPlan]) -> None:
    visit = Visit(on=date(2026, 5, 11), arrive="08:00", time_zone=ZONE)
    site, order, day = made(jobs["one_wall"], visit)
    files, why = calendars(site, order, day)
    assert (sorted(files), why) == (["crew.ics", "owner.ics"], "")
    ours, owners = (read_back(files[name]) for name in ("crew.ics", "owner.ics"))
    assert [each["DTSTART"] for each in ours] == ["20260511T150000Z"]  # eight o'clock there, in summer
    work, off = owners
    length = instant(work["DTEND"]) - instant(work["DTSTART"])
    assert length.total_seconds() == 60 * day.minutes
    start = instant(off["DTSTART"])
    assert start.timestamp() == datetime(2026, 5, 11, 15, tzinfo=UTC).timestamp() + 60 * min(e.start for e in day.off)
    assert "no power in the whole house" in unmarked(off["DESCRIPTION"])
    assert unmarked(off["SUMMARY"]) == "One wall, one unit (invented): power off"
    assert len({each["UID"] for each in (*ours, *owners)}) == 2 and off["DTSTAMP"] == "20260504T000000Z"
    assert calendars(site, order, day) == (files, why)


@pytest.mark.parametrize(
    ("visit", "lacking"),
    [
        ({"on": date(2026, 5, 11), "arrive": "08:00"}, ["visit.time_zone"]),
        ({"arrive": "08:00", "time_zone": ZONE}, ["visit.on"]),
        ({"on": date(2026, 5, 11), "time_zone": ZONE}, ["visit.arrive"]),
    ],
)
def test_without_a_day_there_is_no_calendar(
    jobs: dict[str, JobPlan], visit: dict[str, object], lacking: list[str]
) -> None:
    site, order, day = made(jobs["one_wall"], Visit.model_validate(visit))
    files, why = calendars(site, order, day)
    assert files == {} and lacks(site, day) == lacking and all(word in why for word in lacking)


def test_lines_are_folded_between_characters_and_texts_are_marked() -> None:
    long = "DESCRIPTION:" + "Ω, über; " * 30
    pieces = folded(long).split("\r\n")
    assert all(len(piece.encode()) <= 75 for piece in pieces) and len(pieces) > 4
    assert "".join(piece.removeprefix(" ") if number else piece for number, piece in enumerate(pieces)) == long
    assert unmarked(escaped("a\\b; c, d\ne")) == "a\\b; c, d\ne" and escaped("a;b") == "a\\;b"
    at = datetime(2026, 5, 11, 8, tzinfo=UTC)
    (event,) = read_back(written([Event("T, x", "one\ntwo", at, at, 30)], "seed", date(2026, 5, 4)))
    assert (unmarked(event["SUMMARY"]), unmarked(event["DESCRIPTION"])) == ("T, x", "one\ntwo")


def test_a_zone_that_is_none_is_a_fault() -> None:
    from standfast.survey.read import read

    found = read(
        'schema = 1\n[job]\nname = "x"\ndate = 2026-05-04\nadoption = "us-2021"\n[visit]\ntime_zone = "Mars/One"\n'
    )
    assert [each for each in found.faults if "Mars/One" in each.what]


def test_charts_speak_the_language_of_the_order_and_not_of_the_day(jobs: dict[str, JobPlan]) -> None:
    site, order, day = made(jobs["cabinet"])
    spanish = work_order(site.in_language("es"))
    own = {step.text.partition(" ")[0] for step in spanish.steps} - {
        step.text.partition(" ")[0] for step in order.steps
    }
    said = " ".join(mark.text for drawing in charts(site, spanish, day).values() for _, mark in drawing.texts)
    assert "Conecte" in own and "Conecte los conductores" in said and "Connect the conductors" not in said
