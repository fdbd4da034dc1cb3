"""Words that are no allergens: illnesses, and medicines that no tray holds, each with what to write instead.

An allergy is what may touch the skin at the station. An illness, or a medicine that is swallowed or injected, is an
answer about health: it belongs into the consent file and is printed nowhere. A word that is in no row is an allergen,
so that nothing a client reacts to is refused for being unknown.

The endings of medicines are those by which their common names are made (World Health Organization, “The use of stems in
the selection of International Nonproprietary Names”), from memory. What is rubbed on skin, and is a known cause of
contact allergy, is an allergen in spite of its ending (`ON_THE_SKIN`), common practice of patch testing.
"""

import re
from functools import cache
from typing import NamedTuple

_QUESTIONS = "the screening questions ask about it, and the consent file has the answer"
_SET_OFF = f"write what sets it off where that is on the tray, such as `latex` or `fragrance`; {_QUESTIONS}"
_NOT_ON_THE_TRAY = "no tray holds it, so write it into the consent file alone; numbing and skin products are written"
_REACTION = "write what caused it, such as `red ink` or `adhesive`, and the reaction into the consent file"


class NotAllergen(NamedTuple):
    """Some words that are no allergens, with spaces between them.

    words: each whole. endings: of whole words. ambiguous: words of the same kind that mean other things in a sentence;
    both are looked for among allergies alone, as a metamorphosis is no illness. what: what they are, with an article.
    instead: what to write.
    """

    what: str
    instead: str
    words: str = ""
    endings: str = ""
    ambiguous: str = ""


# Rubbed on skin: on the shelf of a studio, in a dressing, or left on the skin by the client.
ON_THE_SKIN = (
    "neomycin gentamicin framycetin clindamycin erythromycin mupirocin nystatin bacitracin polymyxin benzocaine "
    "lidocaine tetracaine prilocaine dibucaine cinchocaine procaine lanolin"
)
NOT_ALLERGENS: tuple[NotAllergen, ...] = (
    NotAllergen(
        "an illness of breathing or of allergy itself",
        _SET_OFF,
        "asthma asthmatic copd hayfever anaphylaxis anaphylactic urticaria atopy atopic",
        ambiguous="hay-fever hives wheezing wheeze",
    ),
    NotAllergen(
        "an illness of the skin",
        _SET_OFF,
        "eczema dermatitis psoriasis acne vitiligo rosacea impetigo ringworm scabies",
        ambiguous="shingles lupus keloid keloids rash rashes itch itching swelling redness blister blisters warts",
    ),
    NotAllergen(
        "an infection",
        _QUESTIONS,
        "hiv hepatitis tuberculosis candidiasis herpes syphilis covid influenza mrsa sepsis malaria measles "
        "chickenpox virus infection infections infected immunosuppressed immunodeficiency",
        ambiguous="aids hep tb cold flu fever",
    ),
    NotAllergen(
        "an illness",
        _QUESTIONS,
        "diabetes diabetic epilepsy epileptic seizure seizures haemophilia hemophilia haemophiliac "
        "hemophiliac anemia anaemic anemic leukemia ischemia lymphoma melanoma carcinoma tumour tumor "
        "chemotherapy radiotherapy dialysis transplant angina arrhythmia hypertension hypotension migraine "
        "fibromyalgia neuralgia arthritis thrombosis cirrhosis sclerosis parkinson parkinsons alzheimers "
        "dementia crohn crohns coeliac celiac thyroid hypothyroid hyperthyroid pregnant pregnancy "
        "breastfeeding breast-feeding bipolar schizophrenia adhd ptsd autism autistic alcoholism addiction "
        "syncope fainting pacemaker illness disease diseases syndrome disorder",
        endings="itis osis aemia glycemia opathy philiac plegia",
        ambiguous="cancer heart blood stroke depression anxiety panic shock liver kidney kidneys",
    ),
    NotAllergen(
        "a reaction",
        _REACTION,
        ambiguous="reaction reactions allergy allergies allergic faint nausea vomiting collapse",
    ),
    NotAllergen(
        "a medicine",
        _NOT_ON_THE_TRAY,
        "penicillin amoxicillin antibiotic antibiotics insulin ibuprofen naproxen diclofenac aspirin "
        "paracetamol acetaminophen codeine morphine tramadol fentanyl oxycodone warfarin heparin clopidogrel "
        "metformin isotretinoin methotrexate azathioprine ciclosporin cyclosporine prednisone prednisolone "
        "levothyroxine thyroxine lithium methadone buprenorphine naltrexone cortisone steroids contraceptive "
        "antidepressant antidepressants painkiller painkillers anticoagulant anticoagulants antihistamine "
        "antihistamines sulfonamide sulfonamides sulphonamide vaccine vaccination chemotherapeutic medication "
        "medications nsaid nsaids ssri ssris",
        endings="cillin mycin cycline oxacin opril lapril mipril inapril sartan statin prazole olol azepam azolam "
        "oxetine triptan gliptin gliflozin formin parin xaban profen fenac coxib tidine setron lukast traline "
        "pramine triptyline afil avir ovir buvir imab umab tinib",
        ambiguous="medicine medicines pill pills tablet tablets injection injections drug drugs",
    ),
)
_WORD = re.compile(r"[a-z]+(?:-[a-z]+)*")


@cache
def _by_word(allergies: bool) -> dict[str, NotAllergen]:
    return {word: row for row in NOT_ALLERGENS for word in f"{row.words} {row.ambiguous if allergies else ''}".split()}


def no_allergen(word: str, allergies: bool = True) -> NotAllergen | None:
    """The row that refuses one word in small letters; None for what may be an allergen, or is not known.

    allergies: whether the word is said to be one, so that also what means other things in a sentence is refused.
    """
    if word in ON_THE_SKIN.split():
        return None
    found = _by_word(allergies).get(word)
    if found is not None or not allergies:
        return found
    return next((row for row in NOT_ALLERGENS if word.endswith(tuple(row.endings.split()))), None)


def words_of_health(text: str, allergies: bool = True) -> tuple[tuple[str, NotAllergen], ...]:
    """Each word of a text that is an illness or a medicine, as it is written, with its row."""
    pairs = ((found[0], no_allergen(found[0].lower(), allergies)) for found in re.finditer(_WORD.pattern, text, re.I))
    return tuple((word, row) for word, row in pairs if row is not None)
