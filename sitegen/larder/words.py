"""The words of a food's name, brought to one form so that two ways of writing it meet."""

import re
import unicodedata
from functools import lru_cache
from typing import Final

from sitegen.larder.vocabulary import words

#: Words that carry no meaning of their own.
STOP_WORDS: Final = frozenset(words("a an the of and in with for from some your its"))

_IRREGULAR: Final = {
    "leaves": "leaf",
    "loaves": "loaf",
    "halves": "half",
    "knives": "knife",
    "calves": "calf",
    "cookies": "cookie",
    "brownies": "brownie",
    "pies": "pie",
    "geese": "goose",
    "shoes": "shoe",
    "molasses": "molasses",
    "hummus": "hummus",
    "cloves": "clove",
    "olives": "olive",
    "chives": "chive",
    "endives": "endive",
    "anchovies": "anchovy",
    "oats": "oat",
    "peas": "pea",
    "gas": "gas",
    "schnapps": "schnapps",
    "swiss": "swiss",
}
#: Spellings of one word.
_SPELLINGS: Final = {
    "yoghurt": "yogurt",
    "yoghourt": "yogurt",
    "chile": "chilli",
    "chili": "chilli",
    "chilly": "chilli",
    "canned": "tinned",
    "tin": "tinned",
    "can": "tinned",
    "fibre": "fiber",
    "flavour": "flavor",
    "flavoured": "flavored",
    "colour": "color",
    "coloured": "colored",
    "skimmed": "skim",
    "whisky": "whiskey",
    "omelet": "omelette",
    "sulfate": "sulphate",
    "tumeric": "turmeric",
    "cumquat": "kumquat",
    "lichee": "lychee",
    "litchi": "lychee",
    "dessicated": "desiccated",
    "mozarella": "mozzarella",
    "filet": "fillet",
    "defrosted": "thawed",
    "stoned": "pitted",
    "destoned": "pitted",
}
#: Spellings of several words, brought to one before the words are parted.
_PHRASES: Final = {
    "whole wheat": "wholemeal",
    "wholewheat": "wholemeal",
    "whole meal": "wholemeal",
    "whole grain": "wholegrain",
    "self rising": "self raising",
    "bi carbonate": "bicarbonate",
    "all purpose": "allpurpose",
    "corn starch": "cornstarch",
    "corn meal": "cornmeal",
    "egg plant": "eggplant",
    "oat meal": "oatmeal",
    "butter milk": "buttermilk",
    "bread crumb": "breadcrumb",
}
_PHRASE: Final = re.compile("|".join(_PHRASES))
_HYPHEN: Final = re.compile(r"(?<=\w)[-‐–](?=\w)")
_WORD: Final = re.compile(r"[\w'%.]*\w[%']?")


def plain(text: str) -> str:
    """Lower case, no accents, straight apostrophes, single spaces."""
    text = text.replace("’", "'").replace("œ", "oe").lower()
    if not text.isascii():
        decomposed = unicodedata.normalize("NFKD", text)
        text = "".join(c for c in decomposed if not unicodedata.combining(c))
    return " ".join(text.split())


@lru_cache(maxsize=8192)
def stem(word: str) -> str:
    """The singular of a word, in one spelling: "potatoes" and "potato" both give "potato"."""
    word = word.removesuffix("'s").replace("'", "")
    if word in _IRREGULAR:
        word = _IRREGULAR[word]
    elif len(word) > 3 and word.endswith("s"):
        if word.endswith("ies"):
            word = word[:-3] + "y"
        elif word.endswith(("oes", "ches", "shes", "sses", "xes", "zes")):
            word = word[:-2]
        elif not word.endswith(("ss", "us", "is")):
            word = word[:-1]
    return _SPELLINGS.get(word, word)


def tokens(text: str) -> tuple[str, ...]:
    """The stems of the words of a name, in order, without stop words."""
    text = _HYPHEN.sub(" ", plain(text).replace("&", " and "))
    text = _PHRASE.sub(lambda written: _PHRASES[written.group()], text)
    return tuple(stem(word) for word in _WORD.findall(text) if word not in STOP_WORDS)


def key(text: str) -> tuple[str, ...]:
    """The same for two names that differ only in word order, number, accents or spelling."""
    return tuple(sorted(set(tokens(text))))


def joined(text: str) -> str:
    """The :func:`key` as one text, for a table: "large onions" gives "large onion"."""
    return " ".join(key(text))
