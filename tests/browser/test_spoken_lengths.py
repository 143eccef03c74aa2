"""A length is read aloud in the same words at the station and at the desk."""

from helmwright.units import MM_PER_INCH
from helmwright.web.templatetags.house import inch_parts, inch_words

SPOKEN = """async (most) => {
  const { inchWords } = await import("/static/web/station/lengths.js");
  return Array.from({ length: most }, (_, at) => inchWords(at));
}"""
KNOWN = {
    0: "0 inches",
    2: "1 eighth of an inch",
    8: "a half inch",
    12: "3 quarters of an inch",
    16: "1 inch",
    24: "1 and a half inches",
    98: "6 and 1 eighth inches",
    362: "22 and 5 eighths inches",
}


def test_station_and_desk_read_every_sixteenth_aloud_in_the_same_words(browser, module_laptop):
    page = browser.new_page()
    page.goto(module_laptop.address)
    at_station = page.evaluate(SPOKEN, 400)
    page.close()
    at_desk = [inch_words(*inch_parts(at / 16 * MM_PER_INCH)) for at in range(400)]
    assert at_station == at_desk
    assert {at: at_desk[at] for at in KNOWN} == KNOWN
