"""Makes data/foods.json from the hand-made tables and the files of SR28.

    python -m sitegen.larder.make FOLDER_WITH_SR28_FILES

FOLDER holds ABBREV.txt, FOOD_DES.txt and WEIGHT.txt. The same input gives the same bytes. Every
mistake in the tables is reported, with its file and line, and nothing is written if there is one.
"""

import json
import re
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import Any, Final

import yaml

from sitegen.larder import tables
from sitegen.larder.contradictions import contradictions
from sitegen.larder.sr28 import Record, read_sr28
from sitegen.larder.tables import Mistake, Place, Row
from sitegen.larder.vocabulary import SR28_NUTRIENTS
from sitegen.larder.weights import parse, plain_measures
from sitegen.larder.words import joined, plain, tokens

HERE: Final = Path(__file__).parent
SOURCE: Final = (
    "USDA National Nutrient Database for Standard Reference, Release 28 (2015, revised 2016), "
    "US Department of Agriculture, Agricultural Research Service; public domain"
)
Json = dict[str, Any]


def main(arguments: list[str]) -> int:
    """The command; 0 if foods.json was written, 1 if there are mistakes, 2 on wrong use."""
    if len(arguments) != 1:
        print("usage: python -m sitegen.larder.make FOLDER_WITH_SR28_FILES", file=sys.stderr)
        return 2
    try:
        text, mistakes = make(Path(arguments[0]), HERE / "table")
    except FileNotFoundError as missing:
        print(f"no file {missing.filename}: see the first lines of make.py", file=sys.stderr)
        return 2
    for mistake in mistakes:
        print(f"table/{mistake}", file=sys.stderr)
    if mistakes:
        print(f"{len(mistakes)} mistakes; foods.json is left as it was", file=sys.stderr)
        return 1
    (HERE / "data").mkdir(exist_ok=True)
    (HERE / "data" / "foods.json").write_text(text, encoding="utf-8", newline="\n")
    print(f"{len(json.loads(text)['foods'])} foods written to data/foods.json")
    return 0


def make(sr28: Path, folder: Path) -> tuple[str, list[Mistake]]:
    """The text of foods.json, and every mistake found in the tables of `folder`."""
    records = read_sr28(sr28)
    mistakes: list[Mistake] = []
    rows = [
        row
        for path in sorted(folder.glob("*.txt"))
        if not path.name.startswith("measures")
        for row in tables.read_foods(path, mistakes)
    ]
    for row in rows:
        record = records.get(row.number)
        if record is None:
            mistakes.append(Mistake(row.place, f"SR28 has no food {row.number!r}"))
            continue
        mistakes.extend(
            Mistake(row.place, f"{row.name}: {message}")
            for message in contradictions(row, record.description, record.group)
        )
    foods = [_food(row, records[row.number]) for row in rows if row.number in records]
    places = {row.name: row.place for row in rows}
    labels = folder / "labels.yaml"
    if labels.exists():
        for food, place in _label_foods(labels, foods, mistakes):
            foods.append(food)
            places.setdefault(food["name"], place)
    mistakes.extend(_duplicates(rows, foods, places))
    _correct_refuse(folder / "refuse.yaml", foods, mistakes)
    _add_measures(sorted(folder.glob("measures*.txt")), foods, mistakes)
    mistakes.sort(key=lambda m: (m.place.file, m.place.line, m.message))
    return _text(foods), mistakes


def _food(row: Row, record: Record) -> Json:
    figures = list(record.nutrients)
    food: Json = {
        "name": row.name,
        "number": row.number,
        "description": record.description,
        "also": list(row.also),
        "aisle": row.aisle,
        "refuse": record.refuse,
        "contains": _marked(row.contains, row.may_contain),
        "is": _marked(row.classes, row.unsure_classes),
        "traits": _marked(row.traits, ()),
        "per_100_g": " ".join(figure or "-" for figure in figures),
        "measures": _measures(row, record),
    }
    if "alcohol" in row.classes:
        food["extra"] = {"alcohol_g": record.alcohol()}
    return food


def _marked(sure: Iterable[str], unsure: Iterable[str]) -> str:
    return " ".join([*sorted(sure), *(f"?{word}" for word in sorted(unsure))])


def _measures(row: Row, record: Record) -> list[list[str]]:
    """[amount, unit, state, grams, source]; an empty source is SR28's row of this food."""
    found: dict[tuple[str, str], list[str]] = {}
    about = f"{row.name} {record.description}"
    own_words = re.findall(r"[a-z]+", plain(about))
    for _, amount, description, grams in record.weights:
        for unit, state in parse(description, own_words):
            found.setdefault((unit, state), [amount, unit, state, grams, ""])
    return list(found.values())


def _label_foods(
    path: Path, foods: list[Json], mistakes: list[Mistake]
) -> list[tuple[Json, Place]]:
    """The foods of labels.yaml, which are written like those of a site's own larder."""
    from sitegen.larder.larder import Larder, food_as_json
    from sitegen.larder.site import foods_from_mapping

    text = path.read_text(encoding="utf-8")
    root = yaml.compose(text, Loader=yaml.CSafeLoader)

    def place(where: tuple[str | int, ...]) -> Place:
        return Place(path.name, _line(root, where))

    def problem(where: tuple[str | int, ...], message: str, hint: str) -> None:
        mistakes.append(Mistake(place(where), f"{message}; {hint}" if hint else message))

    data = yaml.load(text, Loader=yaml.CSafeLoader)  # the safe loader, in C
    made = foods_from_mapping(data, problem, Larder.from_json({"foods": foods}))
    for index, food in enumerate(made):
        for message in contradictions(food, ""):
            mistakes.append(Mistake(place(("foods", index)), f"{food.name}: {message}"))
    return [(food_as_json(food), place(("foods", i))) for i, food in enumerate(made)]


def _line(node: yaml.Node | None, where: tuple[str | int, ...]) -> int:
    for step in where:
        if isinstance(node, yaml.MappingNode):
            node = next((v for k, v in node.value if k.value == str(step)), node)
        elif isinstance(node, yaml.SequenceNode) and isinstance(step, int):
            node = node.value[step] if step < len(node.value) else node
    return int(node.start_mark.line) + 1 if node is not None else 1


def _duplicates(rows: list[Row], foods: list[Json], places: dict[str, Place]) -> Iterable[Mistake]:
    """Names and synonyms that two foods share, in whatever number and spelling."""
    owners: dict[tuple[str, ...], tuple[str, str, Place]] = {}
    all_rows = [(row.name, row.also, row.place) for row in rows]
    from_labels = [f for f in foods if not f["number"]]
    all_rows += [(f["name"], tuple(f["also"]), places[f["name"]]) for f in from_labels]
    for name, also, place in all_rows:
        for word in (name, *also):
            owner = owners.setdefault(tokens(word), (name, word, place))
            if owner[2] != place:
                same = "" if plain(owner[1]) == plain(word) else f" (there {owner[1]!r})"
                yield Mistake(
                    place, f"{name}: {word!r} already belongs to {owner[0]!r}, {owner[2]}{same}"
                )


def _correct_refuse(path: Path, foods: list[Json], mistakes: list[Mistake]) -> None:
    """What of a food is thrown away, where SR28's figure does not fit the food of that name."""
    by_name = {food["name"]: food for food in foods}
    text = path.read_text(encoding="utf-8") if path.exists() else "{}"
    root = yaml.compose(text, Loader=yaml.CSafeLoader)
    for name, (per_cent, source) in yaml.load(text, Loader=yaml.CSafeLoader).items():
        place = Place(path.name, _line(root, (name,)))
        if name not in by_name:
            close = tables.unknown_word(name, "food", by_name).partition("; known")[0]
            mistakes.append(Mistake(place, close))
        elif not (isinstance(per_cent, int) and 0 <= per_cent < 100 and source):
            mistakes.append(Mistake(place, f"{name}: expected [per cent, source]"))
        else:
            by_name[name]["refuse"] = str(per_cent)


def _add_measures(paths: list[Path], foods: list[Json], mistakes: list[Mistake]) -> None:
    by_name = {food["name"]: food for food in foods}
    rows = [row for path in paths for row in tables.read_measures(path, mistakes)]
    for row in rows:
        food = by_name.get(row.name)
        if food is None:
            close = tables.unknown_word(row.name, "food", by_name).partition("; known")[0]
            mistakes.append(Mistake(row.place, close))
            continue
        same = [m for m in food["measures"] if m[1:3] == [row.unit, row.state]]
        if row.grams == "-":
            if not same:
                mistakes.append(Mistake(row.place, f"{row.name} has no {row.unit!r} to leave out"))
            food["measures"] = [m for m in food["measures"] if m not in same]
            continue
        if same:
            message = f"{row.name}: {row.unit!r} {row.state!r} is there already: {same[0]}"
            mistakes.append(Mistake(row.place, message))
            continue
        food["measures"].append([row.amount, row.unit, row.state, row.grams, row.source])
    for food in foods:
        _add_plain(food)


def _add_plain(food: Json) -> None:
    """The measures that a cook means when no state is given, each saying what it was taken from."""
    known = {(m[1], m[2]): m for m in food["measures"]}
    for (unit, state), meant in plain_measures(known).items():
        amount, from_unit, from_state, grams, source = known[meant]
        source = source or f"USDA SR28 {food['number']}"
        which = " ".join(filter(None, [from_unit if unit != from_unit else "", from_state]))
        food["measures"].append(
            [amount, unit, state, grams, f"{source}, {which}" if which else source]
        )


def _names(food: Json) -> dict[str, str]:
    """What a food is called, in plain letters, with the finder's keys: every start needs them all."""
    return {plain(called): joined(called) for called in (food["name"], *food["also"])}


def _text(foods: list[Json]) -> str:
    """One food a line, sorted by name, so that a change shows as the lines it touches."""
    head = json.dumps({"source": SOURCE, "nutrients": " ".join(SR28_NUTRIENTS)})
    body = ",\n".join(
        json.dumps(
            food | {"names": _names(food)},
            ensure_ascii=False,
            sort_keys=True,
            separators=(",", ":"),
        )
        for food in sorted(foods, key=lambda f: str(f["name"]))
    )
    return f'{head[:-1]}, "foods": [\n{body}\n]}}\n'


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
