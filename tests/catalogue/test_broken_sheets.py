"""Each broken sheet gets the message that its writer needs, on the right line."""

import pytest

from helmwright.catalogue import SheetError, Zone, parse_sheet
from tests.catalogue.plain_sheet import PLAIN, complaints, edited

LENGTH = 'a length with its unit in quotation marks, such as "7/8 in" or "22 mm".'

ONE_FAULT = {
    "another format": (
        {1: "format = 2"},
        (
            "line 1: format: format 2 is not known to this version. "
            "Write format = 1, or use a newer version."
        ),
    ),
    "a flag that is no flag": (
        {3: "invented = yes"},
        (
            "line 3, column 12: what follows the equals sign is neither a number, a text, a list, "
            'nor true or false. Put texts and lengths in quotation marks, for example "7/8 in".'
        ),
    ),
    "a text without its end": (
        {2: 'model = "Plain'},
        (
            "line 2, column 15: a text has no closing quotation mark on its line. "
            'Put " at both ends of the text.'
        ),
    ),
    "a key twice": (
        {3: 'model = "Plainer"'},
        "line 3, column 18: the same key is written twice. Keep one of the two lines.",
    ),
    "single brackets where sections repeat": (
        {40: "[shell]"},
        (
            "line 40, column 7: the same section is opened twice. "
            "Keep one; shells, pads and other lists take double brackets, such as [[shell]]."
        ),
    ),
    "a band inside the one before": (
        {42: 'chart = ["21 1/4 in", "21 3/4 in"]'},
        (
            "line 42: shell 2, chart: the band ends at 552.45 mm, where that of shell 1 ends at "
            "558.8 mm. Bands may overlap, but both ends must grow from shell to shell: list the "
            "smallest first, and check the figures."
        ),
    ),
    "a band below the one before": (
        {42: 'chart = ["20 in", "23 1/8 in"]'},
        (
            "line 42: shell 2, chart: the band starts at 508 mm, where that of shell 1 starts at "
            "533.4 mm. Bands may overlap, but both ends must grow from shell to shell: list the "
            "smallest first, and check the figures."
        ),
    ),
    "a jaw too narrow for the shell": (
        {34: 'jaw_width = "120 mm"'},
        (
            "line 34: shell 1, jaw_width: 120 mm does not go with a breadth of 188 mm at a level "
            "of 30 mm. At -35 mm the inside can be 139 to 182 mm (5.47 to 7.17 in) wide: measure "
            "jaw_width and inside_breadth again, or correct jaw_height under [form]."
        ),
    ),
    "a jaw wider than the shell": (
        {46: 'jaw_width = "200 mm"'},
        (
            "line 46: shell 2, jaw_width: 200 mm does not go with a breadth of 196 mm at a level "
            "of 30 mm. At -35 mm the inside can be 145 to 191 mm (5.71 to 7.52 in) wide: measure "
            "jaw_width and inside_breadth again, or correct jaw_height under [form]."
        ),
    ),
    "a rear that runs in at once": (
        {14: "[form]\nrear_taper = 0.8\n[certification]"},
        ("line 15: form, rear_taper: 0.8 is out of range. Write a number from 1.1 to 4."),
    ),
    "a jaw at the level": (
        {14: '[form]\njaw_height = "20 mm"\nlevel = "20 mm"\n[certification]'},
        (
            "line 15: form, jaw_height: 20 mm is not well below the level of 20 mm. "
            "Write a height that is 10 mm or more below the level."
        ),
    ),
    "a seat that turns forever": (
        {90: "seats = [[inf, 18], [105, 18]]"},
        (
            "line 90: left pad, seats: [inf, 18] is no direction. Write a direction for each "
            "contact point, [azimuth, elevation] in degrees, such as [[0, 90]]."
        ),
    ),
    "a band upside down": (
        {42: 'chart = ["23 1/8 in", "22 in"]'},
        (
            'line 42: shell 2, chart: the band runs from "23 1/8 in" down to "22 in". '
            "Write the smaller end first."
        ),
    ),
    "a shell that shrinks": (
        {43: 'inside_length = "220 mm"'},
        (
            "line 43: shell 2, inside_length: 220 mm is smaller than the 229 mm of shell 1. "
            "A larger shell is no smaller inside: measure both again."
        ),
    ),
    "a length without a unit": (
        {43: "inside_length = 243"},
        f"line 43: shell 2, inside_length: 243 has no unit; 243 mm? Write {LENGTH}",
    ),
    "centimeters taken for millimeters": (
        {43: 'inside_length = "24.3 mm"'},
        (
            'line 43: shell 2, inside_length: "24.3 mm" is out of range; 24.3 cm? '
            "Write a length from 150 to 330 mm (5.91 to 12.99 in)."
        ),
    ),
    "a fraction that ran together": (
        {84: 'thicknesses = ["5/8 in", "3/4 in", "11/8 in"]'},
        (
            "line 84: left pad, thicknesses: '11/8' misses the space before the fraction; 1 1/8? "
            f"Write {LENGTH}"
        ),
    ),
    "a length that is a word": (
        {37: 'mass_center_ahead = "a bit"'},
        (
            "line 37: shell 1, mass_center_ahead: 'a bit' is no number; write it like 22 5/8 or "
            f"22.625. Write {LENGTH}"
        ),
    ),
    "an unknown zone": (
        {53: 'zone = "crwn"'},
        (
            'line 53: pad 1, zone: "crwn" is not one of the words for zone '
            '(did you mean "crown"?). '
            "Write one of: crown, front, rear, left, right, nape, jaw left, jaw right."
        ),
    ),
    "a zone without pads": (
        dict.fromkeys(range(102, 111), ""),
        (
            "line 52: pad: no pads for nape. "
            "Add a [[pad]] for each, or give the reason in a section [without_pad]."
        ),
    ),
    "thicknesses out of order": (
        {54: 'thicknesses = ["5/8 in", "7/8 in", "3/4 in"]'},
        (
            'line 54: crown pad, thicknesses: "3/4 in" comes after "7/8 in". '
            "List the thicknesses from thin to thick, each once."
        ),
    ),
    "a delivered pad that is not offered": (
        {55: 'delivered = "1 in"'},
        (
            'line 55: crown pad, delivered: "1 in" is not among the thicknesses. '
            "Write one of: 5/8 in, 3/4 in, 7/8 in."
        ),
    ),
    "an unknown foam": (
        {57: 'fit_foam = "sofd"'},
        (
            'line 57: crown pad, fit_foam: there is no foam "sofd" (did you mean "soft"?). '
            "Write one of: cushion, vinyl_nitrile, soft; or define it in a section [[foam]]."
        ),
    ),
    "a seat on the wrong side": (
        {90: "seats = [[75, 18], [-105, 18]]"},
        (
            "line 90: left pad, seats: [-105, 18] does not point at the left. "
            "For the left write azimuth 30 to 150 and elevation -25 to 60 degrees; "
            "90 is the wearer's left."
        ),
    ),
    "too few part numbers": (
        {61: 'part_numbers = ["C-1"]'},
        (
            "line 61: crown pad, part_numbers: part numbers: 1; thicknesses: 3. "
            "Write one part number for each thickness, in order."
        ),
    ),
    "a matched pair that is no pair": (
        {6: '  ["left", "front"],'},
        (
            'line 6: matched: ["left", "front"] is no pair of mirrored zones. '
            'Write ["left", "right"] or ["jaw left", "jaw right"].'
        ),
    ),
    "a matched pair with different pads": (
        {84: 'thicknesses = ["3/4 in", "7/8 in"]'},
        (
            "line 6: matched: left and right must match, but their thicknesses differ. "
            "Give the left pad and the right pad the same list of thicknesses."
        ),
    ),
    "a foam curve that falls": (
        {21: "stress_kpa = [0, 2.0, 1.0, 20.0]"},
        (
            'line 21: foam "soft", stress_kpa: 1 comes after 2. '
            "Each number must be larger than the one before."
        ),
    ),
    "a foam that claims what only this project can say": (
        {25: 'standing = "computed by this project from published data"'},
        (
            'line 25: foam "soft", standing: "computed by this project from published data" is '
            "not one of the words for standing. Write one of: published, quoted by another "
            "source, common practice, no source, from memory, assumed, invented."
        ),
    ),
    "a guard for a shell that is not there": (
        {140: "shells = [1, 3]"},
        'line 140: face guard "three bars", shells: there is no shell 3. Write some of: 1, 2.',
    ),
    "a part of the face forgotten": (
        {135: 'leaves_open = ["eyes"]'},
        (
            'line 135: face guard "three bars", leaves_open: covers and leaves_open together must '
            "name each part of the face once. "
            "Put each of these under one: mouth, jaw, nose, eyes."
        ),
    ),
    "an exclusion of a part that is not there": (
        {156: 'parts = ["three bars", "soft cap"]'},
        (
            'line 156: exclusion 1, parts: "soft cap" is not one of the words for parts '
            '(did you mean "soft cup"?). Write one of: side clip, soft cup, three bars.'
        ),
    ),
    "an accepted interval for what is no length": (
        {160: 'about = "sides"'},
        (
            "line 162: instruction 1, accept: sides is not a length. "
            "Leave accept out; only these take it: brow height, face guard distance."
        ),
    ),
}


@pytest.mark.parametrize(("changes", "message"), ONE_FAULT.values(), ids=ONE_FAULT.keys())
def test_a_fault_is_named_on_its_line_with_what_would_be_right(changes, message):
    assert complaints(edited(changes)) == [message]


def test_a_misspelled_key_is_named_with_the_key_that_was_meant():
    (unknown,) = complaints(edited({43: 'inside_lenght = "243 mm"'}))
    assert unknown.startswith(
        'line 43: shell 2, inside_lenght: there is no such key here (did you mean "inside_length"?)'
    )


def test_all_faults_are_told_at_once_in_the_order_of_their_lines():
    text = edited(
        {
            162: "accept = []",
            57: 'fit_foam = "sofd"',
            42: 'chart = ["22 in"]',
            38: 'mass_center_above = "200 mm"',
            1: "",
        }
    )
    found = complaints(text)
    assert [each.split(":")[0] for each in found] == [
        "line 1",
        "line 38",
        "line 42",
        "line 57",
        "line 162",
    ]
    assert found[0] == (
        "line 1: format is missing. Add format: 1, on a line of its own above all sections."
    )


def test_a_crown_under_the_level_is_named_with_both_heights():
    text = edited({14: '[form]\nlevel = "80 mm"\n[certification]', 33: 'inside_depth = "50 mm"'})
    text = text.replace('front_edge = "55 mm"', 'front_edge = "40 mm"')
    wrong = [each for each in complaints(text) if "inside_depth" in each]
    assert wrong == [
        (
            "line 35: shell 1, inside_depth: the crown, front edge and depth together, lies 90 mm "
            "above the ear opening, and the level of length and breadth at 80 mm. The crown lies "
            "20 mm or more above the level: measure front_edge and inside_depth again, or correct "
            "the level under [form]."
        )
    ]


def test_numbers_of_hundreds_and_of_thousands_of_digits_are_refused_with_their_line():
    assert complaints(edited({56: "area_cm2 = " + "9" * 400}))[0].startswith("line 56: ")
    (endless,) = complaints(edited({56: "area_cm2 = " + "9" * 5000}))
    assert endless.startswith("line 1: a number has thousands of digits")


def test_a_faulty_foam_does_not_blame_the_pads_that_use_it():
    assert len(complaints(edited({20: "strain = [0, 0.5]"}))) == 1


def test_the_error_opens_with_the_name_of_the_sheet_and_the_count():
    with pytest.raises(SheetError, match=r"^plain\.toml: 1 thing to put right\nline 1: format"):
        parse_sheet(edited({1: "format = 2"}), name="plain.toml")


def test_a_zone_may_go_without_a_pad_when_the_sheet_says_why():
    text = edited(dict.fromkeys(range(102, 111), "")) + '\n[without_pad]\nnape = "open there"\n'
    sheet = parse_sheet(text, name="plain.toml")
    assert sheet.without_pad == (("nape", "open there"),)
    assert sheet.pad(Zone.NAPE).seats == ()
    assert sheet.pad(Zone.NAPE).labels == ("none",)


def test_a_zone_has_pads_or_a_reason_but_not_both():
    found = complaints(PLAIN + '\n[without_pad]\nnape = "open there"\n')
    assert found == [
        (
            "line 165: without pad, nape: the zone nape has pads above. "
            "Keep either the [[pad]] or the reason for its absence."
        )
    ]
