"""The allergens that each region's law names, in the law's own words.

EU and UK: Regulation (EU) 1169/2011, Annex II, which the UK keeps with the Food Information
Regulations 2014. US: FD&C Act 201(qq) with the FASTER Act of 2021; FDA asks for the kind of nut.
Canada: Food and Drug Regulations B.01.010.1. Australia: Food Standards Code, Standard 1.2.3 and
Schedule 9. The last two are from memory: no copy was at hand.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

Names = Mapping[str, tuple[str, str]]
"""Larder key → the law's name, and the particular food where the law asks for it."""


@dataclass(frozen=True, slots=True)
class Law:
    """One region's list."""

    title: str
    names: Names


def _plain(names: Mapping[str, str]) -> dict[str, tuple[str, str]]:
    return {key: (name, "") for key, name in names.items()}


def _kinds(law_name: str, kinds: Mapping[str, str]) -> dict[str, tuple[str, str]]:
    return {key: (law_name, name) for key, name in kinds.items()}


_CEREALS = {"wheat": "wheat", "rye": "rye", "barley": "barley", "oats": "oats"}
_NUTS = {
    "almonds": "almonds",
    "hazelnuts": "hazelnuts",
    "walnuts": "walnuts",
    "cashews": "cashews",
    "pecans": "pecan nuts",
    "brazil-nuts": "Brazil nuts",
    "pistachios": "pistachio nuts",
    "macadamias": "macadamia nuts",
}

_EU: Names = {
    **_kinds("cereals containing gluten", _CEREALS),
    **_plain({"crustaceans": "crustaceans", "eggs": "eggs", "fish": "fish"}),
    **_plain({"peanuts": "peanuts", "soya": "soybeans", "milk": "milk"}),
    **_kinds("nuts", _NUTS),
    **_plain({"celery": "celery", "mustard": "mustard", "sesame": "sesame seeds"}),
    **_plain({"sulphites": "sulphur dioxide and sulphites"}),
    **_plain({"lupin": "lupin", "molluscs": "molluscs"}),
}
# As packets in North America name them (common practice; the law asks for the kind of nut).
_AMERICAN_NUTS = {**_NUTS, "pecans": "pecans", "pistachios": "pistachios"}

# Chestnuts left FDA's list of tree nuts in January 2025 (from memory); they are kept here, since
# whoever avoids nuts will want to know.
_US: Names = {
    **_plain({"milk": "milk", "eggs": "eggs", "fish": "fish"}),
    **_plain({"crustaceans": "crustacean shellfish"}),
    **_kinds("tree nuts", {**_AMERICAN_NUTS, "pine-nuts": "pine nuts", "chestnuts": "chestnuts"}),
    **_plain({"peanuts": "peanuts", "wheat": "wheat", "soya": "soybeans", "sesame": "sesame"}),
}
_CA: Names = {
    **_kinds("tree nuts", {**_AMERICAN_NUTS, "pine-nuts": "pine nuts"}),
    **_plain({"peanuts": "peanuts", "sesame": "sesame seeds", "wheat": "wheat", "eggs": "eggs"}),
    **_plain({"milk": "milk", "soya": "soybeans", "crustaceans": "crustaceans"}),
    **_plain({"molluscs": "molluscs", "fish": "fish", "mustard": "mustard seeds"}),
    **_kinds("gluten", {"rye": "rye", "barley": "barley", "oats": "oats"}),
    **_plain({"sulphites": "sulphites"}),
}
_AU: Names = {
    **_plain({"wheat": "wheat"}),
    **_kinds("gluten", {"rye": "rye", "barley": "barley", "oats": "oats"}),
    **_plain({"crustaceans": "crustacean", "molluscs": "mollusc", "eggs": "egg", "fish": "fish"}),
    **_plain({"lupin": "lupin", "milk": "milk", "peanuts": "peanut", "sesame": "sesame"}),
    **_plain({"soya": "soy", "sulphites": "sulphites"}),
    **_plain({"almonds": "almond", "hazelnuts": "hazelnut", "walnuts": "walnut"}),
    **_plain({"cashews": "cashew", "pecans": "pecan", "brazil-nuts": "Brazil nut"}),
    **_plain({"pistachios": "pistachio", "macadamias": "macadamia", "pine-nuts": "pine nut"}),
}

_ANNEX_II = "the 14 allergens of Regulation (EU) 1169/2011, Annex II"
LAWS: Final[Mapping[str, Law]] = {
    "us": Law(
        "the 9 major allergens of the US FD&C Act, section 201(qq), and the FASTER Act of 2021", _US
    ),
    "eu": Law(_ANNEX_II, _EU),
    "uk": Law(f"{_ANNEX_II}, as the UK keeps it", _EU),
    "ca": Law("the allergens, gluten and sulphites of Canada's Food and Drug Regulations", _CA),
    "au": Law("the allergens of the Australia New Zealand Food Standards Code, Schedule 9", _AU),
}

#: For what a region's law does not name, but a reader may have to avoid.
PLAIN_NAMES: Final[Names] = {**_EU, "pine-nuts": ("pine nuts", ""), "chestnuts": ("chestnuts", "")}
