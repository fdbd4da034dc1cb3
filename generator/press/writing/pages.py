"""The record reference: for each family every field that may be written, and examples to copy."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup
from pydantic import BaseModel

from generator.press.words.addresses import PAGE_OF, address, anchor, to_record
from generator.press.words.markup import (
    Cells,
    bullets,
    code,
    code_block,
    heading,
    link,
    not_searched,
    note,
    page,
    paragraph,
    table_of,
    ticked,
)
from generator.press.writing.as_yaml import as_yaml, fullest
from generator.press.writing.changes import CHANGES, TITLE, changes_page
from generator.press.writing.examples import job_with_everything, load_example, smallest_job
from generator.press.writing.schema import Field, checked_together, fields_of, nested_records
from generator.quantities import printed, units_of
from generator.records import conditions
from generator.records.checklist import CHECKLIST_FACTS, CHECKLIST_QUOTES
from generator.records.families import ALL, JOBS, STUDIO, Family, Records
from generator.records.kind import Kind
from generator.records.quoting import name_of
from generator.units import KINDS, SYSTEMS, bands

FOLDER = "reference/records"
INDEX = f"{FOLDER}.md"
_WRITING = (
    "A value follows its key, a colon and a space: `taper: long`. What belongs together is indented by the same "
    "number of spaces; never use tabs.",
    "A list is written `[a, b]`, or one entry a line behind a dash. Keys and values on one line go in braces: "
    "`{top: 330 mm, bottom: 290 mm}`.",
    "A quantity is a number, a space and a unit: `4 mm`, `95 Hz`, `1 in`. A range is `0.30–0.35 mm` or `30 min to 1 "
    "h`, where the field says it takes one. The point is the decimal sign.",
    'Text that holds a colon, a comma inside brackets or a `#` goes between quotation marks: `"Note: ask"`.',
    "A date is `2027-05-12`, a time of day `09:30`, a yes is `yes` and a no is `no`.",
    "`unknown` may be written where the field says so. It is never a no: the plan will say to ask.",
    "A key that is not listed here is refused; so is one that is written twice. Nothing is guessed.",
)


def record_pages(records: Records) -> dict[str, str]:
    """The page about writing records, and one for each family."""
    families = {page_of(family): _family(family, records) for family in ALL}
    return {INDEX: _index(records), CHANGES: changes_page(), **families}


def page_of(family: Family) -> str:
    """The page of the record reference that describes a family."""
    return f"{FOLDER}/{family.name}.md"


def file_of(family: Family) -> str:
    """Where a family's records are written, below the content folder."""
    return f"{family.name}/ID.yml" if family is JOBS else family.file


def _index(records: Records) -> str:
    kinds = {anchor("kind", kind.replace(" ", "-")): _kind(kind) for kind in KINDS}
    return page(
        "How records are written",
        paragraph(
            "Everything this handbook knows is in the files of the content folder, as plain text in UTF-8. "
            "Each family has a file; each job has one of its own."
        ),
        bullets(ticked(line) for line in _WRITING),
        paragraph(Markup("Records from an earlier version: {}.").format(link(address(INDEX, CHANGES), TITLE))),
        table_of("Families of records", ((anchor("family", family.name), _listed(family, records)) for family in ALL)),
        heading("Quantities and their units", "units"),
        paragraph("What may be written, and what is shown. Strokes are no revolutions: 6000 strokes/min is 100 Hz."),
        table_of("Units by kind of quantity", kinds.items()),
    )


def _kind(kind: str) -> Cells:
    return {
        "Kind": KINDS[kind][0],
        "Units that may be written": ", ".join(units_of((kind,))),
        "Shown in": " and ".join(dict.fromkeys(printed(bands(kind, shows)[-1][1]) for shows in SYSTEMS.values())),
    }


def _listed(family: Family, records: Records) -> Cells:
    not_listed = {STUDIO.name: "one", JOBS.name: "see the index of jobs"}
    return {
        "Family": link(address(INDEX, page_of(family)), family.name),
        "File": code(file_of(family)),
        "Holds": family.holds,
        "On file": not_listed[family.name] if family in (STUDIO, JOBS) else str(len(records.family(family.name))),
    }


def _family(family: Family, records: Records) -> str:
    here = page_of(family)
    blocks: list[str] = [paragraph(family.holds), _where(family, records, here)]
    if family is JOBS:
        blocks.append(_before_a_job())
    blocks += [heading("Fields", "fields"), _fields(family.model, "", family, records, here), _together(family.model)]
    described: set[type[BaseModel]] = set()
    for path, model in nested_records(family.model):
        if model not in described:
            described.add(model)
            blocks += [
                heading(f"In {path}", anchor("in", path.replace(".", "-")), 3),
                paragraph(ticked((model.__doc__ or "").strip().replace("\n", " "))),
                _fields(model, path, family, records, here),
                _together(model),
            ]
    if any(field.key == "when" for field in fields_of(family.model)):
        blocks += _conditions()
    blocks += [heading("Example", "example"), *_examples(family, records)]
    blocks += _ids_to_choose(family, records, here)
    writing = bullets(ticked(line) for line in _WRITING)
    blocks += [
        heading("How it is written", "writing"),
        # The search finds it on the page of the jobs; it is the same on all others.
        writing if family is JOBS else not_searched(writing),
        paragraph(link(address(here, INDEX, "units"), "All units by kind of quantity")),
    ]
    return page(f"Record: {family.name}", *blocks)


def _where(family: Family, records: Records, here: str) -> Markup:
    file = code(file_of(family))
    if family is JOBS:
        return paragraph(Markup("One file for each job, {}, where ID is the job’s id.").format(file))
    if family.name == "loads" and not records.studio.reprocessing:
        # Their page is only there where anything is sterilized.
        return paragraph(Markup("The file {} is a list, and stays empty here: nothing is sterilized.").format(file))
    shown = link(address(here, PAGE_OF[family.name]), "as the handbook shows them")
    if family is STUDIO:
        return paragraph(Markup("The file {} holds the keys themselves. Its values {}.").format(file, shown))
    listed = Markup("The file {} is a list; each entry begins with a dash. The records {}.")
    return paragraph(listed.format(file, shown))


def _before_a_job() -> Markup:
    return note(
        "What is left out is asked",
        "A job without screening, allergies, scars or moles is not taken as clear: what nobody wrote down, nobody "
        "asked. Write none only when you asked and looked. A date alone clears nothing; look at the skin on the day.",
        ticked(
            "Places inside the piece are counted from its upper left corner: first to the right, then down. "
            "`box: [35 mm, 20 mm, 60 mm, 90 mm]` begins 35 mm from the left and 20 mm from the top, and is "
            "60 mm wide and 90 mm high."
        ),
        "The client is written here as a reference code only. Names, addresses, numbers and birth dates belong in the "
        "studio’s consent file.",
    )


def _together(model: type[BaseModel]) -> Markup:
    rules = checked_together(model)
    return paragraph(f"Checked across the fields: {'; '.join(rules)}.") if rules else Markup("")


def _fields(model: type[BaseModel], path: str, family: Family, records: Records, here: str) -> Markup:
    caption = f"Fields of {family.name}" + (f", in {path}" if path else "")
    keys = path.split(".") if path else []
    rows = (
        (anchor("field", family.name, *keys, field.key), _field(field, records, here)) for field in fields_of(model)
    )
    return table_of(caption, rows)


def _field(field: Field, records: Records, here: str) -> Cells:
    shape = field.shape
    takes = ticked(shape.takes)
    for name in shape.families:
        takes += Markup(" ({})").format(link(address(here, PAGE_OF[name]), f"the {name}"))
    needed = "needed" if field.required else "may be left out"
    if field.otherwise:
        needed += f"; then {field.otherwise}"
    return {
        "Key": code(field.key),
        "Needed": ticked(needed),
        "What it is": ticked(field.about),
        "Takes": takes,
        "Units": shape.units or "none",
        "Bounds": ticked(shape.bounds.replace("*question*", "question") or "none"),
        "Example": _example(field, records),
    }


def _example(field: Field, records: Records) -> Markup:
    example = str(field.shape.example or "see below")
    for name in field.shape.families:
        # An id that is really there helps more than words about one.
        example = example.replace(f"@{name}", next(iter(records.family(name)), name))
    return ticked(example)


def _conditions() -> Iterator[str]:
    """The small language of rules, from the facts it knows."""
    yield heading("Conditions", "conditions")
    yield bullets(
        ticked(line)
        for line in (
            "`{scar.age: below 12 months}` compares a measured fact: `below`, `at most`, `above`, `at least`.",
            "`{scar.colour: [pink, red]}` is one word of a list; `{scar.itch: yes}` is one word.",
            "Several keys in one pair of braces all have to hold. `{any: [{scar.itch: yes}, {scar.pain: yes}]}` "
            "needs one of them, `{all: [...]}` needs each, `{not: {...}}` turns one round.",
            f"`{{{conditions.ANSWER}ID: yes}}` looks at the answer to the screening question with this id.",
            "A fact that nobody wrote down is unknown: the rule then counts as the worst it could be, and the "
            "plan says to ask.",
            "A rule for scars looks at `scar`, `over` and answers; a box of the checklist at the job, and with "
            "`for_each` at each scar, mole, tattoo, allergy, swap, mix, ink or machine. No box looks at an answer.",
        )
    )
    facts = {**conditions.FACTS, **CHECKLIST_FACTS}
    rows = {anchor("fact", fact.replace(".", "-")): _fact(fact, kind) for fact, kind in facts.items()}
    yield table_of("Facts that a condition can look at", rows.items())
    quotes = {
        anchor("quote", path.replace(".", "-")): {"Quote": code(path), "Is filled in with": said}
        for path, said in CHECKLIST_QUOTES.items()
    }
    yield table_of("What a box of the checklist can quote, in two pairs of braces", quotes.items())


def _fact(fact: str, kind: Kind[object]) -> Cells:
    return {
        "Fact": code(fact),
        "Takes": ticked(kind.takes),
        "Units": kind.unit() or "none",
        "Example": ticked(str(kind.example)),
    }


def _examples(family: Family, records: Records) -> Iterator[str]:
    if family is JOBS:
        yield paragraph("A small job, complete:")
        yield code_block(smallest_job(records), "A small job")
        yield paragraph("A job that has every field once. Take out what you do not need:")
        yield code_block(job_with_everything(records), "A job with every field")
        return
    entry: BaseModel | None = records.studio if family is STUDIO else fullest(records.family(family.name).values())
    if entry is None and family.name == "loads":
        yield paragraph("Such as this one; here the list is empty.")
        yield code_block(load_example(records), "A load")
        return
    if entry is None:
        yield paragraph(ticked("Nothing is on file yet; the file then holds `[]`."))
        return
    yield paragraph("From this studio’s own records:")
    yield code_block(as_yaml(entry, family is not STUDIO), f"A record of {family.name}")


def _ids_to_choose(family: Family, records: Records, here: str) -> list[str]:
    """The ids that a record of this family may refer to, so that nobody has to look for them."""
    models = [family.model, *(model for _, model in nested_records(family.model))]
    wanted = dict.fromkeys(name for model in models for field in fields_of(model) for name in field.shape.families)
    if not wanted:
        return []
    rows = ((anchor("ids", name), {"Family": name, "Ids": _ids(name, records, here)}) for name in wanted)
    return [
        heading("Ids to choose from", "ids"),
        # The search finds each entry where it is shown.
        not_searched(table_of("Ids on file that may stand here", rows)),
    ]


def _ids(family: str, records: Records, here: str) -> Markup:
    """Each with its name, where that is another."""
    named = ((entry_id, name_of(entry)) for entry_id, entry in records.family(family).items())
    return Markup(", ").join(
        code(entry_id) if name == entry_id else code(entry_id) + " " + to_record(here, family, entry_id, name)
        for entry_id, name in named
    )
