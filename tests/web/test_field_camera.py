"""A serial number is read from what a camera sees, by the decoder that lies in the shell."""

import io
import json
from pathlib import Path

from field_site import PHONE, Tab, demo_sheet, launched, site_of
from PIL import Image
from playwright.sync_api import sync_playwright


def test_a_serial_number_is_read_by_the_camera_without_a_network(tmp_path: Path) -> None:
    import zxingcpp

    code = zxingcpp.create_barcode("INV-2026-00042", zxingcpp.BarcodeFormat.DataMatrix)
    frame = Image.new("RGB", (640, 480), "white")
    frame.paste(Image.fromarray(code.to_image(scale=10, add_quiet_zones=True)), (150, 100))
    out = io.BytesIO()
    frame.save(out, "JPEG", quality=95)
    film = tmp_path / "camera.mjpeg"
    film.write_bytes(out.getvalue() * 4)
    with site_of(json.loads(demo_sheet())) as site, sync_playwright() as playwright:
        browser = launched(playwright, f"--use-file-for-fake-video-capture={film}")
        tab = Tab(browser.new_context(viewport=PHONE, permissions=["camera"]), site)
        tab.enrol()
        tab.take("Ana Invented")
        tab.ready()
        tab.context.set_offline(True)
        tab.goto("/step/job.delivery")
        tab.tap("Read the code with the camera")
        tab.page.locator(".recorded").get_by_text("INV-2026-00042").wait_for()
        told = tab.told("scan")
        assert (told["text"], told["symbology"], told["typed"]) == ("INV-2026-00042", "DataMatrix", False)
        assert tab.hosts == {site.url.removeprefix("http://")}
        assert tab.faults == []
        browser.close()
