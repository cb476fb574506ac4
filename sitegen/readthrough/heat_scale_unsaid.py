"""A heat is given without its scale, or on one that isn't Celsius or Fahrenheit: "160 degrees".

"Bake at 350" is one, too: half of the readers take it for the other scale.

Write the scale, as in "160 °C"; the page then gives the other one beside it. Angles ("turn it by 90
degrees"), differences ("20 degrees less") and degrees of other things ("22° Brix") are left alone.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import chain

from sitegen.readthrough.prose import Said, said
from sitegen.readthrough.rule import Finding, Reading

_SCALE = r"\s?(?:[CcFf]\b|[Cc]elsius|[Cc]entigrade|[Ff]ahrenheit)"
_DEGREES = re.compile(
    r"(?<![\w.,/])(?P<figure>\d{2,3})(?:\s?(?:[–—-]|to)\s?(?P<upto>\d{2,3}))?"
    rf"(?:\s?[°º˚]|[\s-](?:degrees?|deg)\b\.?)(?!{_SCALE}|\s?(?:[–—/-]|to|or)\s?\d|\sof\s)(?P<other>\s?[A-Z]\b)?"
)
_IN_WORDS = re.compile(
    r"\b(?:(?:a|one|two|three|four|five) hundred(?: and)?|(?:thir|for|fif|six|seven|eigh|nine)ty)"
    r"(?:[ -](?:\w+ty|\w+teen|ten|five))?(?:-\w+)? degrees?\b"
)
_OVEN_AT = re.compile(
    r"\b(?:oven (?:up |down )?(?:at|to)"
    r"|(?:bak|roast|(?:pre)?heat)(?:e|ed|ing)?(?: (?:it|them|the oven))? (?:at|to)"
    r"|in an? (?:hot |moderate )?oven at) (?P<figure>[1-5]\d[05])"
    r"(?:\s?(?:[–—-]|to)\s?(?P<upto>[1-5]\d[05]))?(?=\s*(?:[.,;:)]\s|[.,;:)]?$|\b(?:for|until|and|then|on)\b))"
)
_HEAT = re.compile(
    r"\b(?:oven|bak(?:e|ing)|roast|(?:pre|re)?heat|warm|hot|cool|chill|fridge|freezer|thermometer|probe"
    r"|temperature|inside|middle|centre|center|core|thickest|reach(?:es|ed)?|reads?|registers?|simmer"
    r"|poach|fry|oil|fan|grill|dry|smoke|milk|water|syrup|sugar|prov(?:e|ing)|proof|ferment|cook|melt"
    r"|temper|keep|serve)\w*"
)
_ANGLE = re.compile(
    r"\b(?:angle|clockwise|diagonal|slant|bias|through|by|within|few|another|lower|higher|hotter|cooler"
    r"|warmer|colder|less|more|either way|of the|brix|plato|b[eé]|baum[eé]|oe|oechsle|dh|proof|latitude)\b"
    r"|\b(?:rotat|swivel|tilt|twist|pivot|spin|bend)\w*|\b(?:slice|slicing|cut|score|scoring|fold|snip)\b"
    r"|\b(?:turn|flip)\w*\s+(?!(?:the |your )?(?:oven|heat|grill)|it (?:up|down)\b|(?:up|down|on)\b)"
)
_OTHER_SCALES = frozenset("NSEWPB")  # the compass, Plato, Baumé and Brix


def check(reading: Reading) -> Iterator[Finding]:
    """Degrees in the text that are no heat on a known scale."""
    if not _may_be(reading.body_low):
        return
    for sentence in said(reading):
        for found in _OVEN_AT.finditer(sentence.low):
            yield _unsaid(reading, sentence, found, found.start("figure"))
        for found in chain(_DEGREES.finditer(sentence.text), _IN_WORDS.finditer(sentence.text)):
            if not _is_heat(sentence.low, found):
                continue
            yield _unsaid(reading, sentence, found, found.start())


def _unsaid(reading: Reading, sentence: Said, found: re.Match[str], start: int) -> Finding:
    words = found.string[start : found.end()].strip()
    known = "isn't known" if found.groupdict().get("other") else "isn't said"
    return Finding(
        sentence.place(reading, start),
        f"'{words}' is not read as a temperature: its scale {known}",
        _hint(found, reading.settings.region == "us"),
        len(words),
    )


def _may_be(low: str) -> bool:
    """Whether degrees stand in a text that have no scale: told by counting, which is fast."""
    signs = low.count("°")
    if signs and signs != sum(map(low.count, ("°c", "° c", "°f", "° f"))):
        return True
    if "degree" in low or " deg" in low or "º" in low or "˚" in low:
        return True
    return _OVEN_AT.search(low) is not None


def _is_heat(low: str, found: re.Match[str]) -> bool:
    other = (found.groupdict().get("other") or "").strip()
    if other in _OTHER_SCALES and other:
        return False
    # the clause tells: "rotate the tin by 180 degrees, and heat the grill"
    begin = max(low.rfind(stop, 0, found.start()) for stop in (",", ":", "(", "!", "?"))
    ends = [at for stop in (",", "(", "!", "?") if (at := low.find(stop, found.end())) >= 0]
    clause = low[begin + 1 : min(ends, default=len(low))]
    return _HEAT.search(clause) is not None and not _ANGLE.search(clause)


def _hint(found: re.Match[str], american: bool) -> str:
    figure = found.groupdict().get("figure")
    if figure is None:
        return "write it in figures and with its scale, as in '180 °C'"
    upto = found["upto"]
    value = int(upto or figure)
    scale = "F" if value > 260 or (american and value >= 120) else "C"
    words = f"{figure} to {upto}" if upto else figure
    return f"did you mean '{words} °{scale}'? write the scale"
