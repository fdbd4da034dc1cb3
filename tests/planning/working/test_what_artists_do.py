"""What artists commonly set is planned, what is printed in a table can be typed, and who chose what.

Nothing here is published: ranges are common practice of the trade, no published source.
"""

from __future__ import annotations

import dataclasses
import html
import itertools
import json
import re
from collections.abc import Iterator
from typing import NamedTuple

import pytest

from generator.planning.as_json import as_data
from generator.planning.working.pieces import NoSetting, Piece
from generator.planning.working.settings import Setting, settings_for
from generator.planning.working.strokes import fewest_strokes
from generator.planning.working.technique import dial_row, technique_for
from generator.press.drawings.pictures import pictures_of
from generator.press.sheet.contents import sheet_of
from generator.press.tables.dials import dials_page
from generator.press.tables.needles import groupings_page, speeds_page
from generator.press.tables.studio import machines_page
from generator.press.tables.swapping import swapping_page
from generator.quantities import Quantity, as_printed, within
from generator.records.machines import Machine
from generator.records.needles import Grouping, Technique
from generator.records.people import OwnSettings
from generator.trade.labels import read_label
from tests.planning.demo import RECORDS, Written, job_of, part, planned, simple, steps_of, try_plan, with_entry
from tests.press.page_at import page_at

MAGNUMS = ("M1", "M2", "CM", "RM")


class Practice(NamedTuple):
    """What artists do with one technique: the kinds of needle, Hz, and hang-out in mm; all of it common practice."""

    technique: str
    configurations: tuple[str, ...]
    most: int
    hz: tuple[float, ...]
    hang_outs: tuple[float, ...]


# Common practice, no published source: liners 90–130 Hz, tiny detail 60–90, soft shading 70–120, packing 90–130;
# hang-out when lining 2–4 mm, magnums 1.5–3 mm. White is a detail of 60–90 Hz or packed.
PRACTICE = (
    Practice("lining", ("RL",), 14, (90, 110, 130), (2, 3, 4)),
    Practice("fine-detail", ("RL",), 5, (60, 70, 90), (2, 3, 4)),
    Practice("soft-shading", MAGNUMS, 27, (70, 95, 120), (1.5, 2, 3)),
    Practice("packing", MAGNUMS, 27, (90, 110, 130), (1.5, 2, 3)),
    Practice("packing", ("RL", "RS"), 14, (90, 110, 130), (2, 3, 4)),
    Practice("highlights", ("RL", "RS"), 14, (60, 90, 110), (2, 3, 4)),
)
# The cases that artists name: a ten-needle round liner for packing where a magnum cannot enter, and for white; a
# soft-edge fifteen shading at 120 Hz; detail at 70 Hz on 3.5 mm; a hang-out of 4 mm for lines and white.
NAMED: tuple[Written, ...] = (
    {"ink": "black-shade", "needle": "1210RL"},
    {"ink": "white", "needle": "1210RL"},
    {"ink": "wash-mid", "needle": "1015CM", "dial": "120 Hz"},
    {"ink": "white", "hang_out": "4 mm"},
    {"needle": "1003RL", "technique": "fine-detail", "dial": "70 Hz", "stroke": "3.5 mm"},
    {"needle": "1210RL", "hang_out": "4 mm"},
)


def row(technique: Technique, **choice: str) -> Written:
    """A row of work with this technique."""
    base = {"length": "90 mm"} if technique.works == "lines" else {"ink": "black-line", "area": "1 cm²"}
    return {"technique": technique.id, **base, **choice}


def as_parts(rows: list[Written]) -> list[Written]:
    """Every row on a part of its own, wide enough for every needle."""
    return [
        part(
            f"p{number}",
            (0, 0, 90, 90),
            lines=[one] if "length" in one else None,
            colours=[one] if "ink" in one else None,
        )
        for number, one in enumerate(rows)
    ]


def set_up(rows: list[Written]) -> list[Setting]:
    """The settings of rows, all of which have to be set up without a mistake."""
    job = job_of(simple(parts=as_parts(rows)))
    pieces = []
    for one in job.parts:
        work = (*one.lines, *one.colours)[0]
        way = technique_for(RECORDS, one, work)
        pieces.append(Piece(one, work, way, RECORDS.groupings[work.needle or way.usual_grouping]))
    settings = settings_for(RECORDS, job, pieces)
    assert [s.diagnostic for s in settings if isinstance(s, NoSetting)] == []
    return [s for s in settings if isinstance(s, Setting)]


def shelf(configurations: tuple[str, ...], most: int) -> list[Grouping]:
    labelled = [(read_label(grouping.label), grouping) for grouping in RECORDS.groupings.values()]
    return [g for label, g in labelled if label.configuration in configurations and label.count <= most]


def test_every_setting_within_practice_is_planned() -> None:
    rows = [
        row(RECORDS.techniques[p.technique], needle=grouping.id, dial=f"{hz:g} Hz", hang_out=f"{hang_out:g} mm")
        for p in PRACTICE
        for grouping in shelf(p.configurations, p.most)
        for hz, hang_out in zip(p.hz, p.hang_outs, strict=True)
    ]
    assert len(rows) > 90
    settings = set_up(rows)
    assert [s.hang_out.low for s in settings] == [float(r["hang_out"].split()[0]) for r in rows]
    assert [s.speed.low for s in settings] == [float(r["dial"].split()[0]) for r in rows]


def test_every_stroke_of_two_to_four_millimetres_is_on_a_machine() -> None:
    # From memory, common practice: strokes of 2–4 mm.
    machines = {s.low for machine in RECORDS.machines.values() for s in machine.strokes}
    assert {2, 2.5, 3, 3.5, 4} <= machines
    lining = RECORDS.techniques["lining"]
    rows = [row(lining, needle="1207RL", stroke=f"{stroke:g} mm") for stroke in sorted(machines)]
    assert [s.stroke.low for s in set_up(rows)] == sorted(machines)


def test_the_cases_that_artists_name() -> None:
    rows = [one if "technique" in one or "ink" in one else {"technique": "lining", **one} for one in NAMED]
    rows = [{**one, "area": "1 cm²"} if "ink" in one else {**one, "length": "90 mm"} for one in rows]
    settings = set_up(rows)
    # None of them is even unusual.
    assert [(s.technique.id, s.outside) for s in settings if s.outside] == []
    assert settings[4].stroke.low == 3.5 and settings[4].dial.low == 70


@pytest.mark.parametrize(
    ("choice", "what", "usual"),
    [
        ({"needle": "1207RL", "dial": "89 Hz"}, "speed", "90–120"),
        ({"needle": "1003RL", "dial": "110 Hz"}, "speed", "90–105"),
        # 5 V is 68 Hz on the bench machine.
        ({"needle": "1207RL", "machine": "lathe", "dial": "5 V"}, "speed", "90–120"),
        ({"needle": "1207RL", "stroke": "2.5 mm"}, "stroke", "3.5–4"),
        ({"needle": "1003RL", "technique": "fine-detail", "hang_out": "4 mm"}, "hang-out", "2–3.5"),
        ({"needle": "1209RS"}, "needle", "RL"),
        ({"ink": "white", "needle": "1215CM", "area": "1 cm²"}, "needle", "RL, RS"),
    ],
)
def test_outside_the_usual_range_is_a_care_that_names_the_range(choice: Written, what: str, usual: str) -> None:
    rows = [choice if "ink" in choice else {"length": "90 mm", **choice}]
    made = planned(simple(parts=[{**as_parts(rows)[0], "focal": "yes"}]))
    (care,) = [f for f in made.findings if f.rule.startswith("techniques.")]
    assert care.level == "care" and care.reason.startswith(f"Step 1: {what} ") and usual in care.reason
    assert made.work is not None


def test_what_machine_or_needle_cannot_do_says_which_could() -> None:
    for choice, could in (
        ({"needle": "1210RL", "machine": "metronome", "dial": "125 Hz"}, "machines that could: Kettle"),
        ({"needle": "1207RL", "machine": "metronome", "stroke": "4 mm"}, "machines that could: Kettle"),
        ({"needle": "1215CM"}, "needles that could: 0803RL, 1003RL"),
        ({"ink": "black-shade", "needle": "1215CM", "hang_out": "4 mm"}, "needles that could: 0803RL, 1003RL"),
        ({"ink": "wash-mid", "machine": "lathe"}, "machines that could: Kettle, Metronome"),
    ):
        rows: list[Written] = [choice if "ink" in choice else {"length": "90 mm", **choice}]
        (mistake,) = try_plan(simple(parts=as_parts(rows)))[1]
        assert could in mistake.help, mistake


def test_what_is_named_for_the_whole_job_and_suits_some_rows_only_is_one_mistake() -> None:
    rows: list[Written] = [{"needle": "1207RL", "length": "90 mm"}, {"ink": "black-shade"}, {"ink": "rust"}]
    (mistake,) = try_plan(simple(hang_out="4 mm", parts=as_parts(rows)))[1]
    assert mistake.code == "J607" and "can be named at the rows that it is meant for" in mistake.help
    named = simple(parts=as_parts([{**rows[0], "hang_out": "4 mm"}, *rows[1:]]))
    assert [s.setting.hang_out.low for s in steps_of(named)] == [4, 2, 2]


# What is printed can be typed.


def _ends(text: str) -> list[str]:
    """The ends of what a cell shows, in each unit that it shows."""
    found = []
    for low, high, unit in re.findall(r"([\d.]+)(?:–([\d.]+))?\s(Hz|V|mm|in)\b", text.replace("\u00a0", " ")):
        found += [f"{end} {unit}" for end in (low, high) if end]
    return found


def printed_settings() -> list[Written]:
    """Every end of every cell of the dial tables, typed for every grouping on the shelf that its row holds for."""
    page = dials_page(page_at("reference/dials.md"))
    rows = []
    for machine, technique, place, cells in re.findall(
        r'<tr id="dial-(kettle|metronome|lathe)-([a-z-]+?)-(\d)(?:-\d)?">(.*?)</tr>', page, re.DOTALL
    ):
        said = [html.unescape(re.sub(r"<[^>]+>", "", cell)) for cell in re.findall(r"<td[^>]*>(.*?)</td>", cells)]
        usual, span, strokes, hang_outs = said[-6:-2]
        way: Technique = RECORDS.techniques[technique]
        labels = [g.id for g in RECORDS.groupings.values() if dial_row(way, g) is way.dials[int(place)]]
        # Every end is typed with the first and the last needle; each row carries one end of each cell.
        for needle in {*labels[:1], *labels[-1:]} if _ends(usual) else ():
            cells_ = ("stroke", _ends(strokes)), ("dial", _ends(usual) + _ends(span)), ("hang_out", _ends(hang_outs))
            for number in range(max(len(ends) for _, ends in cells_)):
                typed = {key: ends[number % len(ends)] for key, ends in cells_}
                rows.append(row(way, needle=needle, machine=machine, **typed))
    return rows


def test_every_value_printed_in_a_table_of_dials_is_accepted_when_typed() -> None:
    rows = printed_settings()
    assert {r["machine"] for r in rows} == set(RECORDS.machines)
    assert any(r.get("dial", "").endswith("V") for r in rows) and all("mm" in r.get("hang_out", "mm") for r in rows)
    assert [(typed, s.outside) for typed, s in zip(rows, set_up(rows), strict=True) if s.outside] == []


def test_what_a_page_shows_of_an_end_counts_as_the_end_and_nothing_else_does() -> None:
    assert within(100.0125, 50, 100, "length")  # 50–100 mm is shown as 1 15/16–3 15/16 in
    assert not within(100.01, 50, 100, "length")
    # Needles are shown in millimetres in both systems, so that nothing is turned back.
    assert not within(4.064, 2, 4, "length")
    assert within(8.6, 6.48, 8.5714, "voltage") and not within(8.65, 6.48, 8.5714, "voltage")
    for low, high in ((1.5, 3), (2, 4), (0, 4.5), (3.5, 3.5)):
        assert all(within(p.low, low, high, "length") for p in as_printed(low, high, "length"))


def test_a_measured_end_that_rounding_prints_beyond_itself_is_accepted() -> None:
    measured = RECORDS.calibrations["lathe-three-five"]
    last = (Quantity(8.97, 8.97, "voltage", "8.97 V"), measured.points[-1][1])
    records = with_entry("calibrations", "lathe-three-five", points=(*measured.points[:-1], last))
    lines = [{"needle": "1210RL", "length": "90 mm", "machine": "lathe", "stroke": "3.5 mm", "dial": "9 V"}]
    (step,) = steps_of(simple(parts=as_parts(lines)), records)
    assert step.setting.speed.low == 126


# Who chose what.


def lathe(**own: str) -> OwnSettings:
    quantities = {"stroke": "length", "hang_out": "length"}
    values = {
        key: Quantity(float(v.split()[0]), float(v.split()[0]), quantities[key], v) if key in quantities else v
        for key, v in own.items()
    }
    return OwnSettings.model_construct(None, **{"technique": "lining", "source": "house-artists", **values})


def of(step_machine: Setting) -> tuple[str, float, float, float]:
    s = step_machine
    return str(s.machine.id), s.stroke.low, s.speed.low, s.hang_out.low


def test_row_before_part_before_job_before_artist_before_studio() -> None:
    habit = with_entry("people", "quill", own_settings=(lathe(machine="lathe", hang_out="3.5 mm"),))
    line = {"needle": "1207RL", "length": "90 mm"}
    job = simple(parts=[part("lamp", lines=[line])])
    levels = (
        (RECORDS, {}, {}, {}, ("kettle", 3.5, 100, 3)),
        (habit, {}, {}, {}, ("lathe", 3.5, 100, 3.5)),
        (habit, {"machine": "metronome"}, {}, {}, ("metronome", 3.5, 100, 3.5)),
        (habit, {"machine": "metronome", "dial": "110 Hz"}, {"dial": "105 Hz"}, {}, ("metronome", 3.5, 105, 3.5)),
        (
            habit,
            {"machine": "metronome"},
            {"machine": "kettle", "stroke": "4 mm"},
            {"hang_out": "2 mm"},
            ("kettle", 4, 100, 2),
        ),
        (habit, {"dial": "95 Hz"}, {"dial": "105 Hz"}, {"dial": "115 Hz"}, ("kettle", 3.5, 115, 3.5)),
    )
    for records, whole, of_part, of_row, wanted in levels:
        typed = {**job, **whole, "parts": [part("lamp", lines=[{**line, **of_row}], **of_part)]}
        (step,) = steps_of(typed, records)
        assert of(step.setting) == wanted, (whole, of_part, of_row)


def test_a_habit_yields_where_machine_or_needle_cannot() -> None:
    # The bench machine was never measured with a row of needles, and rows hang out 3 mm at the most.
    for own in ({"machine": "lathe"}, {"hang_out": "4 mm"}, {"machine": "metronome", "stroke": "4 mm"}):
        habit = with_entry("people", "quill", own_settings=(lathe(technique="packing", **own),))
        (step,) = steps_of(simple(parts=as_parts([{"ink": "black-shade", "area": "1 cm²"}])), habit)
        assert of(step.setting) == of(
            steps_of(simple(parts=as_parts([{"ink": "black-shade", "area": "1 cm²"}])))[0].setting
        ) or (own.get("machine") == step.setting.machine.id)


@pytest.mark.parametrize(("likes", "lines", "rows"), [("long", 4, 3), ("short", 2, 1.5)])
def test_an_artist_who_likes_a_long_hang_out_has_one_inside_all_bounds(likes: str, lines: float, rows: float) -> None:
    habit = with_entry("people", "quill", hang_out=likes)
    work = [{"needle": "1207RL", "length": "90 mm"}, {"ink": "black-shade", "area": "1 cm²"}]
    settings = [step.setting for step in steps_of(simple(parts=as_parts(work)), habit)]
    assert [s.hang_out.low for s in settings] == [lines, rows]
    assert all("hang-out" in s.other and not s.outside for s in settings)


def test_what_is_not_the_studios_usual_is_known_and_nothing_else() -> None:
    line = {"needle": "1207RL", "length": "90 mm"}
    other = {
        name: steps_of(simple(parts=as_parts([{**line, **choice}])))[0].setting.other
        for name, choice in {
            "nothing": {},
            "the same": {"machine": "kettle", "dial": "100 Hz", "hang_out": "3 mm", "stroke": "3.5 mm"},
            "dial": {"dial": "105 Hz"},
            "stroke": {"stroke": "4 mm"},
            "machine": {"machine": "lathe"},
            "all": {"machine": "metronome", "dial": "95 Hz", "hang_out": "2.5 mm", "stroke": "3 mm"},
        }.items()
    }
    assert other == {
        "nothing": (),
        "the same": (),
        "dial": ("dial",),
        "stroke": ("stroke",),
        "machine": ("machine",),
        "all": ("machine", "stroke", "dial", "hang-out"),
    }


# One stroke on one machine.


def test_one_stroke_for_all_rows_of_a_machine_where_one_fits() -> None:
    every = [row(way, needle=way.usual_grouping) for way in RECORDS.techniques.values()]
    for rows in itertools.combinations(every, 3):
        used: dict[str, set[float]] = {}
        fits: dict[str, set[float]] = {}
        for setting in set_up(list(rows)):
            machine, way = setting.machine, setting.technique
            used.setdefault(machine.id, set()).add(setting.stroke.low)
            inside = usual_strokes(machine, way)
            fits[machine.id] = fits.get(machine.id, inside) & inside
        assert all(len(used[machine]) == 1 for machine, common in fits.items() if common), rows


def usual_strokes(machine: Machine, way: Technique) -> set[float]:
    return {s.low for s in machine.strokes if way.stroke.low <= s.low <= way.stroke.high}


def test_a_stroke_that_one_row_names_is_used_for_all_rows_that_it_fits() -> None:
    lining = RECORDS.techniques["lining"]
    rows = [row(lining, needle="1207RL"), row(lining, needle="1209RL", stroke="4 mm")]
    settings = set_up(rows)
    assert [s.stroke.low for s in settings] == [4, 4]
    assert [s.other for s in settings] == [("stroke",), ("stroke",)]


def test_where_no_stroke_fits_all_rows_there_are_as_few_as_may_be() -> None:
    assert fewest_strokes([{3.0: 0, 3.5: 0}, {3.5: 0, 4.0: 0}, {3.5: 0}], [3.25, 3.75, 3.5]) == [3.5, 3.5, 3.5]
    assert fewest_strokes([{2.5: 0}, {2.5: 0, 3.0: 0}, {4.0: 0}], [2.5, 3, 4]) == [2.5, 2.5, 4.0]
    # Of two that fit all the one nearest to the middles, then the shorter.
    assert fewest_strokes([{3.0: 0, 4.0: 0}], [3.9]) == [4.0]
    assert fewest_strokes([{3.0: 0, 4.0: 0}], [3.5]) == [3.0]


# The other tables: every cell of a setting, by the head of its column; a column of a machine is that machine's dial.
SETTINGS = {
    "Stroke": "stroke",
    "Strokes": "stroke",
    "Hang-out": "hang_out",
    "Hang-out, with needles on the shelf": "hang_out",
    "Dial": "dial",
    "Dial limits": "dial",
    "Speed": "dial",
    "Usual": "dial",
}
# Whose setting a row is, by the beginning of its id.
ROWS = re.compile(
    r"(?P<family>machines|groupings|swap|techniques|calibrations)-"
    rf"(?:(?P<technique>{'|'.join(RECORDS.techniques)})-?)?(?:dials-(?P<row>\d))?(?P<entry>.*?)(?:-points-\d+)?"
)


def cells_of(page: str) -> Iterator[tuple[re.Match[str], str, str]]:
    """The row's id taken apart, the head of the column and the text of every cell of a page's tables."""

    def plain(markup: str) -> str:
        return html.unescape(re.sub(r"<[^>]+>", "", markup)).replace("\u00a0", " ").strip()

    for one in re.findall(r"<table.*?</table>", page, re.DOTALL):
        heads = [plain(head) for head in re.findall(r"<th[^>]*>(.*?)</th>", one.partition("<tbody")[0], re.DOTALL)]
        for row_id, cells in re.findall(r'<tr id="([^"]+)">(.*?)</tr>', one, re.DOTALL):
            if (of := ROWS.fullmatch(row_id)) is not None:
                texts = map(plain, re.findall(r"<t[dh][^>]*>(.*?)</t[dh]>", cells, re.DOTALL))
                yield from ((of, head, text) for head, text in zip(heads, texts, strict=True))


def typed_from(of: re.Match[str], head: str, cell: str) -> Iterator[Written]:
    """What a reader of the cell types into a job, for the machine, needle or technique that the row is about."""
    by_dial = {f"{machine.name}, {machine.dial}": machine.id for machine in RECORDS.machines.values()}
    key = "dial" if head in by_dial else SETTINGS.get(head)
    family, entry, technique = of["family"], of["entry"], of["technique"]
    if key is None or (family == "calibrations" and head != "Dial"):
        return
    base: Written = {}
    way = RECORDS.techniques[technique or ("packing" if family == "groupings" else "lining")]
    if family in ("groupings", "swap"):
        base["needle"] = entry
    elif of["row"]:
        base["needle"] = next(g.id for g in RECORDS.groupings.values() if dial_row(way, g) is way.dials[int(of["row"])])
    if family == "machines":
        base["machine"] = entry
    elif family == "calibrations":
        measured = RECORDS.calibrations[entry]
        base |= {"machine": measured.machine, "stroke": measured.stroke.text}
    elif head in by_dial:
        base["machine"] = by_dial[head]
    for some in cell.split("; "):
        stroke = re.match(r"with a stroke of ([\d.]+ mm): ", some)
        for end in _ends(some[stroke.end() :] if stroke else some):
            yield row(way, **{**base, **({"stroke": stroke[1]} if stroke else {}), key: end})


def test_every_end_printed_in_any_table_of_machines_needles_and_techniques_is_accepted_when_typed() -> None:
    pages = (machines_page, groupings_page, speeds_page, swapping_page)
    found = [(of, head, cell) for page in pages for of, head, cell in cells_of(page(page_at("reference/x.md")))]
    typed = [one for cell in found for one in typed_from(*cell)]
    each = {json.dumps(one, sort_keys=True): one for one in typed}
    assert {of["family"] for of, _, _ in found} == {"machines", "groupings", "swap", "techniques", "calibrations"}
    assert {"4 V", "10 V", "40 Hz", "150 Hz"} <= {str(one.get("dial")) for one in each.values()}
    assert len(set_up(list(each.values()))) == len(each) > 250


def test_a_table_of_machines_prints_no_hang_out_that_no_needle_here_can_be_set_to() -> None:
    short = dataclasses.replace(RECORDS, groupings={"1215CM": RECORDS.groupings["1215CM"]})
    said = [
        cell
        for of, head, cell in cells_of(machines_page(page_at("reference/machines.md", short)))
        if "Hang-out" in head
    ]
    assert said == ["1.5–3 mm"] * len(RECORDS.machines)


@pytest.mark.parametrize(
    "choice",
    [
        {"needle": "1207RL", "dial": "4 V"},
        {"needle": "1207RL", "dial": "10 V", "stroke": "3 mm"},
        # Measured with a round cartridge only.
        {"ink": "black-shade", "needle": "1215CM", "dial": "7 V", "area": "1 cm²"},
    ],
)
def test_volts_that_nobody_has_measured_are_planned_with_a_care_that_says_measure_first(choice: Written) -> None:
    rows: list[Written] = [{"machine": "lathe", **({} if "ink" in choice else {"length": "90 mm"}), **choice}]
    made = planned(simple(parts=[{**as_parts(rows)[0], "focal": "yes"}]))
    assert made.work is not None
    setting = made.work.steps[0].setting
    assert (
        setting.speed is None and setting.spacing is None and setting.dial.low == float(str(choice["dial"]).split()[0])
    )
    (care,) = [f for f in made.findings if f.rule == "machines.lathe.limits"]
    assert care.level == "care" and "never measured" in care.reason and care.remedy.startswith("Measure it first")
    sheet = sheet_of(RECORDS, made)
    assert care.reason in {r.reason for r in sheet.reasons} and sheet.rows[0].dial.startswith(f"{setting.dial.low:g}")
    assert as_data(made) and pictures_of(RECORDS, made)


# The mark on the sheet.


def test_the_sheet_marks_what_is_not_the_studios_usual_and_says_what_the_mark_means() -> None:
    def rows_of(**choice: str) -> tuple[list[str], str]:
        line = {"needle": "1207RL", "length": "90 mm", **choice}
        made = sheet_of(RECORDS, planned(simple(parts=[part("lamp", focal="yes", lines=[line])])))
        return [cell for r in made.rows for cell in (r.dial, r.machine, r.stroke, r.hang_out)], made.marks

    cells, legend = rows_of()
    assert not legend and not any("*" in cell for cell in cells)
    cells, legend = rows_of(dial="105 Hz", stroke="4 mm", hang_out="3.5 mm")
    assert [cell.replace("\u00a0", " ") for cell in cells] == ["105 Hz*", "Kettle", "4 mm*", "3.5 mm*"]
    assert legend.startswith("* ") and "usual" in legend
    cells, _ = rows_of(machine="metronome")
    assert [cell.replace("\u00a0", " ") for cell in cells] == ["100 Hz", "Metronome*", "3.5 mm", "3 mm"]
