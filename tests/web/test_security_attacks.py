"""Attacks that were tried on a running office, and what became of them."""

from firm import Firm

from standfast.foreman.office import handing


def test_half_a_character_in_a_text_stops_neither_the_state_nor_the_page(firm: Firm) -> None:
    """JSON can name half a character, UTF-8 cannot hold it: one such text would have closed the record to everybody."""
    job, tablet, office = firm.job(), firm.tablet(), firm.signed_in("office")
    sheet = handing.hand_out(firm.store, job, [tablet.dev], None, firm.now)
    problem = tablet.write(job, "problem", {"kind": "other", "text": "half \ud800 of it"})
    assert tablet.bring(job, tablet.begin(job, sheet), problem).status_code == 200
    state = office.api("GET", f"/api/v1/jobs/{job}/state")
    assert [each["text"] for each in state.json()["work"]["problems"].values()] == ["half \ud800 of it"]
    page = office.get(f"/office/jobs/{job}")
    assert page.status_code == 200 and "half ? of it" in page.text
