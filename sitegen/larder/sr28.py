"""Reading the files of USDA's National Nutrient Database for Standard Reference, Release 28.

Fields are split by ``^`` and text is wrapped in ``~``; an empty field is "not known", never zero.
Figures are kept as the decimal text that the file has, so that the larder equals its source.
"""

from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from typing import Final

from sitegen.larder.vocabulary import SR28_NUTRIENTS

_REFUSE: Final = 52  # field of ABBREV, counted from 0
_FACTORS: Final = (11, 12, 13)  # Atwater factors for protein, fat, carbohydrate in FOOD_DES
_GENERAL_FACTORS: Final = (Decimal(4), Decimal(9), Decimal(4))
_ALCOHOL_KCAL: Final = Decimal("6.93")


@dataclass(frozen=True, slots=True)
class Record:
    """One SR28 food, all figures as text; None where SR28 has no value."""

    number: str
    group: str
    description: str
    refuse: str
    nutrients: tuple[str | None, ...]
    weights: tuple[tuple[str, str, str, str], ...]  # sequence, amount, description, grams
    factors: tuple[str, str, str]

    def figure(self, key: str) -> str | None:
        """The figure of one nutrient per 100 g, as SR28 writes it, or None."""
        return self.nutrients[SR28_NUTRIENTS.index(key)]

    def alcohol(self) -> str:
        """Grams of alcohol per 100 g, derived: SR28's short file leaves the column out.

        (kcal - Atwater energy of protein, fat and carbohydrate) / 6.93 kcal per g, with the
        food's own Atwater factors where SR28 gives them, else 4, 9 and 4. Red table wine (14096)
        has 85 kcal, protein 0.07 and carbohydrate 2.61 g, so about 10.7 g.
        """
        energy = Decimal(self.figure("energy_kcal") or 0)
        for key, own, general in zip(
            ("protein_g", "fat_g", "carbohydrate_g"), self.factors, _GENERAL_FACTORS, strict=True
        ):
            factor = Decimal(own) if own and Decimal(own) else general
            energy -= Decimal(self.figure(key) or 0) * factor
        grams = max(energy / _ALCOHOL_KCAL, Decimal(0))
        return f"{grams:.1f}" if grams >= Decimal("0.5") else "0.0"


def _rows(path: Path) -> list[list[str]]:
    text = path.read_text(encoding="utf-8")
    return [[c.strip("~") for c in line.split("^")] for line in text.splitlines() if line]


def read_sr28(folder: Path) -> dict[str, Record]:
    """All foods of SR28 by number; FileNotFoundError if one of the three files is missing."""
    weights: dict[str, list[tuple[str, str, str, str]]] = {}
    for row in _rows(folder / "WEIGHT.txt"):
        weights.setdefault(row[0], []).append((row[1], row[2], row[3], row[4]))
    described = {row[0]: row for row in _rows(folder / "FOOD_DES.txt")}
    records: dict[str, Record] = {}
    for row in _rows(folder / "ABBREV.txt"):
        number = row[0]
        about = described.get(number)
        if about is None:
            continue
        records[number] = Record(
            number=number,
            group=about[1],
            description=about[2],
            refuse=row[_REFUSE] or "0",
            nutrients=tuple(cell or None for cell in row[2 : 2 + len(SR28_NUTRIENTS)]),
            weights=tuple(sorted(weights.get(number, ()), key=lambda w: int(w[0]))),
            factors=(about[_FACTORS[0]], about[_FACTORS[1]], about[_FACTORS[2]]),
        )
    return records
