"""The stable codes of all diagnostics, each with what it means and how it is mended.

`right` is in the demo studio's records; `wrong` in its place earns the code. The handbook shows both, and
a test tries every pair.
"""

from __future__ import annotations

from typing import Literal, NamedTuple

# An error stops everything; a warning stops a strict build; a reminder is told and stops nothing, because a review
# that is overdue must not keep a sheet from being printed.
Level = Literal["error", "warning", "reminder"]
LEVELS: tuple[Level, ...] = ("error", "warning", "reminder")


class Code(NamedTuple):
    """One kind of mistake, with an example of it.

    file: where the example stands, in the content folder or under `handbook/`. right, wrong: what is written there, or
    what is asked for, begun, named or put there.
    """

    means: str
    file: str
    right: str
    wrong: str
    level: Level = "error"


# Any page that somebody wrote: the example is what stands in a line of it.
A_PAGE = "a page of the handbook"
_TIDE, _BOAT, _LANTERN = "jobs/tide-table.yml", "jobs/paper-boat.yml", "jobs/keepers-lantern.yml"
_OIL = "jobs/oil-can.yml"
_BELL, _BELL_KEPT = "jobs/diving-bell.yml", "jobs/diving-bell.worked.json"
_LINE = "{needle: 1210RL, length: 290 mm}"

CODES: dict[str, Code] = {
    # Y: the form of the text
    "Y101": Code(
        "The text is not well-formed YAML.",
        _TIDE,
        "[{needle: 1207RL, length: 450 mm}]",
        "[{needle: 1207RL, length: 450 mm}",
    ),
    "Y102": Code(
        "A character that nobody sees, or a file that was not saved as UTF-8.",
        _TIDE,
        "Clockwork tide",
        "Clockwork\x07tide",
    ),
    "Y103": Code(
        "A key that stands again in one mapping; nothing is chosen for you.",
        "machines.yml",
        "weight: 168 g",
        "name: 168 g",
    ),
    "Y104": Code("A key is itself a list or a mapping.", "machines.yml", "weight: 168 g", "[weight]: 168 g"),
    "Y105": Code(
        "An anchor or alias; a value is written out wherever it is needed.",
        "machines.yml",
        "weight: 168 g",
        "weight: &heavy 168 g",
    ),
    "Y106": Code(
        "A tag; what a value means is decided by its field.", "machines.yml", "weight: 168 g", "weight: !!str 168 g"
    ),
    "Y107": Code("A second document in one file.", _TIDE, "allergies: none", "---\nallergies: none"),
    "Y108": Code(
        "The text is too large, or nested too deep.", _TIDE, "allergies: none", f"allergies: {'[' * 30}{']' * 30}"
    ),
    "Y109": Code("A tab where only spaces can indent.", "machines.yml", "  weight: 168 g", "\tweight: 168 g"),
    # Q: quantities
    "Q201": Code("Not a number with a unit.", "machines.yml", "168 g", "rather light"),
    "Q202": Code("A number without a unit; it is never guessed.", "machines.yml", "168 g", "'168'"),
    "Q203": Code("A unit of another kind of quantity.", "machines.yml", "168 g", "168 mm"),
    "Q204": Code("A unit that the field does not take.", _TIDE, "95 Hz", "5700 rpm"),
    "Q205": Code("A comma inside a number, which can be read in two ways.", "machines.yml", "2.1 m/s²", "2,1 m/s²"),
    "Q206": Code("No space between a number and its unit.", "machines.yml", "168 g", "168g"),
    "Q207": Code(
        "A range where one value belongs, or one that runs backwards.", "machines.yml", "50–150 Hz", "150–50 Hz"
    ),
    "Q208": Code(
        "A number beyond what the field can mean, or outside another field's range.", "machines.yml", "168 g", "168 kg"
    ),
    "Q209": Code("Not a plain number: an exponent, infinity or “not a number”.", "machines.yml", "168 g", "1.7e2 g"),
    "Q210": Code(
        "A sign or word such as “at least”, with which nothing can be computed.", "machines.yml", "168 g", "≥168 g"
    ),
    "Q211": Code("Measured points that do not rise.", "calibrations.yml", "[7.0 V, 97 Hz]", "[7.0 V, 79 Hz]"),
    # R: records and their fields
    "R301": Code("A key that the record does not have.", "machines.yml", "weight: 168 g", "wieght: 168 g"),
    "R302": Code("A key that the record needs is missing.", "machines.yml", "  weight: 168 g\n", ""),
    "R303": Code(
        "A list, mapping or single value where another of the three belongs.",
        _TIDE,
        "box: [35 mm, 15 mm, 80 mm, 80 mm]",
        "box: [35 mm, 15 mm, 80 mm]",
    ),
    "R304": Code("Nothing is written behind a key.", "machines.yml", "weight: 168 g", "weight:"),
    "R305": Code(
        "A text that is too long for its place.",
        _TIDE,
        "Clockwork tide table",
        "A clockwork tide table with four gears, numerals in the corner, a rising tide below and a frame",
    ),
    "R306": Code(
        "An id with other signs than letters, digits and single hyphens.",
        "people.yml",
        "id: bram",
        "id: bram the apprentice",
    ),
    "R307": Code(
        "A word that is not one of those that may stand there.", "machines.yml", "drive: rotary-direct", "drive: rotary"
    ),
    "R308": Code("Something else than yes or no.", "studio.yml", "reprocessing: no", "reprocessing: off"),
    "R309": Code("Not a whole number, or one out of bounds.", "studio.yml", "learned_from: 12", "learned_from: 12.5"),
    "R310": Code(
        "Not a plain number without a unit, or one out of bounds.",
        "studio.yml",
        "strong_chroma: 45",
        "strong_chroma: 45 %",
    ),
    "R311": Code("Not a day of the calendar written as year-month-day.", _TIDE, "2027-05-12", "2027-02-30"),
    "R312": Code("Not a time of day.", _TIDE, "start: 11:00", "start: 25:00"),
    "R313": Code("Not an sRGB colour.", "inks.yml", "'#14120f'", "'14120f'"),
    "R314": Code("A code that is not of the form that it has.", _TIDE, "client: R-0147", "client: A. Client"),
    "R315": Code("Not a width x height.", _TIDE, "150 mm x 190 mm", "150 mm"),
    "R316": Code(
        "A key that is needed because of what other keys of the record say.",
        "supplies.yml",
        "amount: 1, area: 100 cm²",
        "amount: 1",
    ),
    "R317": Code(
        "Two keys of a record that contradict each other.",
        "groupings.yml",
        "label: 1206F, taper: medium, packed: flat",
        "label: 1206F, taper: medium, packed: tight",
    ),
    "R318": Code("An id or an entry of a list that is there already.", "people.yml", "id: mo\n", "id: quill\n"),
    "R319": Code(
        "A word in place of the answers that is not “all clear”.", _TIDE, "answers: all clear", "answers: fine"
    ),
    "R321": Code("A scar whose name could tell what it came from.", "jobs/keepers-lantern.yml", "id: s1", "id: burn"),
    "R322": Code(
        "An outline that crosses itself, or has no area.",
        _TIDE,
        "box: [35 mm, 15 mm, 80 mm, 80 mm]",
        "outline: [[35 mm, 15 mm], [115 mm, 95 mm], [115 mm, 15 mm], [35 mm, 95 mm]]",
    ),
    "R323": Code(
        "Texts of a procedure that are not in the order of their days.",
        "procedures.yml",
        'date: 2026-11-16, what: "Where',
        'date: 2026-10-16, what: "Where',
    ),
    "R324": Code(
        "Times by technique that are longer together than the whole sitting.",
        "jobs/diving-bell.yml",
        "took: 245 min",
        "took: 90 min",
    ),
    "R325": Code(
        "Two speeds of a technique that hold for the same grouping.",
        "techniques.yml",
        "fewest: 5, most: 9, speed: 90–120 Hz, usual: 100 Hz",
        "fewest: 4, most: 9, speed: 90–120 Hz, usual: 100 Hz",
    ),
    "R326": Code(
        "An id that is the name of a device on some systems, where no file can be called so.",
        "people.yml",
        "id: bram",
        "id: aux",
    ),
    "R327": Code("Ids that differ only in capitals.", "people.yml", "id: mo\n", "id: Quill\n"),
    "R328": Code(
        "Something that is said to have been done on a day still to come: finished, opened, reviewed, signed, asked.",
        "inks.yml",
        "lot: SA-0951, expires: 2028-01-31, opened: 2027-03-01",
        "lot: SA-0951, expires: 2028-01-31, opened: 2027-08-01",
    ),
    "R329": Code(
        "A band that is closed by a part which the job has not.",
        "jobs/gear-band.yml",
        "band: yes, closed_by: drawn on the skin,\n     box: [0 mm, 0 mm,",
        "band: yes, closed_by: buckle,\n     box: [0 mm, 0 mm,",
    ),
    "R320": Code("A job whose id is not the name of its file.", _TIDE, "id: tide-table", "id: tide-tables"),
    "R331": Code(
        "A load of the sterilizer, where the studio says that nothing is sterilized here.",
        "loads.yml",
        "[]",
        "- {id: first-load, cycle: dynamic-instruments-132, date: 2027-03-01, chemical_passed: yes, "
        "who: tilde, samples: [[4 min, 132.5 °C]]}",
    ),
    "R332": Code(
        "A box that never yields, at two steps of hygiene.",
        "hygiene.yml",
        "phase: waste and sharps, source: us-bloodborne, pause: client leaves,",
        "phase: waste and sharps, source: us-bloodborne, pause: client leaves, standing: sharps bin,",
    ),
    "R337": Code(
        "No step of hygiene has a box that never yields.",
        "hygiene.yml",
        "standing: sharps bin",
        "standing: usual",
        level="reminder",
    ),
    "R333": Code(
        "A key or a word of an older format, which has another name now or is there no more.",
        "techniques.yml",
        "pace: 1.5–2.5 cm/min",
        "clock_rate: 3–5 cm/min",
    ),
    "R334": Code(
        "The studio’s file says nothing of the format in which the records are written.",
        "studio.yml",
        "format: 2\nname:",
        "name:",
    ),
    "R335": Code("Records in an older format than the program reads.", "studio.yml", "format: 2", "format: 1"),
    "R336": Code("Records in a newer format than the program reads.", "studio.yml", "format: 2", "format: 3"),
    # L: links between records
    "R340": Code(
        "A correction of a lot that was not written down.",
        _BELL,
        "lot: C9-0762, right:",
        "lot: C9-0672, right:",
    ),
    "R352": Code(
        "A correction of no value of a finished job.",
        _BELL,
        "corrections:\n",
        "corrections:\n    - {on: 2027-03-20, by: quill, why: Read again, of: takes, right: 220 min}\n",
    ),
    "R350": Code(
        "How a part healed that the job does not have.", _OIL, "{part: spout, came: held}", "{part: sprout, came: held}"
    ),
    "R351": Code(
        "A reaction to a lot that was not used in the job.", _OIL, "lot: BR-2291, reported", "lot: BR-2292, reported"
    ),
    "R341": Code(
        "A step that is under `steps` of a finished job more than once.",
        _BELL,
        "steps: [{step: 3,",
        "steps: [{step: 3, passes: 1}, {step: 3,",
    ),
    "R342": Code(
        "A text of a job that tells of its client: an address, a number to call, a date, or a word of health.",
        _TIDE,
        "title: Clockwork tide table",
        "title: Clockwork tide table for 1988-05-12",
    ),
    "R343": Code(
        "A client reference that looks like initials with a date of birth.",
        _TIDE,
        "client: R-0147",
        "client: CT-120588",
    ),
    "R344": Code(
        "An illness or a medicine among the allergies, where only allergens belong.",
        _LANTERN,
        "allergies: [adhesive]",
        "allergies: [adhesive, asthma]",
    ),
    "R345": Code(
        "An exception for words that nobody would refuse.",
        _TIDE,
        "numbing: none",
        "numbing: none\nnot_private: [{text: '1889', because: The year is on the dial}]",
    ),
    # L: links between records
    "L401": Code("The id of an entry that is not there.", _TIDE, "artist: quill", "artist: quil"),
    "L402": Code("A review of a family of records that there is not.", "reviews.yml", "id: cycles", "id: cycle"),
    "L403": Code(
        "A signature to a text that its procedure does not list.", "people.yml", "text: c3d20f", "text: c3d20e"
    ),
    "L404": Code(
        "A signature by oneself.",
        "people.yml",
        "{procedure: enquiry, text: eeeb26, on: 2026-11-20, by: quill}",
        "{procedure: enquiry, text: eeeb26, on: 2026-11-20, by: tilde}",
    ),
    "L405": Code(
        "A signature that is older than the text it names.",
        "people.yml",
        "{procedure: enquiry, text: eeeb26, on: 2026-11-20, by: quill}",
        "{procedure: enquiry, text: eeeb26, on: 2026-09-01, by: quill}",
    ),
    "L406": Code(
        "A calibration of a machine whose dial shows no volts.",
        "calibrations.yml",
        "- id: lathe-three\n  machine: lathe",
        "- id: lathe-three\n  machine: kettle",
    ),
    "L407": Code(
        "A lot that stands at more than one ink.", "inks.yml", "lot: OC-3304", "lot: LB-7102", level="reminder"
    ),
    "L408": Code(
        "A decision, a review or a signature by somebody who was not here on that day.",
        "reviews.yml",
        "decided: {by: tilde, on: 2026-11-05}",
        "decided: {by: tilde, on: 2023-11-05}",
    ),
    "L409": Code(
        "A line of the client's page that counts a day by a value which is no number of days or months.",
        "client-page.yml",
        "after: first-call",
        "after: pad-on",
    ),
    "L410": Code(
        "An entry that the records rely on for days to come, and that is not here any more.",
        "supplies.yml",
        "{id: pad,",
        "{id: pad, until: {on: 2027-05-01, why: used up},",
        level="reminder",
    ),
    "L411": Code(
        "An approval by whoever decided or answers for the same, or one that is older than what it approves.",
        "reviews.yml",
        "approved: {by: tilde, on: 2026-11-03}",
        "approved: {by: quill, on: 2026-11-03}",
    ),
    "L412": Code(
        "A line of more needles, measured or calculated, that is narrower than one of fewer needles of its kind.",
        "groupings.yml",
        "fresh_line: 0.7 mm",
        "fresh_line: 0.55 mm",
        level="reminder",
    ),
    # C: conditions of rules
    "C501": Code(
        "Not a condition, or a value of the wrong shape in one.",
        "scar-rules.yml",
        "when: {scar.type: keloid}",
        "when: keloid",
    ),
    "C502": Code("A fact that rules do not know.", "scar-rules.yml", "{scar.type: keloid}", "{scar.kind: keloid}"),
    "C503": Code(
        "A number without a comparison in a condition.",
        "scar-rules.yml",
        "{scar.age: below 12 months}",
        "{scar.age: 12 months}",
    ),
    # J: a job against the records
    "J601": Code(
        "No technique is usual for this work, and the job names none.",
        "techniques.yml",
        "usual_for: [wash]",
        "usual_for: []",
    ),
    "J602": Code(
        "A row of needles for lines, which only rounds run.", _TIDE, _LINE, "{needle: 1215CM, length: 290 mm}"
    ),
    "J603": Code(
        "A stroke that the machine does not have, or was not measured with, or no machine on file at all.",
        _TIDE,
        _LINE,
        "{needle: 1210RL, length: 290 mm, machine: metronome, stroke: 4 mm}",
    ),
    "J604": Code(
        "A dial setting in another unit than the machine's dial shows.",
        _TIDE,
        _LINE,
        "{needle: 1210RL, length: 290 mm, machine: kettle, dial: 6.5 V}",
    ),
    "J606": Code(
        "A dial setting that the machine cannot be set to.",
        _TIDE,
        _LINE,
        "{needle: 1210RL, length: 290 mm, machine: metronome, dial: 125 Hz}",
    ),
    "J607": Code(
        "A hang-out outside what grouping and machine allow.",
        _TIDE,
        _LINE,
        "{needle: 1210RL, length: 290 mm, hang_out: 5 mm}",
    ),
    "J608": Code(
        "Grouping and machine have no hang-out in common.",
        "groupings.yml",
        "spread: 1.25, hang_out: 1.5–3 mm",
        "spread: 1.25, hang_out: 5.5–6 mm",
    ),
    "J609": Code(
        "A technique for areas on lines, or for lines on an area.",
        _TIDE,
        "{needle: 1205RL, length: 270 mm, dial: 95 Hz}",
        "{needle: 1205RL, length: 270 mm, technique: stippling}",
    ),
    "J610": Code(
        "There are lines to run, nothing names their ink, and there is no black ink.",
        "inks.yml",
        "kind: black",
        "kind: colour",
    ),
    "J611": Code(
        "A part that reaches beyond the piece.",
        _TIDE,
        "box: [35 mm, 15 mm, 80 mm, 80 mm]",
        "box: [75 mm, 15 mm, 80 mm, 80 mm]",
    ),
    "J612": Code(
        "A wound or an answer that is dated after the sitting.", _BOAT, "wound: 2026-07-18", "wound: 2027-07-18"
    ),
    "J613": Code(
        "A mole, scar or existing tattoo that lies outside the piece.",
        _BOAT,
        "from: [20 mm, 96 mm], to: [48 mm, 101 mm]",
        "from: [20 cm, 96 mm], to: [48 cm, 101 mm]",
    ),
    "J623": Code(
        "A job that names what is not here any more on its day.",
        "people.yml",
        "came: 2021-03-01",
        "came: 2021-03-01\n  until: {on: 2027-05-12, why: left}",
    ),
    "J622": Code(
        "A lot in a finished job that no ink has on file.",
        "jobs/diving-bell.yml",
        "BR-2291",
        "BR-2219",
        level="reminder",
    ),
    "J621": Code(
        "Finished jobs took far longer, or far shorter, than this pace says.",
        "techniques.yml",
        "pace: 1.5–2.5 cm/min",
        "pace: 0.4–0.6 cm/min",
        level="warning",
    ),
    "J630": Code(
        "A finished job and its kept values belong together, and one of the two is lacking.",
        _BELL,
        _BELL_KEPT,
        "jobs/.diving-bell.worked.json.old",
        level="reminder",
    ),
    "J631": Code(
        "A step that was set otherwise, and that the sheet does not have.",
        _BELL,
        "steps: [{step: 3,",
        "steps: [{step: 33,",
    ),
    "J650": Code(
        "Sittings of one day that want one person, chair or machine at once, or follow too soon upon one another.",
        "jobs/bell-pull.yml",
        "artist: mo",
        "artist: quill",
        level="reminder",
    ),
    "J632": Code(
        "A job whose record need not be kept any longer.",
        _BELL,
        "2027-03-09",
        "2023-03-09",
        level="reminder",
    ),
    "J633": Code(
        "A job that is being written, which stops nothing and has no sheet.",
        _TIDE,
        "id: tide-table\n",
        "id: tide-table\ndraft: yes\n",
        level="reminder",
    ),
    "J641": Code(
        "What happened was changed by hand, and not corrected beside the old value.",
        "jobs/sextant.yml",
        "took: 245 min",
        "took: 255 min",
        level="warning",
    ),
    "J640": Code(
        "A reaction to an ink that nobody has reported yet.",
        _OIL,
        "lot: BR-2291, reported: 2027-05-10}",
        "lot: BR-2291}",
        level="reminder",
    ),
    # A: arithmetic that cannot answer
    "A901": Code("A needle label that cannot be read.", "groupings.yml", "label: 1206F", "label: 6F"),
    "A902": Code("A formula that has no answer for these values.", _BOAT, "bottom: 185 mm", "bottom: 70 mm"),
    # F: files
    "F801": Code(
        "A folder or file that is not there or cannot be read.",
        "people.yml",
        "people.yml",
        ".people.yml.old",
    ),
    "F802": Code("A file that is not one of those that are read.", _TIDE, _TIDE, "jobs/tide-table.yaml"),
    "F803": Code("There is no job of this name.", _TIDE, "tide-table", "tide-tabel"),
    "F804": Code(
        "A new job under the id of one that is there; nothing is written over it.",
        _TIDE,
        "tide-tables",
        "tide-table",
    ),
    "F805": Code(
        "There is no folder of pages beside the records, so that none is checked.",
        "handbook",
        "handbook",
        "pages",
        level="reminder",
    ),
    "F806": Code(
        "A sheet that would be written among the records, or over a file that is no sheet.",
        _TIDE,
        "sheet.html",
        f"content/{_TIDE}",
    ),
    "F808": Code(
        "Kept values of a finished job that are damaged or were changed.",
        _BELL_KEPT,
        '"format": 1,',
        '"format": 9,',
    ),
    "F809": Code(
        "Kept values whose job is not there.",
        _BELL,
        _BELL,
        "jobs/.diving-bell.yml.old",
    ),
    "F810": Code(
        "A job that cannot be finished: it is already, its day is still to come, or it may not go ahead.",
        _TIDE,
        "tide-table",
        "stairwell",
    ),
    "F811": Code(
        "A file given to `finish --from` that holds no block `finished`.",
        _TIDE,
        "finished:",
        "done:",
    ),
    "F807": Code(
        "Files of jobs whose names differ only in capitals, which some systems take for one.",
        _TIDE,
        _TIDE,
        "jobs/Tide-Table.yml",
    ),
    "F820": Code(
        "A new studio that would be written over what is there.",
        _TIDE,
        "another-studio",
        ".",
    ),
    "F821": Code(
        "Schemas for editors that are not those of this program.",
        "schema/inks.json",
        "the ink that is thinned",
        "the ink that was thinned",
        level="reminder",
    ),
    "F831": Code(
        "A setting of the site that cannot be read, or that the site cannot be made with.",
        "mkdocs.yml",
        "docs_dir: handbook",
        "docs_dir: handbok",
    ),
    "F832": Code(
        "A setting of the site that nothing reads, or that names a page or a file which is not there.",
        "mkdocs.yml",
        "site_name: Studio handbook",
        "site_name: Studio handbook\nextra_css: [our-own.css]",
        level="warning",
    ),
    "F833": Code(
        "Something else where the site has to be written, which is not touched.",
        "site/notes.txt",
        "nothing",
        "site/notes.txt",
    ),
    "F834": Code(
        "A hook or a plugin of the studio that fails.",
        "ours.py",
        "def on_env(env, **_): return env",
        "def on_env(env, **_): return env.nowhere",
    ),
    # H: the handbook's pages: quotes, procedures, reviews
    "H701": Code(
        "A quote that does not name a value of a record.",
        A_PAGE,
        "{{ machines.kettle.limits }}",
        "{{ machines.kettel.limits }}",
    ),
    "H702": Code(
        "A quote of something that has no single value, or none yet.",
        A_PAGE,
        "{{ machines.kettle.weight }}",
        "{{ machines.kettle }}",
    ),
    "H703": Code(
        "A number that is typed on purpose, without the reason.",
        A_PAGE,
        "{{ typed: 100 mm, because the bar on the sheet proves the scale }}",
        "{{ typed: 100 mm }}",
    ),
    "H704": Code(
        "A number that is typed on a page or in a text of a record, where a quote of its record belongs.",
        "handbook/reading.md",
        "The handbook shows",
        "Wait 15 min. The handbook shows",
    ),
    "H705": Code(
        "An answer that leads to a page, or to a place in one, which the handbook does not have.",
        "asked.yml",
        "spill.md#where-it-fell",
        "spill.md#where-it-fel",
    ),
    "H711": Code(
        "A page among the procedures that has no record.",
        "handbook/reading.md",
        "handbook/reading.md",
        "handbook/procedures/reading.md",
    ),
    "H712": Code(
        "A procedure's record that has no page.",
        "handbook/procedures/stock.md",
        "handbook/procedures/stock.md",
        "handbook/procedures/stock.md.old",
    ),
    "H713": Code(
        "A procedure that lacks one of the sections that each procedure has.",
        "handbook/procedures/lining.md",
        "**Purpose.**",
        "**Aim.**",
        level="reminder",
    ),
    "H714": Code(
        "A procedure's page on which nothing is written.",
        "handbook/procedures/stock.md",
        "handbook/procedures/stock.md",
        "nothing",
    ),
    "H715": Code(
        "A page that is written by hand under the address of one that the program makes.",
        "handbook/jobs.md",
        "nothing",
        "handbook/jobs.md",
    ),
    "H716": Code(
        "A handbook without a front page.",
        "handbook/index.md",
        "handbook/index.md",
        "handbook/front.md",
    ),
    "H721": Code(
        "A review that is overdue.",
        "procedures.yml",
        "reviewed: 2026-11-20",
        "reviewed: 2025-11-20",
        level="reminder",
    ),
    "H722": Code(
        "A procedure whose text has changed since the last one that its record lists.",
        "handbook/procedures/lining.md",
        "# Lining",
        "# Lines",
        level="reminder",
    ),
    "H723": Code(
        "A family of records that nobody reviews.",
        "reviews.yml",
        "- {id: people, owner: quill, reviewed: 2027-03-30, reviewed_by: quill, interval: 6 months}\n",
        "",
        level="reminder",
    ),
    "H724": Code(
        "A dial in volts that was last measured longer ago than that counts.",
        "calibrations.yml",
        "stroke: 3.5 mm\n  cartridge: round\n  supply: bench supply with foot switch\n  measured: 2026-11-20",
        "stroke: 3.5 mm\n  cartridge: round\n  supply: bench supply with foot switch\n  measured: 2026-01-04",
        level="reminder",
    ),
    "H725": Code(
        "A training that a role needs, and that a person has not had, or not lately enough.",
        "people.yml",
        "{what: First aid, on: 2026-04-20, counts_as: first-aid}",
        "{what: First aid, on: 2024-04-20, counts_as: first-aid}",
        level="reminder",
    ),
    "H728": Code(
        "A rule or a text of a procedure that no second person has approved, where the studio asks for that.",
        "studio.yml",
        "format: 2\n",
        "format: 2\napproval: second person\n",
        level="reminder",
    ),
    "H731": Code(
        "A link of a page, or a picture on it, that leads to nothing in the handbook.",
        "handbook/reading.md",
        "# About reading it",
        "# About reading it\n\nSee [stock](procedures/stocks.md).",
        level="warning",
    ),
    "H732": Code(
        "A link to a place that its page does not have.",
        "handbook/reading.md",
        "# About reading it",
        "# About reading it\n\nSee [stock](procedures/stock.md#step).",
        level="warning",
    ),
    "H733": Code(
        "A page that cannot be made, because of its own settings or of a template.",
        "handbook/reading.md",
        "# About reading it",
        "---\ntemplate: poster.html\n---\n# About reading it",
    ),
    "H726": Code(
        "A value of the house that nobody of this studio has decided, so that it is a suggestion.",
        "sources.yml",
        "decided: {by: tilde, on: 2026-11-06}",
        "where: not decided here",
        level="reminder",
    ),
    "H727": Code(
        "Something that counts only for a time and is over, such as an opened ink, packs, or a local rule.",
        "studio.yml",
        "confirmed: yes\n    on: 2026-09-15",
        "confirmed: no",
        level="reminder",
    ),
    "H741": Code(
        "Something that counts only for a time and will soon be over.",
        "supplies.yml",
        "first_expires: 2028-10-31",
        "first_expires: 2027-05-31",
        level="reminder",
    ),
    "H742": Code(
        "A value that differs from what was listed, and of which no change says since when.",
        "values.yml",
        "is: 60 min, source: house-hygiene}",
        "is: 50 min, source: house-hygiene}",
        level="reminder",
    ),
    "H743": Code(
        "A listed text of a procedure without the values that it quotes.",
        "procedures.yml",
        'quotes: "4 h; 8 weeks; 4 weeks; 4 weeks; 7 days; 3 days",',
        "",
        level="reminder",
    ),
    "H744": Code(
        "A change of a value that no record holds.",
        "changes.yml",
        "of: values.glove-wear.is",
        "of: values.glove-weer.is",
    ),
}
