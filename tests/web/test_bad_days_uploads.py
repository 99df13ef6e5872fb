"""Events and photos that come twice, backwards, in halves and damaged; and whatever two tablets do in any order."""

import json
from base64 import b64encode
from collections.abc import Iterator
from hashlib import sha256
from typing import Any

import pytest
from bad_days import (
    READING,
    broken,
    camera,
    folded,
    note_problem,
    photos,
    raws,
    read_cells,
    record_of,
    settle,
    small_site,
    state_of,
    taken,
    whole,
)
from field_site import PHONE, Site, Tab, launched
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from playwright.sync_api import Browser, Request, Route, sync_playwright

PIECE = 256 * 1024


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        browser = launched(playwright)
        yield browser
        browser.close()


@pytest.fixture
def site() -> Iterator[Site]:
    with small_site() as site:
        yield site


def tablet(browser: Browser, site: Site, name: str = "Ana Invented") -> Tab:
    return taken(Tab(browser.new_context(viewport=PHONE), site), name)


def bring(tab: Tab, texts: list[str]) -> dict[str, Any]:
    """Bring events as the pages do, in whatever order."""
    found: dict[str, Any] = tab.page.evaluate(
        """async ([job, dev, events]) => (await import("/field/static/office.js"))
        .post(`/jobs/${job}/events`, { dev, events, have: {} })""",
        [tab.site.job, json.loads(texts[0])["dev"], texts],
    )
    return found


def patch(tab: Tab, sha: str, offset: int, length: int, piece: bytes) -> tuple[int, int]:
    """Bring a piece of a file: the status, and where the office says that it stands."""
    status, stands = tab.page.evaluate(
        """async ([job, sha, offset, length, piece]) => {
          const path = `/api/v1/jobs/${job}/files/${sha}`;
          const headers = { "X-Standfast": "1", "Content-Type": "application/offset+octet-stream",
            "Upload-Offset": `${offset}`, "Upload-Length": `${length}` };
          const body = Uint8Array.from(atob(piece), each => each.charCodeAt(0));
          const answer = await fetch(path, { method: "PATCH", headers, body });
          const stands = await fetch(path, { method: "HEAD", headers: { "X-Standfast": "1" } });
          return [answer.status, stands.ok ? Number(stands.headers.get("Upload-Offset")) : -1];
        }""",
        [tab.site.job, sha, offset, length, b64encode(piece).decode()],
    )
    return status, stands


def test_events_that_come_backwards_in_parts_and_twice_are_there_once_and_acknowledged_to_the_first_gap(
    browser: Browser, site: Site
) -> None:
    tab = tablet(browser, site)
    settle(tab)
    sent = len(site.store.events(site.job))
    tab.page.route("**/api/v1/**", lambda route: route.abort())
    for number in range(4):
        note_problem(tab, f"number {number}")
    texts = raws(tab.page, site.job)
    fresh, dev = texts[sent:], json.loads(texts[0])["dev"]
    tab.page.unroute_all(behavior="ignoreErrors")
    # The last one first: it is kept, and not acknowledged, since what is before it is not there.
    assert bring(tab, fresh[-1:])["acked"][dev] == sent
    assert bring(tab, [*reversed(fresh[1:])])["acked"][dev] == sent
    assert bring(tab, fresh[:1])["acked"][dev] == len(texts)
    for again in (texts, [*reversed(texts)], texts[:3] + texts[:3]):
        found = bring(tab, again)
        assert found["acked"][dev] == len(texts)
        assert found["forks"] == []
    settle(tab)
    whole(site, tab)
    assert broken(raws(tab.page, site.job)) == []


def test_half_a_photo_a_piece_twice_and_a_damaged_one(browser: Browser, site: Site) -> None:
    tab = tablet(browser, site)
    settle(tab)
    tab.page.route("**/files/*", lambda route: route.abort())
    camera(tab)
    tab.send()
    (sha,) = [each.data["sha"] for each in record_of(raws(tab.page, site.job)).events if each.type == "photo"]
    photo = photos(tab.page, site.job)[sha]
    assert len(photo) > 2 * PIECE
    tab.page.unroute_all(behavior="ignoreErrors")
    length = len(photo)
    # Half of it, the same piece twice, and one that leaves a hole.
    assert patch(tab, sha, 0, length, photo[:100_000]) == (204, 100_000)
    assert patch(tab, sha, 0, length, photo[:100_000]) == (409, 100_000)
    assert patch(tab, sha, 200_000, length, photo[200_000:300_000]) == (409, 100_000)
    # Damaged on the way, to the end: refused as a whole, and begun anew.
    at = 100_000
    while at < length - 200_000:
        assert patch(tab, sha, at, length, bytes(200_000)) == (204, at + 200_000)
        at += 200_000
    assert patch(tab, sha, at, length, bytes(length - at)) == (460, -1)
    assert site.store.file(site.job, sha) is None
    # Half of it once more: the tablet goes on from there, and sends no byte before it.
    assert patch(tab, sha, 0, length, photo[:150_000]) == (204, 150_000)
    begins: list[int] = []

    def asked(request: Request) -> None:
        if request.method == "PATCH" and sha in request.url:
            begins.append(int(request.headers["upload-offset"]))

    tab.context.on("request", asked)
    settle(tab)
    assert begins[0] == 150_000
    assert begins == sorted(set(begins))
    assert site.store.file(site.job, sha) == photo
    # All of it again changes nothing.
    assert patch(tab, sha, 0, length, photo[:100_000])[1] == length
    assert site.store.file(site.job, sha) == photo
    whole(site, tab)


def test_a_photo_that_is_damaged_on_the_way_is_sent_again_by_the_tablet_itself(browser: Browser, site: Site) -> None:
    tab = tablet(browser, site)
    settle(tab)
    damaged: list[int] = []

    def damage(route: Route) -> None:
        body = route.request.post_data_buffer
        if route.request.method == "PATCH" and body and len(body) == PIECE and not damaged:
            damaged.append(1)
            route.continue_(post_data=body[:-9] + b"\0damaged\0")
        else:
            route.continue_()

    tab.page.route("**/files/*", damage)
    answers: list[int] = []
    tab.page.on("response", lambda each: answers.append(each.status) if "/files/" in each.url else None)
    camera(tab)
    settle(tab)
    assert damaged
    assert 460 in answers
    tab.page.unroute_all(behavior="ignoreErrors")
    whole(site, tab)
    for sha, content in photos(tab.page, site.job).items():
        assert sha256(content).hexdigest() == sha


WHAT = ["read", "read", "void", "resolve", "done", "sync", "sync", "apart"]
ACTIONS = st.lists(
    st.tuples(st.sampled_from(WHAT), st.integers(0, 1), st.integers(0, 9)),
    min_size=4, max_size=12,
)  # fmt: skip
ACT = """async ([what, number, item]) => {
  const { job, record } = await import("/field/static/work.js");
  const values = job().state.work.items[item].values;
  const counting = values.filter(each => each.counts);
  if (what === "read") await record("reading", "cells", { values: [{ item, value: `${number * 0.5}`, unit: "MΩ" }] });
  if (what === "done") await record("done", ["cells", "cover", "close"][number % 3]);
  if (what === "void" && values.length)
    await record("void", "cells", { of: values[number % values.length].event, reason: "wrong lead" });
  const of = counting.map(each => each.event);
  if (what === "resolve" && of.length > 1)
    await record("resolve", "cells", { of, keep: of[0], reason: "the lead was broken" });
}"""


@given(ACTIONS)
@settings(max_examples=8, deadline=None, suppress_health_check=list(HealthCheck), database=None)
def tried(tabs: tuple[Tab, Tab], actions: list[tuple[str, int, int]]) -> None:
    """Do something on two tablets, and see that both and Python come to one state."""
    site = tabs[0].site
    for what, who, number in actions:
        tab = tabs[who]
        match what:
            case "sync":
                tab.context.set_offline(False)
                tab.send()
            case "apart":
                tab.context.set_offline(True)
            case _:
                tab.page.evaluate(ACT, [what, number, READING])
    for tab in tabs:
        tab.context.set_offline(False)
    for tab in (*tabs, tabs[0]):
        settle(tab)
    texts = [each.raw for each in site.store.events(site.job)]
    states = {state_of(tab)["hash"] for tab in tabs}
    assert states == {folded(texts, site.sheet).hash}
    for tab in tabs:
        assert sorted(raws(tab.page, site.job)) == sorted(texts)
        assert not state_of(tab)["logs"]["forks"]
        assert not state_of(tab)["logs"]["gaps"]
    assert broken(texts) == []


def test_whatever_two_tablets_do_in_whatever_order_both_and_the_office_come_to_one_state(
    browser: Browser, site: Site
) -> None:
    one, two = tablet(browser, site), tablet(browser, site, "Ben Invented")
    tried((one, two))
    values = state_of(one)["work"]["items"][READING]["values"]
    assert len(values) > 5, "something was done"
    kinds = [each.type for each in record_of(raws(one.page, site.job)).events]
    assert {"reading", "void", "resolve", "done"} <= set(kinds)
    assert one.faults == two.faults == []


def test_what_is_read_on_the_screen_is_what_the_office_folds(browser: Browser, site: Site) -> None:
    tab = tablet(browser, site)
    read_cells(tab, "0.5")
    tab.goto("/step/cells")
    tab.page.locator(".recorded").get_by_text("DOES NOT HOLD").wait_for()
    settle(tab)
    item = folded([each.raw for each in site.store.events(site.job)], site.sheet).work["items"][READING]
    assert item["word"] == "fail"
