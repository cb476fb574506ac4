"""The colours of the site's pictures: one drawer of inks, shared by every sheet.

Each picture takes about eight of them.  Names say what the ink stands for on the plate,
not where it is used, so that a beet may also colour a cloth.
"""

PAPER = "#fcfaf3"
CREAM = "#f7f1e1"
OAT = "#e8dab9"
OAT_DEEP = "#d0b988"
STRAW = "#b89a63"

MIST = "#dde8df"
SEA_PALE = "#bdd4c9"
SEA = "#8bb2a6"
SEA_DEEP = "#447f79"
SEA_DARK = "#1f4f50"

MUSSEL = "#2f4359"
MUSSEL_SOFT = "#5d7389"
MUSSEL_PALE = "#a9b8c2"
SLATE = "#39444a"
SLATE_SOFT = "#6f7b7e"
SLATE_PALE = "#c3cac7"

CRUST_PALE = "#ddb377"
CRUST = "#bb8246"
RYE = "#80532f"
RYE_DARK = "#4e3222"

BEET = "#8b2e47"
BEET_DARK = "#5c1f32"
BLUSH = "#d98d8f"
BLUSH_PALE = "#ecc3ba"
TOMATO = "#bf4a30"
CARROT = "#dc8039"

SAFFRON = "#e2a534"
LEMON = "#f0cf62"
LEMON_PALE = "#f8e7aa"

LEAF_DARK = "#35543a"
LEAF = "#5e8248"
LEAF_PALE = "#a5bb73"
LEAF_MIST = "#d5dfb4"
