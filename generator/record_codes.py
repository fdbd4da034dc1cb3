"""The codes of mistakes in what is written in a record: its form, its quantities, its fields, its links."""

from __future__ import annotations

from generator.diagnostic_code import Code

_TIDE = "jobs/tide-table.yml"

RECORD_CODES: dict[str, Code] = {
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
        "A key stands twice in one mapping; nothing is chosen for you.", "machines.yml", "weight: 168 g", "name: 168 g"
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
    "R309": Code("Not a whole number, or one out of bounds.", "studio.yml", "glove_pairs: 9", "glove_pairs: 9.5"),
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
        "amount: 1, area: 500 cm²",
        "amount: 1",
    ),
    "R317": Code(
        "Two keys of a record that contradict each other.",
        "groupings.yml",
        "label: 1206F, taper: medium, packed: flat",
        "label: 1206F, taper: medium, packed: tight",
    ),
    "R318": Code("An id or an entry of a list that stands twice.", "people.yml", "id: mo\n", "id: quill\n"),
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
        "took: 225 min",
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
        "A tray that was checked for an allergy on a day still to come.",
        "jobs/tin-telegraph.yml",
        "allergies: [latex, fragrance]",
        "allergies: [latex, {to: fragrance, checked: {not_on_tray: yes, by: tilde, on: 2199-12-31}}]",
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
        "More ticks than a pause point of the sheet, or the whole sheet, may have.",
        "hygiene.yml",
        "id: waste-bag, phase: waste and sharps,",
        "id: waste-bag, phase: waste and sharps, pause: client leaves, tick: Bin lined,",
    ),
    "R333": Code(
        "A key of an older format, which has another name now.",
        "techniques.yml",
        "pace: 1.5–2.5 cm/min",
        "clock_rate: 1.5–2.5 cm/min",
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
    "L407": Code("A lot that stands at two inks.", "inks.yml", "lot: OC-3304", "lot: LB-7102", level="reminder"),
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
}
