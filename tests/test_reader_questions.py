"""What a reader new to the trade asks, and the page of the built handbook that answers it with a number.

The answers are taken from the records, so that a page that lost its number, or shows another, fails.
"""

from __future__ import annotations

import html
import re
from pathlib import Path

from generator.press.words.formatted import measured
from tests.planning.demo import RECORDS


def _text(markup: str) -> str:
    return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", markup)).replace("\u00a0", " ").split())


def _said(value: object) -> str:
    return measured(value, RECORDS).replace("\u00a0", " ")  # type: ignore[arg-type]


def _page(site: Path, name: str) -> str:
    text = (site / f"{name}.html").read_text("utf-8")
    return text[text.index("<article") : text.index("</article>")]


def _rows(markup: str) -> list[str]:
    return [_text(row) for row in re.findall(r"<tr[^>]*>.*?</tr>", markup, re.DOTALL)]


def test_the_dial_for_a_seven_needle_liner_on_the_second_machine(site: Path) -> None:
    second = list(RECORDS.machines.values())[1]
    page = _page(site, "reference/dials")
    start = page.index(f"{second.name}: ")
    section = page[start : page.find("<h2", start) if page.find("<h2", start) > 0 else len(page)]
    (row,) = (row for row in _rows(section) if row.startswith("Lining") and "1207RL" in row)
    dial = next(d for d in RECORDS.techniques["lining"].dials if d.fewest <= 7 <= d.most and "RL" in d.configurations)
    assert _said(dial.usual) in row
    assert "7 needles" in _text(page) or re.search(r"1207RL", _text(page))


def test_how_far_the_needle_hangs_out_for_packing(site: Path) -> None:
    told = _text(_page(site, "procedures/shading-and-packing"))
    hang_out = _said(RECORDS.techniques["packing"].hang_out)
    assert re.search(rf"Packing with .{{0,160}}hang-out {re.escape(hang_out)}", told)


def test_how_much_product_for_one_litre_of_surface_disinfectant_and_how_long_it_stays_wet(site: Path) -> None:
    page = _page(site, "reference/disinfectants")
    product = RECORDS.disinfectants["surface-concentrate"]
    assert product.stock is not None and product.mixed_to is not None
    # One litre at 2 % of a product sold at 100 %: parts of water are stock / mix - 1 (CDC, Best Practices for
    # Environmental Cleaning, Appendix E).
    millilitres = 1000 / (1 + (product.stock.low / product.mixed_to.low - 1))
    rows = [row for row in _rows(page) if row.startswith(product.name)]
    assert any(row.startswith(f"{product.name} 1 L {millilitres:g} mL") for row in rows)
    assert any(row.startswith(f"{product.name} {_said(product.contact)}") for row in rows)


def test_when_a_ten_month_old_scar_may_be_looked_at_again(site: Path) -> None:
    age = RECORDS.scar_rules["scar-young"].wait_until_age
    assert age is not None
    assert f"Younger than {_said(age)}" in _text(_page(site, "procedures/scars"))
    assert f"{_said(age)} after the wound" in _text(_page(site, "reference/scar-rules"))


def test_how_often_to_go_over_one_spot(site: Path) -> None:
    rows = _rows(_page(site, "procedures/when-to-stop"))
    for technique in RECORDS.techniques.values():
        (row,) = (row for row in rows if row.startswith(technique.name))
        found = {int(number) for number in re.findall(r"\b\d+\b", row)}
        assert found and found <= {dial.passes for dial in technique.dials}, technique.name


def test_when_to_change_gloves(site: Path) -> None:
    told = _text(_page(site, "procedures/hands-and-gloves"))
    assert f"after {_said(RECORDS.values['glove-wear'].is_)} at the latest" in told


def test_when_the_touch_up_is(site: Path) -> None:
    told = _text(_page(site, "procedures/follow-up"))
    limits = RECORDS.studio.limits
    assert f"Touch-up after {_said(limits.touch_up)}" in told and f"after {_said(limits.touch_up_slow)}" in told


def test_who_had_ink_from_a_given_lot(site: Path) -> None:
    page = _page(site, "lots")
    (href,) = set(re.findall(r'href="(lots/[^"]*or6008[^"]*)"', page))
    sheet = _text((site / href).read_text("utf-8"))
    had = [
        re.search(r"client: (R-\d+)", text)[1]  # type: ignore[index]
        for path in (Path(RECORDS.folder) / "jobs").glob("*.yml")
        if "OR-6008" in (text := path.read_text("utf-8"))
    ]
    assert had and all(client in sheet for client in had)


def test_what_to_do_in_the_first_minute_after_a_needlestick(site: Path) -> None:
    told = _text(_page(site, "procedures/needlestick"))
    assert re.search(r"The first minute .*Wash with soap under running water\. Do not scrub\. Do not suck\.", told)
    assert told.index("The first minute") < told.index("Purpose.")
    assert f"See a doctor within {_said(RECORDS.values['stick-seen'].is_)}" in told
    assert 'href="procedures/needlestick.html' in _page(site, "index")
