"""The page of what was learned, and the page of what to order."""

from __future__ import annotations

import datetime
import html
import re
import statistics
from functools import cache

import pytest

from generator.planning.for_lists import needs_of
from generator.planning.timing.rounding import middle_rounded
from generator.press.lists.learning import LEARNING, learning_page
from generator.press.lists.restock import RESTOCK
from generator.press.pages import Gathered, generated_pages
from generator.records.reading import read_records
from tests.learned import learn, learn_from
from tests.planning.demo import CONTENT, RECORDS, demo, with_entry
from tests.planning.timing.test_learning import finished
from tests.press.page_at import page_at

AS_OF = datetime.date(2027, 5, 1)
LEARNED = learn_from(CONTENT, read_records(CONTENT))[0]
COMING = ("keepers-lantern", "orrery", "paper-boat", "stairwell", "tide-table")
NEEDS = [needs for name in COMING if (needs := needs_of(RECORDS, demo(name))) is not None]


@cache
def pages_made() -> dict[str, str]:
    """All pages, with what finished jobs have taught."""
    return generated_pages(RECORDS, AS_OF, Gathered(learned=LEARNED, needs=NEEDS))


def row(page: str, at: str) -> str:
    found = re.search(rf'<tr id="{re.escape(at)}">.*?</tr>', page, re.DOTALL)
    assert found, at
    return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", found[0])).split())


def test_each_factor_in_use_and_the_jobs_that_it_rests_on() -> None:
    page = pages_made()[LEARNING]
    # 51 min against the middle of 36.8–61.3 min, whose printed rows add up to 35–63; the median of three is that of
    # the signal box.
    assert row(page, "learned-quill-lining") == "Quill Lining 3 1.05"
    assert row(page, "times-quill-lining-diving-bell") == "diving-bell 2027-03-09 35–63 min 49 min 51 min 1.04 1.05"
    assert 'href="../sheets/diving-bell.html"' in page
    assert "How these were computed: factors" in page


def test_a_reader_can_follow_each_ratio_and_the_factor_from_what_is_printed() -> None:
    page, followed = pages_made()[LEARNING], []
    for lesson in (lesson for lesson in LEARNED.values() if lesson.factor is not None):
        how = row(page, f"how-learned-{lesson.artist}-{lesson.technique}")
        jobs = re.findall(r"([\d.]+)\smin on the clock over ([\d.]+)\smin estimated: ([\d.]+)", how)
        listed = [row(page, f"times-{lesson.artist}-{lesson.technique}-{timed.job}") for timed in lesson.jobs]
        assert [ratio for _, _, ratio in jobs] == [one.split()[-2] for one in listed]
        for clock, middle, ratio in ((float(number) for number in job) for job in jobs):
            assert middle == pytest.approx(float(f"{middle:.2g}")) or middle % 5 == 0
            followed.append(clock / middle == pytest.approx(ratio, rel=0.05))
        assert statistics.median(float(ratio) for _, _, ratio in jobs) == pytest.approx(lesson.factor.low, abs=0.01)
    assert len(followed) > 10 and all(followed)


@pytest.mark.parametrize(
    ("middle", "shown"), [(49.07, 49), (98.6, 99), (112.4, 110), (113, 115), (164, 165), (9.64, 9.6), (1.5, 1.5)]
)
def test_the_middle_of_an_estimate_has_two_figures_and_is_no_coarser_than_five_minutes(
    middle: float, shown: float
) -> None:
    assert middle_rounded(middle) == shown


def test_why_there_is_no_factor_stands_in_its_place() -> None:
    assert row(pages_made()[LEARNING], "learned-quill-fine-detail").endswith("none: 2 finished, 3 or more are needed")
    doubted, _ = learn(RECORDS, [finished(n, 30) for n in (1, 2, 3)])
    assert "none, the pace is in doubt: a factor of 3.75" in row(
        learning_page(page_at(LEARNING), doubted), "learned-quill-lining"
    )


def drawn(page: str, at: str) -> str:
    """The figure under a heading."""
    return page[page.index(f"{{ #{at} }}") :].split("<figure", 1)[1].split("</figure>", 1)[0]


def test_each_lesson_is_drawn_to_the_scale_under_it() -> None:
    lesson = LEARNED["quill", "packing"]
    figure = drawn(pages_made()[LEARNING], "times-learned-quill-packing")
    scale = [(float(x), float(minutes)) for x, minutes in re.findall(r'<text x="([\d.]+)" [^>]*middle">(\d+)', figure)]
    (nought, _), (end, most) = scale[0], scale[-1]
    per_minute = (end - nought) / most
    assert all(x == pytest.approx(nought + minutes * per_minute, abs=0.1) for x, minutes in scale)
    drawn_bars = re.findall(r'class="estimate" x="([\d.]+)" y="\S+" width="([\d.]+)"', figure)
    bars = [tuple(map(float, bar)) for bar in drawn_bars]
    clocks = [float(x) for x in re.findall(r'class="clock" d="M([\d.]+) ', figure)]
    middles = [float(x) for x in re.findall(r'class="middle" d="M([\d.]+) ', figure)]
    assert len(lesson.jobs) == len(bars) == len(clocks) == len(middles) == 3
    for timed, (left, wide), clock, middle in zip(lesson.jobs, bars, clocks, middles, strict=True):
        low, high = timed.planned
        assert (left - nought) / per_minute == pytest.approx(low, abs=0.3)
        assert wide / per_minute == pytest.approx(high - low, abs=0.3)
        assert (clock - nought) / per_minute == pytest.approx(timed.took, abs=0.3)
        assert (middle - nought) / per_minute == pytest.approx(timed.estimate, abs=0.3)
        low, high = timed.printed
        assert f"{timed.job}: estimated {low:g} to {high:g}, took {timed.took:.0f}." in figure
    assert "Factor in use: 1.08." in figure


def test_a_figure_says_why_there_is_no_factor() -> None:
    assert "Factor in use: none: 2 finished, 3 or more are needed." in drawn(
        pages_made()[LEARNING], "times-learned-quill-fine-detail"
    )


def test_without_finished_jobs_the_page_says_so() -> None:
    assert "No finished job has times by technique yet." in learning_page(page_at(LEARNING), {})


def test_what_to_order_stands_with_stock_reserve_and_pack() -> None:
    page = pages_made()[RESTOCK]
    assert "from 2027-05-01 to 2027-11-27" in page
    assert row(page, "restock-groupings-1210RL") == "1210RL 4 4 4 20 1 box"
    assert row(page, "restock-supplies-razor") == "Razor 2 86 20 50 nothing"
    assert row(page, "restock-inks-rust").endswith("1 bottle")
    assert "how-restock-groupings-1210RL" in page


def test_jobs_that_count_and_jobs_that_are_left_out() -> None:
    page = pages_made()[RESTOCK]
    counting, out = page.index("Jobs that count"), page.index("Left out")
    assert counting < page.index("tide-table.html") < out < page.index("orrery.html")
    assert "not yet" in page[out:]


def test_what_nobody_counted_is_asked() -> None:
    records = with_entry("inks", "black-line", shelf=None)
    page = generated_pages(records, AS_OF, Gathered(learned=LEARNED, needs=NEEDS))[RESTOCK]
    assert row(page, "restock-inks-black-line").count("not counted – ask") == 4


def test_jobs_beyond_the_span_are_neither_counted_nor_left_out() -> None:
    page = generated_pages(RECORDS, datetime.date(2028, 1, 1), Gathered(learned=LEARNED, needs=NEEDS))[RESTOCK]
    assert "No planned job may go ahead in these days." in page and "Left out" not in page
