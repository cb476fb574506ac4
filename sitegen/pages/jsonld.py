"""Structured data by schema.org's vocabulary: what the page shows, no more.

Vocabulary: https://schema.org/Recipe (release 29). Times are exact, so a range gives its upper end.
Addresses must be absolute: where a site has none, what needs one is left out.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping, Sequence
from types import MappingProxyType
from typing import Any
from urllib.parse import urlsplit

from markupsafe import Markup

from sitegen.dish import Dish, Label, MethodPartView
from sitegen.images.film import Film
from sitegen.images.photoset import PhotoSet
from sitegen.pages import address
from sitegen.pages.address import instant
from sitegen.pages.film import PLAYED
from sitegen.reading.pictures import beside
from sitegen.site import Author, Settings

Node = dict[str, Any]

NUTRIENTS: Mapping[str, str] = {
    "fat_g": "fatContent",
    "saturated_g": "saturatedFatContent",
    "trans_g": "transFatContent",
    "cholesterol_mg": "cholesterolContent",
    "sodium_mg": "sodiumContent",
    "carbohydrate_g": "carbohydrateContent",
    "available_carbohydrate_g": "carbohydrateContent",
    "fibre_g": "fiberContent",
    "sugars_g": "sugarContent",
    "protein_g": "proteinContent",
}
"""Our nutrient keys and the properties of https://schema.org/NutritionInformation."""

DIETS: Mapping[str, str] = {
    "vegan": "VeganDiet",
    "vegetarian": "VegetarianDiet",
    "gluten-free ingredients": "GlutenFreeDiet",
    "dairy-free ingredients": "LowLactoseDiet",
}
"""Diets that a Dish may claim and their https://schema.org/RestrictedDiet; others are not said."""

_ESCAPES = tuple((c, f"\\u{ord(c):04x}") for c in "<>&\u2028\u2029")


_encoder = json.JSONEncoder(ensure_ascii=False, separators=(",", ":"))


def script_text(data: Any) -> Markup:
    """JSON that can stand in a script element: nothing in it ends the element or the line."""
    text = _encoder.encode(data)
    for sign, written in _ESCAPES:  # several times faster than str.translate
        text = text.replace(sign, written)
    return Markup(text)


def iso_duration(minutes: int) -> str:
    """Minutes as ISO 8601 has them.

    >>> iso_duration(100)
    'PT1H40M'
    """
    hours, rest = divmod(minutes, 60)
    return "PT" + (f"{hours}H" if hours else "") + (f"{rest}M" if rest or not hours else "")


def graph(nodes: Iterable[Node]) -> Node:
    """Several nodes of one page."""
    return {"@context": "https://schema.org", "@graph": list(nodes)}


def recipe_node(
    dish: Dish,
    settings: Settings,
    photo: PhotoSet | None,
    photos: Mapping[str, PhotoSet] = MappingProxyType({}),
    film: Film | None = None,
) -> Node:
    """The Recipe of a dish; ``photos`` are the pictures in its text, by file.

    Keys with nothing to say are left out.
    """
    recipe, base = dish.recipe, settings.address
    url = address.absolute(base, address.recipe(recipe.slug)) if base else ""
    times = recipe.times
    node: Node = {
        "@type": "Recipe",
        "@id": url + "#recipe" if url else "",
        "url": url,
        "name": recipe.title,
        "description": recipe.summary,
        "image": _images(photo, base),
        "author": _person(recipe.author, settings),
        "datePublished": instant(recipe.published) if recipe.published else "",
        "dateModified": instant(recipe.updated) if recipe.updated else "",
        "inLanguage": settings.language,
        "prepTime": iso_duration(times.prep) if times.prep is not None else "",
        "cookTime": iso_duration(times.cook) if times.cook is not None else "",
        "totalTime": iso_duration(times.total) if times.total is not None else "",
        "recipeYield": _yield(dish),
        "recipeCategory": recipe.course,
        "recipeCuisine": recipe.cuisine,
        "keywords": ", ".join(recipe.tags),
        "recipeIngredient": list(dish.ingredient_texts),
        "recipeInstructions": _instructions(dish, url, _step_images(dish, base, photos)),
        "video": _video(dish, film, photos, base),
        "nutrition": _nutrition(dish.label),
        "suitableForDiet": [f"https://schema.org/{DIETS[d]}" for d in dish.diets if d in DIETS],
        "tool": list(recipe.tools),
    }
    return _said(node)


def crumbs_node(trail: Sequence[tuple[str, str]], base: str) -> Node:
    """The way to a page: words and the file of each step, the page itself last."""
    return {
        "@type": "BreadcrumbList",
        "itemListElement": [
            {
                "@type": "ListItem",
                "position": n,
                "name": words,
                "item": address.absolute(base, path),
            }
            for n, (words, path) in enumerate(trail, 1)
        ],
    }


def list_node(name: str, dishes: Sequence[Dish], base: str, start: int = 1) -> Node:
    """The recipes of a list, or of a page of it, in its order; ``start`` is the first's place."""
    return {
        "@type": "ItemList",
        "name": name,
        "numberOfItems": len(dishes),
        "itemListElement": [
            {
                "@type": "ListItem",
                "position": n,
                "name": dish.recipe.title,
                "url": address.absolute(base, address.recipe(dish.recipe.slug)),
            }
            for n, dish in enumerate(dishes, start)
        ],
    }


def site_node(settings: Settings) -> Node:
    """The site itself, for the home page."""
    node = {
        "@type": "WebSite",
        "url": address.absolute(settings.address, address.HOME) if settings.address else "",
        "name": settings.title,
        "description": settings.description,
        "inLanguage": settings.language,
    }
    return _said(node)


def person_node(author: Author, base: str) -> Node:
    """An author, for their own page."""
    url = address.absolute(base, address.author(author.key)) if base else ""
    known = f"{url}#person" if url else ""
    return _said(
        {
            "@type": "Person",
            "@id": known,
            "name": author.name,
            "description": author.about,
            "url": url,
        }
    )


def profile_node(author: Author, base: str) -> Node:
    """The page about an author, whose main thing is the person."""
    person = person_node(author, base)
    return _said({"@type": "ProfilePage", "url": person.get("url", ""), "mainEntity": person})


def _said(node: Node) -> Node:
    return {key: value for key, value in node.items() if value not in ("", [], None, {})}


def _images(photo: PhotoSet | None, base: str) -> list[str]:
    if photo is None or not base:
        return []
    return [
        address.absolute(base, photo.crops[shape])
        for shape in ("1x1", "4x3", "16x9")
        if shape in photo.crops
    ]


def _person(key: str, settings: Settings) -> Node:
    author = settings.authors.get(key)
    if author is None:
        return {"@type": "Person", "name": key} if key else {}
    node = person_node(author, settings.address)
    node.pop("description", None)
    return node


def _yield(dish: Dish) -> list[str]:
    makes = dish.recipe.makes
    return [str(dish.recipe.serves), *([makes.text] if makes else [])]


def _video(dish: Dish, film: Film | None, photos: Mapping[str, PhotoSet], base: str) -> Node:
    """The film with a clip for each step that it shows."""
    recipe, video = dish.recipe, dish.recipe.video
    still = photos.get(beside(recipe.file, video.poster.file)) if video else None
    if video is None or film is None or still is None or not base:
        return {}
    page = address.absolute(base, address.recipe(recipe.slug))
    day = video.published or recipe.published
    content = address.absolute(base, film.path) if film.path else video.address
    played = urlsplit(content).path.lower().endswith(PLAYED)
    words = {step.number: step.text for part in dish.method for step in part.steps}
    ends = [*(second for _, second in video.steps[1:]), video.seconds]
    clips = [
        {
            "@type": "Clip",
            "name": f"Step {number}: {_short(words[number])}",
            "startOffset": second,
            "endOffset": max(end, second + 1),
            "url": f"{page}?film={second}",
        }
        for (number, second), end in zip(video.steps, ends, strict=False)
        if number in words
    ]
    return _said(
        {
            "@type": "VideoObject",
            "name": video.title,
            "description": video.alt,
            "thumbnailUrl": [address.absolute(base, still.crops["whole"])],
            "uploadDate": instant(day) if day else "",
            "duration": iso_seconds(video.seconds),
            "contentUrl": content if played else "",
            "url": "" if played else content,
            "transcript": video.transcript,
            "hasPart": clips,
        }
    )


def iso_seconds(seconds: int) -> str:
    """Seconds as ISO 8601 has them.

    >>> iso_seconds(65)
    'PT1M5S'
    """
    minutes, rest = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    parts = ((hours, "H"), (minutes, "M"), (rest, "S"))
    return "PT" + ("".join(f"{n}{unit}" for n, unit in parts if n) or "0S")


def _short(text: str, most: int = 60) -> str:
    """The first words of a step."""
    return text if len(text) <= most else text[:most].rsplit(" ", 1)[0].rstrip(" ,;:") + " …"


def _step_images(dish: Dish, base: str, photos: Mapping[str, PhotoSet]) -> dict[int, list[str]]:
    """The pictures of each step, by its number."""
    found: dict[int, list[str]] = {}
    for step in dish.recipe.steps if base else ():
        for name in step.pictures:
            photo = photos.get(beside(dish.recipe.file, name))
            if photo is not None:
                path = photo.crops["whole"]
                found.setdefault(step.number, []).append(address.absolute(base, path))
    return found


def _instructions(dish: Dish, url: str, images: Mapping[int, list[str]]) -> list[Node]:
    method = dish.method

    def steps(part: MethodPartView) -> list[Node]:
        nodes = []
        for step in part.steps:
            node: Node = {"@type": "HowToStep"}
            if url:
                node["url"] = f"{url}#step-{step.number}"
            if step.text:
                node["text"] = step.text
            if step.number in images:
                node["image"] = images[step.number]
            nodes.append(node)
        return nodes

    if not any(part.name for part in method):
        return [node for part in method for node in steps(part)]
    found: list[Node] = []
    for part in method:
        if part.name:
            found.append(
                {"@type": "HowToSection", "name": part.name, "itemListElement": steps(part)}
            )
        else:
            found += steps(part)
    return found


def _nutrition(label: Label) -> Node:
    said: Node = {}
    for figure in label.per_serving:
        exact = figure.printed[:1].isdigit()
        if figure.value is None or not figure.complete or not exact:
            continue  # "at least" and "less than" can't be said here
        if figure.key == "energy_kcal":
            unit = "kcal" if "kcal" in figure.printed else "calories"
            number = re.search(r"\d[\d\N{NO-BREAK SPACE}  ,]*", figure.printed)
            if number:
                said["calories"] = f"{number[0].strip()} {unit}"
        elif figure.key in NUTRIENTS:
            said[NUTRIENTS[figure.key]] = figure.printed
    if not said:
        return {}
    return {"@type": "NutritionInformation", "servingSize": label.serving, **said}
