"""A job's record tells nothing of its client: what is refused, what passes, and how an exception is marked."""

from __future__ import annotations

from generator.records.not_allergens import NOT_ALLERGENS, ON_THE_SKIN, no_allergen
from tests.planning.demo import Written, read, simple

FINISHED = {"on": "2027-05-12", "took": "200 min", "lots": ["LB-7031"], "ended": "Done as drawn."}
TELLING = (
    "write to jane@example.org",
    "jane (at) example (dot) org",
    "@jane.example",
    "jane at example dot org",
    "www.example.org/jane",
    "call 0170 1234567",
    "+49 (0)170/12.34.567",
    "555-0123-45",
    "born 1988",
    "born 12 May 1988",
    "born in spring 91",
    "geboren im Winter 1991",
    "born in the autumn of '91",
    "born around nineteen ninety-one",
    "ann at web dot example",
    "call oh one seven zero, one two three four five",
    "null eins sieben null eins zwei drei vier",
    "12 May 1988",
    "Juni 1990",
    "in may of 1990",
    "06/1990",
    "May 12th, 1988",
    "the twelfth of May",
    "3. März 1990",
    "12.05.88",
    "5/12/1988",
    "1988-05-12",
    "12–05–1988",
    "12 05 1988",
    "120588",
    "１２.０５.１９８８",
    "XII.V.MCMLXXXV",
    "{{ .screening.asked }}",
    "{{ .numbing.0.on }}",
    "{{ .patch_tests.0.nothing_seen }}",
    "{{ typed: 12 May 1988, because it is on the drawing }}",
    "seated, because of epilepsy",
)
TELLING_NOTHING = (
    "Clockwork tide table of 1888",
    "Numbers 1 to 12 on a dial",
    "Dial with one two three and four; born of fire",
    "One after one, two by two, three times three",
    "Metamorphosis in April",
    "Seated at the window; a dot at the top of the dial",
    "One of 13/1990 parts, June 12 %",
    "Stopped at 14:30, after the second break",
    "12 may be lined first",
    "Route 66 and locomotive 4468",
    "Louis XIV, part II",
    "March of the gears",
    "Zodiac: Cancer; a medicine wheel, a bee hive",
    "The place is {{ .size }} as drawn",
)


def codes(job: Written) -> list[str]:
    return [d.code for d in read(job)[1]]


def test_a_text_that_tells_of_the_client_is_refused_wherever_it_is() -> None:
    places = {
        "title": lambda text: simple(title=text),
        "pose": lambda text: simple(pose=text),
        "finished.ended": lambda text: simple(finished={**FINISHED, "ended": text}),
        "finished.dressing": lambda text: simple(finished={**FINISHED, "dressing": text}),
    }
    said = {(name, text): read(made(text))[1] for name, made in places.items() for text in TELLING}
    assert {key: [d.code for d in found] for key, found in said.items() if [d.code for d in found] != ["R342"]} == {}
    assert all(f"`{name}`" in found[0].message for (name, _), found in said.items())
    passing = {(name, text): codes(made(text)) for name, made in places.items() for text in TELLING_NOTHING}
    assert [key for key, found in passing.items() if found] == []


def test_the_name_of_a_job_tells_no_day_of_birth_and_no_illness() -> None:
    refused = (
        "anna-12-05-1988",
        "1988-05-12-lamp",
        "lamp-12-may-1988",
        "lamp-19880512",
        "lamp-05-1990",
        "epilepsy-lamp",
    )
    assert [one for one in refused if codes(simple(id=one)) != ["R342"]] == []
    passing = (
        "lamp-2027-05-12",
        "lamp-20270512",
        "order-100234",
        "route-66",
        "lamp-12-may-1889",
        "march-of-gears-2",
        "lamp-1990",
    )
    assert [one for one in passing if codes(simple(id=one))] == []
    because = {"text": "20 july 1969", "because": "The day is on the plate of the lamp"}
    assert codes(simple(id="lamp-20-july-1969", not_private=[because])) == []


def test_codes_of_labels_are_no_numbers_to_call() -> None:
    assert codes(simple(finished={**FINISHED, "lots": ["20270512", "0170 1234567"]})) == []


def test_an_exception_is_marked_with_its_reason_and_excepts_nothing_else() -> None:
    excepted = {"text": "12 MAY 1889", "because": "The day is on the plate of the lamp"}
    assert codes(simple(title="Lamp of 12  May 1889", not_private=[excepted])) == []
    assert codes(simple(title="Lamp of 13 May 1889", not_private=[excepted])) == ["R342", "R345"]
    assert codes(simple(title="A lamp", not_private=[excepted])) == ["R345"]
    assert codes(simple(title="Lamp of 12 May 1889", not_private=[{"text": "12 May 1889"}])) == ["R302"]
    for told in read(simple(title="Lamp of 12.05.1889"))[1]:
        assert "not_private: [{text: '12.05.1889', because: REASON}]" in told.help


def test_a_reference_is_no_initials_with_a_date_of_birth() -> None:
    refused = ("AB-120588", "ABC-881205", "A-051288", "JS-1985", "JS-198805", "JS-0412", "ABC-1204")
    assert [one for one in refused if codes(simple(client=one)) != ["R343"]] == []
    passing = ("R-0147", "R-0412", "R-1985", "AB-0147", "AB-2027", "R-99999", "R-30000", "ABC-1234")
    assert [one for one in passing if codes(simple(client=one))] == []
    because = {"text": "AB-120588", "because": "Numbers run on here; this one is no date"}
    assert codes(simple(client="AB-120588", not_private=[because])) == []


def test_allergies_are_allergens() -> None:
    refused = (
        *("asthma", "hay fever", "eczema", "psoriasis", "hepatitis", "hep c", "hiv", "diabetes", "epilepsy"),
        *("high blood pressure", "haemophilia", "heart condition", "pregnancy", "cancer", "migraine", "cold sore"),
        *("penicillin", "amoxicillin", "insulin", "ibuprofen", "aspirin", "paracetamol", "warfarin", "metformin"),
        *("lisinopril", "atorvastatin", "sertraline", "omeprazole", "diazepam", "doxycycline", "blood thinners"),
        *("asthma from latex", "allergic to latex"),
    )
    assert [one for one in refused if codes(simple(allergies=[one])) != ["R344"]] == []
    passing = (
        *("latex", "Nickel", "lanolin", "benzocaine", "lidocaine", "red ink", "colophony", "bacitracin", "neomycin"),
        *("erythromycin", "propolis", "iodine", "chlorhexidine", "formaldehyde", "balsam of peru", "green soap"),
        *("paraphenylenediamine", "methylisothiazolinone", "pressure-sensitive adhesive", "shellfish", "wool alcohols"),
        *("thimerosal", "tea tree oil", "a word nobody knows"),
    )
    assert [one for one in passing if codes(simple(allergies=[one]))] == []
    (said,) = read(simple(allergies=["latex", "asthma"]))[1]
    assert "“asthma” is an illness" in said.message and "write what sets it off" in said.help
    because = {"text": "penicillin", "because": "The ointment on this tray holds it"}
    assert codes(simple(allergies=["penicillin"], not_private=[because])) == []


def test_the_table_of_what_is_no_allergen_says_each_word_once() -> None:
    words = [word for row in NOT_ALLERGENS for word in (*row.words.split(), *row.ambiguous.split())]
    assert sorted(set(words)) == sorted(words)
    assert [word for word in ON_THE_SKIN.split() if no_allergen(word)] == []
    assert all(row.instead and row.what.startswith(("a ", "an ")) for row in NOT_ALLERGENS)
