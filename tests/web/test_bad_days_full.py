"""A full disk, of the tablet or of the office: it is said, nothing is there half, and it goes on with room again.

Root mounts a small disk in memory.
"""

import contextlib
import os
import subprocess
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from bad_days import (
    again,
    broken,
    camera,
    contact,
    kept_tablet,
    note_problem,
    photos,
    raws,
    read_cells,
    settle,
    small_site,
    taken,
    whole,
)
from field_site import PHONE, Tab, launched, picture
from playwright.sync_api import sync_playwright

SMALL = 160_000_000
ROOM = 1_600_000
"""Enough for words, and not for a photo of more than 600,000 bytes beside what has to stay free."""
NOT_SAVED = "NOT SAVED. What you typed still stands here."


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A small disk; the tests are left out where none may be mounted."""
    if os.name != "posix" or os.geteuid() != 0:
        pytest.skip("only root mounts a disk")
    folder = tmp_path / "disk"
    folder.mkdir()
    call = ["mount", "-t", "tmpfs", "-o", f"size={SMALL},mode=700", "tmpfs", folder]
    if subprocess.run(call, check=False, capture_output=True).returncode:
        pytest.skip("no disk may be mounted here")
    try:
        yield folder
    finally:
        subprocess.run(["umount", "-l", folder], check=True)


class Ballast:
    """Something large on a disk."""

    def __init__(self, folder: Path) -> None:
        self.path = folder / "ballast"

    def leave(self, room: int) -> None:
        """Grow, or shrink, until so many bytes are free."""
        disk = os.statvfs(self.path.parent)
        more = disk.f_bavail * disk.f_frsize - room
        with self.path.open("ab", buffering=0) as file:
            if more < 0:
                file.truncate(max(0, file.tell() + more))
            with contextlib.suppress(OSError):
                while more > 0:
                    more -= file.write(bytes(min(more, 1 << 20)))

    def go(self) -> None:
        """Take it away."""
        self.path.unlink()


def try_photo(tab: Tab) -> None:
    """Take a photo for which there is no room."""
    tab.goto("/step/cover")
    tab.field("cover/photo").set_input_files({"name": "a.jpg", "mimeType": "image/jpeg", "buffer": picture(2000, 1500)})
    tab.page.get_by_role("alert").get_by_text(NOT_SAVED).wait_for()


def test_a_tablet_without_room_says_so_keeps_what_was_typed_and_goes_on(small_disk: Path, tmp_path: Path) -> None:
    folder = small_disk / "tablet"
    ballast = Ballast(small_disk)
    with small_site() as site, sync_playwright() as playwright:
        tab = taken(kept_tablet(playwright, folder, site, "--disk-cache-size=1000000"))
        tab.ready()
        read_cells(tab, "12")
        tab.context.set_offline(True)
        before = raws(tab.page, site.job)
        # Room for words, and none for a picture.
        ballast.leave(ROOM)
        try_photo(tab)
        ballast.leave(ROOM)
        assert raws(tab.page, site.job) == before
        assert not [each for each in photos(tab.page, site.job).values() if each.startswith(b"\xff\xd8")]
        note_problem(tab, "small enough")
        small = raws(tab.page, site.job)
        assert len(small) == len(before) + 1
        # Room for nothing.
        tab.goto("/problem")
        tab.page.get_by_text("damaged").click()
        long = "no room for this: " + "x" * 3900
        tab.page.locator("textarea").fill(long)
        ballast.leave(0)
        tab.tap("Save the problem")
        tab.page.get_by_role("alert").get_by_text(NOT_SAVED).wait_for()
        tab.page.get_by_role("alert").get_by_text("Free some room on the tablet").wait_for()
        assert tab.page.locator("textarea").input_value() == long
        # With no room at all the browser does not even open the store to read it.
        ballast.go()
        assert raws(tab.page, site.job) == small
        tab.tap("Save the problem")
        tab.page.get_by_text("The problem is saved on this tablet.").wait_for()
        camera(tab)
        tab.context.close()
        tab = kept_tablet(playwright, folder, site)
        tab.page.goto(f"{site.url}/field/#/job/{site.job}")
        tab.page.locator(".step").wait_for()
        again(tab)
        settle(tab)
        texts = raws(tab.page, site.job)
        assert broken(texts) == []
        assert [sum(what in each for each in texts) for what in ("small enough", "no room for this")] == [1, 1]
        whole(site, tab)
        tab.context.close()


def test_an_office_without_room_is_told_on_the_tablet_and_takes_the_rest_later(small_disk: Path) -> None:
    ballast = Ballast(small_disk)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("tempfile.tempdir", str(small_disk))
        with small_site() as site, sync_playwright() as playwright:
            browser = launched(playwright)
            context = browser.new_context(viewport=PHONE)
            tab = taken(Tab(context, site))
            settle(tab)
            had = list(site.store.events(site.job))
            ballast.leave(0)
            note_problem(tab, "x" * 3000)
            camera(tab)
            refused(tab)
            assert list(site.store.events(site.job))[: len(had)] == had
            tab.goto("/record")
            tab.page.locator("main section").get_by_text("The office refused: The store cannot do that now.").wait_for()
            ballast.go()
            # By itself: the tablet asks again, later and later.
            end = time.monotonic() + 25
            while (told := contact(tab))["state"] != "done" or told["waiting"] + told["photos"]:
                assert time.monotonic() < end, told
                tab.page.wait_for_timeout(100)
            whole(site, tab)
            browser.close()


def refused(tab: Tab) -> None:
    """Send until the office has no room."""
    for _ in range(20):
        tab.send()
        if contact(tab)["state"] == "refused":
            return
        tab.page.wait_for_timeout(100)
    pytest.fail(f"the office took it: {contact(tab)}")
