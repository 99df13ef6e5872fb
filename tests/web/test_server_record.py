"""The record in and out: events, field sheets, files, state; what a tablet may bring, and what it may not."""

import json
import uuid
from hashlib import sha256
from typing import Any

import pytest
from firm import JPEG, Firm, Tablet, handed

from standfast.fieldwork.record.event import hash_of
from standfast.foreman.office import standing, tablets
from standfast.foreman.office.uploads import Uploads
from standfast.store.interface import StoreError


def test_a_tablet_is_told_its_jobs_and_gets_the_sheet_to_the_byte(firm: Firm) -> None:
    job, (tablet,) = handed(firm)
    told = tablet.browser.get("/api/v1/jobs").json()
    assert told["dev"] == tablet.dev
    (row,) = told["jobs"]
    assert (row["job"], row["revision"]) == (job, "A")
    answer = tablet.browser.get(f"/api/v1/jobs/{job}/sheet/{row['sheet']}")
    assert sha256(answer.content).hexdigest() == row["sheet"]
    assert answer.json()["job"]["name"] == row["title"]
    assert firm.tablet().browser.get("/api/v1/jobs").json()["jobs"] == []


def test_events_are_taken_once_and_to_the_byte(firm: Firm) -> None:
    job, (one, other) = handed(firm, "One", "Other")
    raws = [one.begin(job), one.write(job, "done", {}, step="job.dust")]
    first = one.bring(job, *raws).json()
    assert first["acked"] == {one.dev: 2}
    assert (first["events"], first["forks"], first["broken"], first["more"]) == ([], [], [], False)
    assert one.bring(job, *raws).json()["acked"] == {one.dev: 2}
    got = other.bring(job).json()["events"]
    assert [each["raw"] for each in got] == raws
    assert [each["hash"] for each in got] == [hash_of(raw) for raw in raws]
    assert other.bring(job, have={one.dev: 1}).json()["events"] == got[1:]


def test_a_gap_is_kept_and_not_acknowledged(firm: Firm) -> None:
    job, (tablet,) = handed(firm)
    first, second, third = tablet.begin(job), tablet.write(job, "done", {}), tablet.write(job, "done", {})
    assert tablet.bring(job, first, third).json()["acked"] == {tablet.dev: 1}
    assert tablet.bring(job, second).json()["acked"] == {tablet.dev: 3}


def test_a_broken_link_is_taken_and_told(firm: Firm) -> None:
    job, (tablet,) = handed(firm)
    tablet.bring(job, tablet.begin(job))
    answer = tablet.bring(job, tablet.write(job, "done", {}, prev="f" * 64)).json()
    assert answer["broken"] == [f"{tablet.dev} 2"]
    assert answer["acked"] == {tablet.dev: 2}
    assert tablet.bring(job, tablet.write(job, "done", {})).json()["broken"] == []


def test_a_fork_is_told_to_everybody_and_both_texts_are_kept(firm: Firm) -> None:
    job, (one, other) = handed(firm, "One", "Other")
    one.bring(job, one.begin(job))
    one.head.clear()
    answer = one.bring(job, one.write(job, "begin", {"sheet": "1" * 64, "key": "", "device": "again"})).json()
    assert [(each["dev"], each["seq"]) for each in answer["forks"]] == [(one.dev, 1)]
    assert other.bring(job).json()["forks"] == answer["forks"]
    assert len(firm.store.quarantine(job)) == 1
    assert "log fork" in {each["why"] for each in one.browser.get(f"/api/v1/jobs/{job}/state").json()["because"]}


@pytest.mark.parametrize("what", ["other dev in the call", "other dev in the event", "other job", "no event"])
def test_what_belongs_elsewhere_is_refused_and_nothing_of_the_call_is_kept(firm: Firm, what: str) -> None:
    job, (one, other) = handed(firm, "One", "Other")
    good, dev = one.begin(job), one.dev
    bad = one.write(job, "done", {})
    if what == "other dev in the call":
        dev = other.dev
    elif what == "other dev in the event":
        bad = other.begin(job)
    elif what == "other job":
        bad = bad.replace(job, str(uuid.uuid4()))
    else:
        bad = bad.replace('"v":1', '"v":"1"')
    answer = one.bring(job, good, bad, dev=dev)
    assert answer.status_code == (422 if what == "no event" else 403)
    assert set(answer.json()) == {"what", "why", "do"}
    assert list(firm.store.events(job)) == []


def test_a_tablet_sees_nothing_of_a_job_that_it_was_not_handed(firm: Firm) -> None:
    job, (one,) = handed(firm)
    stranger = firm.tablet("Stranger")
    sheet = tablets.last_sheet(firm.store, job, firm.now)
    for path in ("state", "cards", f"sheet/{sheet}", f"files/{'a' * 64}"):
        assert stranger.browser.get(f"/api/v1/jobs/{job}/{path}").status_code == 404
    assert stranger.bring(job, stranger.begin(job)).status_code == 404
    tablets.take_back(firm.store, one.dev, job, firm.now)
    assert one.bring(job, one.begin(job)).status_code == 404


def test_the_office_may_bring_the_log_of_any_device(firm: Firm) -> None:
    job, (tablet,) = handed(firm)
    raws = [tablet.begin(job), tablet.write(job, "done", {})]
    office = firm.signed_in("office")
    told = {"dev": str(uuid.uuid4()), "events": raws, "have": {}}
    assert office.api("POST", f"/api/v1/jobs/{job}/events", told).json()["acked"] == {tablet.dev: 2}


def test_a_withdrawn_tablet_speaks_no_more_and_what_it_brought_stays(firm: Firm) -> None:
    job, (tablet,) = handed(firm)
    tablet.bring(job, tablet.begin(job))
    answer = firm.signed_in("office").form("/office/tablets/withdraw", {"dev": tablet.dev})
    assert "Withdrawn on 2026-11-25" in answer.text
    assert tablet.bring(job, tablet.write(job, "done", {})).status_code == 401
    assert len(firm.store.events(job)) == 1


@pytest.mark.parametrize(
    ("told", "where"),
    [
        ({}, "dev: "), ({"dev": "x", "events": [], "have": {}}, "dev: "),
        ({"dev": "D", "events": [1], "have": {}}, "events.0: "),
        ({"dev": "D", "events": [], "have": {"D": "1"}}, "have."),
        ({"dev": "D", "events": [], "have": {"D": True}}, "have."),
        ({"dev": "D", "events": [], "have": {}, "x": 1}, "x: "),
        ({"dev": "D", "events": ["x"] * 201, "have": {}}, "events: "),
        ({"dev": "D", "events": ["x" * 64_001], "have": {}}, "events.0: "),
        ({"dev": "D", "events": [], "have": {"D": -1}}, "have."),
        ({"dev": "D", "events": [], "have": {"D": 2**70}}, "have."),
        ([], "body: "), ("D", "body: "),
    ],
)  # fmt: skip
def test_a_call_is_read_strictly_and_told_where_it_is_wrong(firm: Firm, told: object, where: str) -> None:
    job, (tablet,) = handed(firm)
    text = json.dumps(told).replace('"D"', json.dumps(tablet.dev))
    answer = tablet.browser.client.post(
        f"/api/v1/jobs/{job}/events", content=text, headers={"X-Standfast": "1", "Content-Type": "application/json"}
    )
    assert answer.status_code == 422
    assert where in answer.json()["why"]


@pytest.mark.parametrize("text", ['{"dev', '{"dev":NaN}', "[" * 100_000, '"\\ud800"', "\xff", ""])
def test_a_call_that_is_no_json_is_refused(firm: Firm, text: str) -> None:
    job, (tablet,) = handed(firm)
    answer = tablet.browser.client.post(
        f"/api/v1/jobs/{job}/events", content=text.encode("latin-1"),
        headers={"X-Standfast": "1", "Content-Type": "application/json"},
    )  # fmt: skip
    assert answer.status_code == 422


def test_a_photo_comes_in_pieces_and_goes_on_where_it_ended(firm: Firm) -> None:
    job, (tablet,) = handed(firm)
    sha = sha256(JPEG).hexdigest()
    path = f"/api/v1/jobs/{job}/files/{sha}"
    tablet.bring(
        job, tablet.begin(job), tablet.write(job, "photo", {"sha": sha, "bytes": len(JPEG), "mime": "image/jpeg"})
    )
    assert tablet.browser.client.head(path).status_code == 404
    first = tablet.send(job, JPEG[:100], 0, len(JPEG), sha)
    assert (first.status_code, first.headers["upload-offset"]) == (204, "100")
    head = tablet.browser.client.head(path)
    assert (head.headers["upload-offset"], head.headers["upload-length"]) == ("100", str(len(JPEG)))
    wrong = tablet.send(job, JPEG[50:], 50, len(JPEG), sha)
    assert (wrong.status_code, wrong.headers["upload-offset"]) == (409, "100")
    assert tablet.browser.get(path).status_code == 404
    assert tablet.send(job, JPEG[100:], 100, len(JPEG), sha).status_code == 204
    got = tablet.browser.get(path)
    assert (got.content, got.headers["content-type"]) == (JPEG, "image/jpeg")
    assert "sandbox" in got.headers["content-security-policy"]
    # Once more changes nothing.
    assert tablet.send(job, JPEG, 0, len(JPEG), sha).status_code == 204


def test_a_photo_that_was_damaged_on_its_way_is_thrown_away(firm: Firm) -> None:
    job, (tablet,) = handed(firm)
    sha = sha256(JPEG).hexdigest()
    tablet.bring(
        job, tablet.begin(job), tablet.write(job, "photo", {"sha": sha, "bytes": len(JPEG), "mime": "image/jpeg"})
    )
    assert tablet.send(job, JPEG[:-1] + b"?", 0, len(JPEG), sha).status_code == 460
    assert tablet.browser.client.head(f"/api/v1/jobs/{job}/files/{sha}").status_code == 404
    assert tablet.send(job, JPEG).status_code == 204


@pytest.mark.parametrize(
    ("data", "told", "length", "status"),
    [
        (b"<svg onload=alert(1)>" + b" " * 40, None, None, 415), (b"%PDF-1.7" + b" " * 40, None, None, 415),
        (b'{"name": "x", "salt": "0123456789"}', None, None, 415), (JPEG, 5, None, 413), (JPEG, None, 20_000_000, 413),
        (b"\xff\xd8\xff", None, 500, 415), (JPEG, None, 0, 413), (JPEG, None, 10, 413),
    ],
)  # fmt: skip
def test_a_photo_is_of_a_kind_and_a_size_that_is_taken(
    firm: Firm, data: bytes, told: int | None, length: int | None, status: int
) -> None:
    job, (tablet,) = handed(firm)
    sha = sha256(data).hexdigest()
    photo = {"sha": sha, "bytes": told, "mime": "image/jpeg"} if told else {"sha": sha}
    tablet.bring(job, tablet.begin(job), tablet.write(job, "photo", photo))
    answer = tablet.send(job, data, 0, length, sha)
    assert answer.status_code == status
    assert firm.store.upload(job, sha) is None


def test_only_what_the_record_names_is_taken(firm: Firm) -> None:
    job, (tablet,) = handed(firm)
    assert tablet.send(job, JPEG).status_code == 403
    # A hash that stands in the text of an event, but names no file.
    tablet.bring(job, tablet.begin(job, sha256(JPEG).hexdigest()))
    assert tablet.send(job, JPEG).status_code == 403
    tablet.bring(job, tablet.write(job, "manifest", {"files": [sha256(JPEG).hexdigest()]}))
    assert tablet.send(job, JPEG).status_code == 204


def test_there_is_only_so_much_room_for_a_job(tmp_path: object) -> None:
    firm = Firm(tmp_path, job_bytes=500)  # type: ignore[arg-type]
    job, (tablet,) = handed(firm)
    other = JPEG + b"another"
    for data in (JPEG, other):
        tablet.bring(job, *([] if job in tablet.head else [tablet.begin(job)]),
                     tablet.write(job, "photo", {"sha": sha256(data).hexdigest()}))  # fmt: skip
    assert tablet.send(job, JPEG).status_code == 204
    answer = tablet.send(job, other)
    assert answer.status_code == 413
    assert "no room" in answer.json()["what"]


@pytest.mark.parametrize(("name", "value"), [("Upload-Offset", "-1"), ("Upload-Length", "1e3"), ("Upload-Offset", "١")])
def test_a_piece_tells_where_it_begins_in_plain_numbers(firm: Firm, name: str, value: str) -> None:
    job, (tablet,) = handed(firm)
    headers = {
        "X-Standfast": "1", "Content-Type": "application/offset+octet-stream", "Upload-Offset": "0",
        "Upload-Length": "9", name: value,
    }  # fmt: skip
    sent = {key: told.encode() for key, told in headers.items()}
    answer = tablet.browser.client.patch(f"/api/v1/jobs/{job}/files/{'a' * 64}", content=b"x", headers=sent)
    assert answer.status_code == 400


def card(firm: Firm, job: str, tablet: Tablet, name: str = "Jo Invented") -> str:
    """A person's card, named by an event and sent."""
    text = json.dumps({"salt": "0" * 32, "name": name, "licence": "X1", "role": "electrician"}).encode()
    sha = sha256(text).hexdigest()
    tablet.bring(job, tablet.begin(job), tablet.write(job, "person", {"card": sha}))
    assert tablet.send(job, text).status_code == 204
    return sha


def test_cards_are_given_to_who_has_the_job(firm: Firm) -> None:
    job, (one, other) = handed(firm, "One", "Other")
    sha = card(firm, job, one)
    got = other.browser.get(f"/api/v1/jobs/{job}/cards").json()["cards"]
    assert json.loads(got[sha])["name"] == "Jo Invented"
    assert sha256(got[sha].encode()).hexdigest() == sha


def test_a_card_is_json(firm: Firm) -> None:
    job, (tablet,) = handed(firm)
    text = b'{"name": "cut off here'
    tablet.bring(job, tablet.begin(job), tablet.write(job, "person", {"card": sha256(text).hexdigest()}))
    assert tablet.send(job, text).status_code == 415


def test_the_state_is_that_of_the_fold(firm: Firm) -> None:
    job, (tablet,) = handed(firm)
    sheet = json.loads(tablets.sheet(firm.store, job, tablets.last_sheet(firm.store, job, firm.now)) or "")
    step = next(each for each in sheet["steps"] if not each["after"] and not each["items"])
    tablet.bring(job, tablet.begin(job), tablet.write(job, "done", {}, step=step["id"]))
    told = tablet.browser.get(f"/api/v1/jobs/{job}/state").json()
    assert told["work"]["steps"][step["id"]]["state"] == "done"
    assert told["ready"] is False
    assert told["hash"] and told["sheet"] == tablets.last_sheet(firm.store, job, firm.now)


def test_an_event_that_comes_while_names_are_read_is_not_left_out(firm: Firm, monkeypatch: pytest.MonkeyPatch) -> None:
    """Two tablets bring events at one moment: what arrives between two questions to the store is read the next time."""
    job, (tablet,) = handed(firm)
    tablet.bring(job, tablet.begin(job))
    photo = tablet.write(job, "photo", {"sha": sha256(JPEG).hexdigest(), "bytes": len(JPEG), "mime": "image/jpeg"})
    read, late = firm.store.events, iter([photo])

    def events(*asked: object) -> object:
        found = read(*asked)
        for raw in late:
            tablet.bring(job, raw)
        return found

    monkeypatch.setattr(firm.store, "events", events)
    uploads = Uploads(firm.store, 10_000_000)
    uploads.named(job)
    assert sha256(JPEG).hexdigest() in uploads.named(job)


def test_what_was_done_out_of_order_is_told_with_the_state(firm: Firm) -> None:
    job, (tablet,) = handed(firm)
    tablet.bring(job, tablet.begin(job))
    assert tablet.browser.get(f"/api/v1/jobs/{job}/state").json()["unsafe"] == []
    tablet.bring(job, tablet.write(job, "done", {}, step="job.connect-main"))
    told = tablet.browser.get(f"/api/v1/jobs/{job}/state").json()["unsafe"]
    assert told and {each["step"] for each in told if each["kind"] == "was"} == {"job.connect-main"}
    assert all(each["text"]["en"] and each["text"]["es"] for each in told)
    row = firm.store.job(job)
    broken = row._replace(text=row.text.replace("[job]", "[jobb]", 1))
    firm.store.save(job, "One", broken)
    (cannot,) = tablet.browser.get(f"/api/v1/jobs/{job}/state").json()["unsafe"]
    assert cannot["kind"] == "cannot tell" and "nobody can tell" in cannot["text"]["en"]


def test_a_store_that_cannot_is_told_and_nothing_of_its_insides(firm: Firm, monkeypatch: pytest.MonkeyPatch) -> None:
    job, (tablet,) = handed(firm)

    def full(*_: object) -> None:
        raise StoreError("the database did not do it", "database or disk is full", "make room", "/secret/place.db")

    raw = tablet.begin(job)
    monkeypatch.setattr(firm.store, "append", full)
    answer = tablet.bring(job, raw)
    assert answer.status_code == 503
    assert "Keep what you have" in answer.json()["do"]
    assert "secret" not in answer.text
    monkeypatch.undo()
    assert tablet.bring(job, raw).json()["acked"] == {tablet.dev: 1}


def test_a_state_is_worked_out_again_only_when_something_came(firm: Firm, monkeypatch: pytest.MonkeyPatch) -> None:
    job, (tablet,) = handed(firm)
    worked, real = [0], standing.standing

    def counted(*asked: Any) -> Any:
        worked[0] += 1
        return real(*asked)

    monkeypatch.setattr(standing, "standing", counted)
    path = f"/api/v1/jobs/{job}/state"
    states = []
    first, second, third = tablet.begin(job), tablet.write(job, "done", {}), tablet.write(job, "done", {})
    # The third comes before the second: beyond a gap, which is told by what is there and not by how far it stands.
    for raw in (first, third, second):
        tablet.bring(job, raw)
        states += [tablet.browser.get(path).json() for _ in range(2)]
        tablet.bring(job, raw)
        assert tablet.browser.get(path).json() == states[-1] == states[-2]
    assert worked == [3]
    assert [len(each["logs"]["gaps"]) for each in states] == [0, 0, 1, 1, 0, 0]
