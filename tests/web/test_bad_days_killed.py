"""The browser is killed while it writes: what it said was saved is there, and nothing is torn."""

import contextlib
import re
from hashlib import sha256
from pathlib import Path

from bad_days import again, broken, kept_tablet, kill_browser, photos, raws, record_of, settle, small_site, taken, whole
from playwright.sync_api import ConsoleMessage, Error, sync_playwright

KILLS = 3
WRITING = """async () => {
  const { record } = await import("/field/static/work.js");
  const { kept } = await import("/field/static/media.js");
  const photo = async () => {
    const bytes = new Uint8Array(1_500_000);
    for (let at = 0; at < bytes.length; at += 65_536) crypto.getRandomValues(bytes.subarray(at, at + 65_536));
    bytes.set([0xff, 0xd8, 0xff]);
    return kept(new Blob([bytes], { type: "image/jpeg" }));
  };
  (async () => {
    for (let n = 0; ; n += 1) {
      const file = n % 3 ? null : await photo();
      const about = file && { item: "cover/photo", sha: file.sha, bytes: file.bytes, mime: file.mime };
      const line = file
        ? await record("photo", "cover", about, [file])
        : await record("problem", "", { kind: "other", text: `${n}` });
      console.log(`saved ${line.seq} ${line.hash} ${file?.sha ?? ""}`);
    }
  })();
}"""
SAVED = re.compile(r"saved (\d+) (\w{64}) (\w*)")


def test_a_browser_that_is_killed_while_it_writes_loses_nothing_that_it_called_saved(tmp_path: Path) -> None:
    folder = tmp_path / "tablet"
    saved: dict[int, tuple[str, str]] = {}

    def heard(message: ConsoleMessage) -> None:
        if found := SAVED.fullmatch(message.text):
            saved[int(found[1])] = (found[2], found[3])

    with small_site() as site, sync_playwright() as playwright:
        tab = taken(kept_tablet(playwright, folder, site))
        tab.ready()
        dev = tab.events()[0]["dev"]
        # Until the last of all nobody is there but the tablet.
        tab.context.set_offline(True)
        for kill in range(KILLS):
            before = len(saved)
            tab.page.on("console", heard)
            tab.page.evaluate(WRITING)
            while len(saved) < before + 6:
                tab.page.wait_for_timeout(50)
            tab.page.wait_for_timeout(37 * kill)
            assert kill_browser(folder) > 0
            with contextlib.suppress(Error):
                tab.context.close()
            tab = kept_tablet(playwright, folder, site)
            tab.context.set_offline(True)
            tab.page.goto(f"{site.url}/field/#/job/{site.job}")
            tab.page.locator(".step").wait_for()
            texts = raws(tab.page, site.job)
            assert broken(texts) == []
            log = record_of(texts).logs[dev]
            assert {seq: log[seq][0].event.hash for seq in saved} == {seq: hash for seq, (hash, _) in saved.items()}
            files = photos(tab.page, site.job)
            assert {sha for _, sha in saved.values() if sha} <= set(files)
            assert [sha for sha, content in files.items() if sha256(content).hexdigest() != sha] == []
            named = {each.data["sha"] for each in record_of(texts).events if each.type == "photo"}
            assert named <= set(files), "no photo without its event, no event without its photo"
        assert len(saved) >= 6 * KILLS
        tab.context.set_offline(False)
        # A browser writes cookies down half a minute later: the office may not know the tablet by now.
        again(tab)
        settle(tab)
        whole(site, tab)
        assert tab.faults == []
        tab.context.close()
