"""A site of any size for measurements: the demo's recipes, and variations of them.

    python tests/benchmarks/make_site.py FOLDER --recipes 1000 --seed 1

A variation is one of the demo's recipes with some of its foods replaced by foods that a cook would
use in their place, under a title of its own, with its own date, author, tags and words. Every
replacement is tried in its recipe first, alone, and is used only if the program finds nothing to
say against it; so all recipes read without errors. The same arguments give the same files.
"""

from __future__ import annotations

import argparse
import re
import shutil
import sys
import tempfile
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from pathlib import Path
from random import Random

from sitegen.gathering import Gatherer
from sitegen.pages.address import slug

DEMO = Path(__file__).parents[2] / "content"

FOODS_OF_A_KIND = (
    "leeks, leek | onions, onion | fennel bulbs, fennel bulb | red onions, red onion | shallots, shallot",
    "carrots, carrot | parsnips, parsnip | turnips, turnip | courgettes, courgette",
    "waxy potatoes | sweet potatoes | celeriac | Jerusalem artichokes",
    "floury potatoes | sweet potatoes | swede",
    "butternut squash | pumpkin | sweet potatoes | cauliflower | celeriac",
    "kale | chard | spinach | savoy cabbage | spring greens | Brussels sprouts",
    "beetroot | celeriac | swede | butternut squash | kohlrabi",
    "chestnut mushrooms | button mushrooms | oyster mushrooms | shiitake mushrooms",
    "apples, apple | pears, pear | quinces, quince | plums, plum",
    "rhubarb | gooseberries | plums | blackberries | cooking apples | apricots | cherries",
    "oranges, orange | clementines, clementine | grapefruit | limes, lime",
    "red lentils | green lentils | yellow split peas | brown lentils | moong dal",
    "dried haricot beans | dried borlotti beans | dried black beans | dried cannellini beans",
    "chickpeas | butter beans | cannellini beans | black beans | kidney beans",
    "pearl barley | farro | brown rice | freekeh | quinoa | bulgur wheat",
    "pudding rice | risotto rice | tapioca | semolina",
    "dried soba noodles | dried rice noodles | dried egg noodles | dried udon noodles",
    "walnuts | hazelnuts | almonds | pecans | pistachios | cashews",
    "ground almonds | ground hazelnuts",
    "pumpkin seeds | sunflower seeds | pine nuts",
    "cod fillet | haddock fillet | hake fillet | pollock fillet | monkfish | salmon fillet",
    "smoked haddock | smoked cod | hot-smoked trout",
    "hot-smoked salmon | smoked mackerel | hot-smoked trout | tinned sardines",
    "boneless beef shin | beef chuck | lamb shoulder | venison | pork shoulder",
    "minced beef | minced lamb | minced veal | minced turkey",
    "mature Cheddar | Gruyère | Gouda | feta | Emmental",
    "firm tofu | tempeh | paneer | halloumi",
    "soft cheese | ricotta | mascarpone | cottage cheese",
    "flat-leaf parsley | coriander leaves | basil leaves | mint leaves | chervil",
    "dill | tarragon | chervil | mint | fennel fronds",
    "thyme | rosemary | oregano | sage",
    "cumin seeds | caraway seeds | fennel seeds | coriander seeds",
    "ground cinnamon | ground allspice | ground cardamom | mixed spice",
    "ground cumin | ground coriander | sweet paprika | curry powder",
    "caster sugar | granulated sugar | golden caster sugar",
    "frozen peas | frozen broad beans | sweetcorn | edamame",
    "soured cream | crème fraîche | natural yoghurt",
)  # fmt: skip
"""Each line: names of foods, or their plural and singular, that stand in for one another."""

MANNERS = (
    "Harbour", "Sunday", "Midweek", "Winter", "Lamplight", "Slow", "Plain", "Allotment", "Big-pan",
    "Quayside", "Storm-day", "Market-day", "Late-supper", "Ferry", "Low-tide", "Long-table",
    "Children's", "Back-door", "First-frost", "Midsummer", "Old-boat", "Carnival", "Lighthouse",
    "Two-pot", "Rainy-day", "Feast-day", "Gardener's", "Night-shift", "Spring-tide", "Everyday",
)  # fmt: skip
LONGEST_TITLE = 60  # what search results show, by the read-through
CUISINES = (
    "British", "Nordic", "French", "Italian", "Middle Eastern", "East Asian", "South Asian",
    "Spanish", "Greek", "Central European", "Mexican", "North African",
)  # fmt: skip
TAGS = (
    "winter", "summer", "autumn", "spring", "quick", "make ahead", "one pot", "freezes well",
    "Sunday", "batch cooking", "allotment", "lunch", "small batch", "feast", "no cooking",
)  # fmt: skip
OPENINGS = (
    "The first time we made this, the boats were late and the pan was nearly empty.",
    "It came out of a week when the allotment gave more than anybody had asked for.",
    "Someone at the far end of the table asked for it again, and so it was written down.",
    "A dish for the days when the stove is lit anyway and there is time to stand beside it.",
    "We tried it four ways, and this is the one that left no bowls to scrape.",
    "It is a little plainer than the one it grew from, and the better for it.",
    "On a cold evening it holds its heat all the way to the end of the long table.",
    "Nobody remembers who brought the first one; everybody remembers who took the last.",
)
CLOSINGS = (
    "Taste it before it leaves the stove, as always.",
    "It will wait for a late guest, if the lid is left on.",
    "What is left makes a good lunch.",
    "The smell alone fills the bench by the door.",
    "Take it slowly; nothing in it likes to be hurried.",
    "A second helping has been allowed for.",
)


@dataclass(frozen=True)
class Swap:
    """One food for another of its kind, in every form that a recipe names it."""

    forms: tuple[tuple[str, str], ...]

    @property
    def brings(self) -> str:
        """The food that comes in."""
        return self.forms[0][1]

    def done(self, text: str) -> str:
        """The text with the food replaced; a capital letter stays one."""
        for old, new in self.forms:

            def put(match: re.Match[str], new: str = new) -> str:
                capital = match[0][0].isupper() and not new[0].isupper()
                return new[0].upper() + new[1:] if capital else new

            # a food's name within a link's target is a file's
            text = re.sub(rf"(?i)\b{re.escape(old)}\b(?!\S*\.md)", put, text)
        return text


@dataclass(frozen=True)
class Base:
    """A recipe of the demo, without its picture's line."""

    path: Path
    text: str
    picture: str = ""
    """The line that names the picture."""
    swaps: tuple[tuple[Swap, ...], ...] = ()
    """For each food that can be replaced, the ways to do it."""


@dataclass(frozen=True)
class Variation:
    """A recipe to be written."""

    base: Base
    title: str
    swaps: tuple[Swap, ...]
    draw: Random = field(compare=False)


def make_site(folder: Path, recipes: int, seed: int, *, pictures: bool = False) -> None:
    """Write a site of ``recipes`` recipes to ``folder``, which must be empty or not there.

    The demo's own are among them, so there can't be fewer; ValueError if that is asked for.

    ``pictures``: give every recipe the picture of the one it was made from.
    """
    if folder.exists() and any(folder.iterdir()):
        raise FileExistsError(f"{folder} is not empty")
    _write_frame(folder)
    bases = _bases()
    if recipes < len(bases):
        raise ValueError(f"the demo alone has {len(bases)} recipes, and they link to one another")
    for base in bases:
        _write(folder, base, base.path.stem, base.text, pictures)
    for one in _plan(_sound(bases), recipes - len(bases), Random(seed)):
        _write(folder, one.base, slug(one.title), _text(one), pictures)


def _write_frame(folder: Path) -> None:
    shutil.copytree(DEMO / "pages", folder / "content" / "pages")
    settings = (DEMO / "site.yaml").read_text(encoding="utf-8")
    # no test logs are made, so none may be asked for
    settings = re.sub(r"(?m)^trials:.*\n(?:[ ].*\n)*", "", settings)
    (folder / "content" / "site.yaml").write_text(settings, encoding="utf-8")


def _bases() -> list[Base]:
    """The demo's recipes, without pictures and films, links adapted to folders of one depth."""
    bases = []
    for path in sorted((DEMO / "recipes").rglob("*.md")):
        text = path.read_text(encoding="utf-8")
        picture = re.search(r"(?m)^photo:.*\n(?:[ ].*\n)*", text)
        bare = text.replace(picture[0], "") if picture else text
        bare = re.sub(r"(?m)^video:.*\n(?:[ ].*\n)*", "", bare)
        bare = re.sub(r"[ \t\n]*!\[[^\]]*\]\([^)]*\)", "", bare)
        bare = re.sub(r"\]\(\.\./(\w+)/[\w-]+/([\w-]+\.md)", r"](../\1/\2", bare)
        base = Base(path, bare, picture[0] if picture else "")
        bases.append(replace(base, swaps=tuple(_swaps(bare))))
    return bases


def _swaps(text: str) -> Iterator[tuple[Swap, ...]]:
    listed = text.partition("\ningredients:")[2].partition("\n---\n")[0]
    for line in FOODS_OF_A_KIND:
        kinds = [[name.strip() for name in kind.split(",")] for kind in line.split("|")]
        for own in kinds:
            if not any(re.search(rf"(?i)\b{re.escape(name)}\b", listed) for name in own):
                continue
            others = [kind for kind in kinds if kind is not own]
            yield tuple(
                Swap(tuple((old, kind[min(n, len(kind) - 1)]) for n, old in enumerate(own)))
                for kind in others
            )
            break  # one food of a line is enough, and never two that then become the same


def _plan(bases: list[Base], number: int, draw: Random) -> list[Variation]:
    titles = {_title(base.text).casefold() for base in bases}
    planned: list[Variation] = []
    while len(planned) < number:
        base = draw.choice(bases)
        foods = draw.sample(base.swaps, min(len(base.swaps), draw.choice((0, 1, 1, 2, 3))))
        swaps: dict[str, Swap] = {}
        for ways in foods:
            swap = draw.choice(ways)
            if swap.brings.casefold() not in base.text.casefold():
                swaps.setdefault(swap.brings, swap)
        title = _title(_swapped(base.text, swaps.values()))
        for _ in range(3):
            name = (
                title if title.startswith(("Sunday", "Children")) else title[0].lower() + title[1:]
            )
            title = f"{draw.choice(MANNERS)} {name}"
            if title.casefold() not in titles:
                break
        if title.casefold() in titles or len(title) > LONGEST_TITLE:
            continue
        titles.add(title.casefold())
        planned.append(Variation(base, title, tuple(swaps.values()), Random(draw.random())))
    return planned


def _sound(bases: list[Base]) -> list[Base]:
    """With only those replacements that the program finds nothing wrong with, each tried alone."""
    with tempfile.TemporaryDirectory() as name:
        trial = Path(name)
        _write_frame(trial)
        tried: dict[tuple[Path, Swap], str] = {}
        for base in bases:
            _write(trial, base, base.path.stem, base.text, pictures=False)
            for swap in (swap for ways in base.swaps for swap in ways):
                # a title of its own, for two recipes of one title are a mistake
                text = _retitled(_swapped(base.text, [swap]), f"Trial {len(tried)}")
                file = _write(trial, base, f"trial-{len(tried)}", text, pictures=False)
                tried[base.path, swap] = file
        wrong = {problem.file for problem in Gatherer(trial).gather(drafts=False).problems}

    def kept(base: Base) -> Iterator[tuple[Swap, ...]]:
        for ways in base.swaps:
            sound = tuple(swap for swap in ways if tried[base.path, swap] not in wrong)
            if sound:
                yield sound

    return [replace(base, swaps=tuple(kept(base))) for base in bases]


def _text(one: Variation) -> str:
    draw = one.draw
    text = _retitled(_swapped(one.base.text, one.swaps), one.title)
    day = date(2021, 1, 3) + timedelta(days=draw.randrange(2100))
    text = re.sub(r"(?m)^published:.*$", f"published: {day.isoformat()}", text)
    text = re.sub(r"(?m)^updated:.*\n", "", text)
    text = re.sub(r"(?m)^author:.*$", f"author: {draw.choice(('ines', 'tobias', 'marit'))}", text)
    if draw.random() < 0.3:
        text = re.sub(r"(?m)^cuisine:.*$", f"cuisine: {draw.choice(CUISINES)}", text)

    def more_tags(match: re.Match[str]) -> str:
        own = [tag.strip() for tag in match[1].split(",")]
        drawn = draw.sample(TAGS, draw.randrange(3))
        return f"tags: [{', '.join(dict.fromkeys((*own, *drawn)))}]"

    text = re.sub(r"(?m)^tags: \[(.*)\]$", more_tags, text)
    opening = f"\n---\n{draw.choice(OPENINGS)} {draw.choice(CLOSINGS)}\n\n"
    return text.replace("\n---\n", opening, 1)


def _swapped(text: str, swaps: Iterable[Swap]) -> str:
    for swap in swaps:
        text = swap.done(text)
    return text


def _title(text: str) -> str:
    found = re.search(r"(?m)^title: (.*)$", text)
    assert found
    return found[1].strip("\"'")


def _retitled(text: str, title: str) -> str:
    return re.sub(r"(?m)^title: .*$", lambda _: f'title: "{title}"', text, count=1)


def _write(folder: Path, base: Base, name: str, text: str, pictures: bool) -> str:
    """Write one recipe; its path from the site's folder."""
    # all at one depth, so that links between recipes hold in every copy
    room = base.path.parent.relative_to(DEMO / "recipes").parts[0]
    file = Path("content", "recipes", room, f"{name}.md")
    (folder / file).parent.mkdir(parents=True, exist_ok=True)
    source = base.path.with_suffix(".png")
    if pictures and base.picture and source.is_file():
        line = base.picture.replace(source.name, f"{name}.png")
        text = text.replace("\ningredients:", f"\n{line}ingredients:", 1)
        shutil.copyfile(source, (folder / file).with_suffix(".png"))
    (folder / file).write_text(text, encoding="utf-8")
    return file.as_posix()


def main(arguments: list[str] | None = None) -> int:
    """The command line."""
    parser = argparse.ArgumentParser(description="Make a site of any size, for measurements.")
    parser.add_argument("folder", type=Path, help="where to; must be empty or not there")
    parser.add_argument("--recipes", type=int, default=1000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--pictures", action="store_true", help="give every recipe a picture")
    chosen = parser.parse_args(arguments)
    make_site(chosen.folder, chosen.recipes, chosen.seed, pictures=chosen.pictures)
    return 0


if __name__ == "__main__":
    sys.exit(main())
