"""The two pages of a recipe: the page itself, and its card."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cached_property, partial
from typing import Any

from markupsafe import Markup

from sitegen.dish import Dish
from sitegen.finding.related import Relations
from sitegen.pages import address, jsonld
from sitegen.pages.common import Common
from sitegen.pages.disclosing import disclosure
from sitegen.pages.environment import sentence
from sitegen.pages.film import film_origin, film_view
from sitegen.pages.page import Page
from sitegen.pages.theme import CARD_SHEET
from sitegen.pages.view import Item, Listing, listings, recipe_view

RELATED = "<\x00related>"
"""Stands in a recipe's frame where its related recipes go; no text of an author's has a NUL.

Like a tag, so that the line's end beside it is seen to be no spare space."""


_GAP = RELATED.encode()


class Later(Sequence[Listing]):
    """A list that is made when a template looks into it."""

    def __init__(self, make: Callable[[], Sequence[Listing]]) -> None:
        self._make = make

    @cached_property
    def _made(self) -> Sequence[Listing]:
        return self._make()

    def __len__(self) -> int:
        return len(self._made)

    def __getitem__(self, which: Any) -> Any:
        return self._made[which]


class RecipePages(Common):
    """Lays out what is about one recipe."""

    earlier: Relations | None = None
    """What was known of the site's relations before its last change."""

    @cached_property
    def relations(self) -> Relations:
        """Which recipes are alike."""
        return Relations.after(self.collection.dishes, self.earlier)

    def recipe(self, dish: Dish) -> Page:
        """A recipe's page, whole."""
        return self.filled(self.frame(dish), dish)

    def frame(self, dish: Dish) -> Page:
        """A recipe's page but for its related recipes, which the whole site must be known for."""
        recipe = dish.recipe
        here = address.recipe(recipe.slug)
        trail = [("Recipes", address.ALL_RECIPES)]
        if recipe.course:
            trail.append((sentence(recipe.course), address.course(recipe.course)))
        trail.append((recipe.title, here))
        photo = self.photos.get(recipe.slug)
        film = self.collection.films.get(recipe.slug)
        nodes = [jsonld.recipe_node(dish, self.settings, photo, self.photos, film)]
        if self.settings.address:
            nodes.append(jsonld.crumbs_node(trail, self.settings.address))
        users = self.users(dish)
        return self.render(
            "recipe.html",
            here,
            "recipe",
            recipe.title,
            recipe.summary,
            nodes=nodes,
            inputs=self.recipe_files(dish, users),
            hidden=recipe.draft,
            shares=recipe,
            shows=photo,
            skip_to="recipe",
            tested=self.collection.tested.get(recipe.slug, 0),
            crumbs=[
                Item(words, "" if path == here else address.relative(here, path))
                for words, path in trail
            ],
            used_in=[
                Item(d.recipe.title, address.relative(here, address.recipe(d.recipe.slug)))
                for d in users
            ],
            related=Later(partial(self.related, dish)),
            related_part=Markup(RELATED),
            **self.recipe_context(dish, here),
        )

    def filled(self, frame: Page, dish: Dish) -> Page:
        """A recipe's frame with its related recipes put in."""
        at = frame.content.rfind(_GAP)  # from behind: it stands near the end
        if at < 0:
            return frame
        near = self.near(dish)
        part = self._related_part(near, frame.path).encode()
        after = at + len(_GAP) + (not part and frame.content[at + len(_GAP) :][:1] == b"\n")
        content = b"".join((frame.content[:at], part, frame.content[after:]))
        files = tuple([other.recipe.file for other in near])
        return Page(frame.path, content, frame.kind, (*frame.inputs, *files))

    def _related_part(self, near: Sequence[Dish], here: str) -> str:
        part = (
            self.theme.environment.get_template("parts/related.html")
            .render(
                related=listings(near, self.photos, here),
                to=address.namer(here),
            )
            .strip()
        )
        if not self.settings.minify:
            return part
        from sitegen.pages.small import small_page

        return small_page(part)

    def users(self, dish: Dish) -> list[Dish]:
        """The dishes that a dish goes into."""
        slugs = self.collection.used_in.get(dish.recipe.slug, ())
        return [self.collection.dishes[slug] for slug in slugs if slug in self.known]

    def near(self, dish: Dish) -> tuple[Dish, ...]:
        """The dishes that are related to one, but for those that it goes into."""
        users = frozenset(user.recipe.slug for user in self.users(dish))
        return self.relations.of(dish.recipe.slug, but=users)

    def related(self, dish: Dish) -> list[Listing]:
        """What a template that draws the related recipes itself is given."""
        here = address.recipe(dish.recipe.slug)
        return listings(self.near(dish), self.photos, here)

    def card(self, dish: Dish) -> Page:
        """The printable sheet of a recipe."""
        recipe = dish.recipe
        here = address.card(recipe.slug)
        shown = address.absolute(self.settings.address, address.recipe(recipe.slug))
        return self.render(
            "card.html",
            here,
            "card",
            f"{recipe.title}, card",
            recipe.summary,
            inputs=self.recipe_files(dish, ()),
            hidden=True,
            canonical_of=address.recipe(recipe.slug),
            sheets=[CARD_SHEET],
            shown_address=shown.split("://", 1)[-1] if self.settings.address else "",
            **self.recipe_context(dish, here, pictures=False),
        )

    def recipe_context(self, dish: Dish, here: str, *, pictures: bool = True) -> dict[str, Any]:
        """What the templates of page and card are given of a dish."""
        found = self.collection.films.get(dish.recipe.slug) if pictures else None
        film = film_view(dish, found, self.photos, here)
        return {
            "dish": dish,
            "recipe": dish.recipe,
            "view": recipe_view(dish, self.settings, here, self.known),
            "photo": self.photos.get(dish.recipe.slug),
            "us_first": self.settings.units == "us",
            "linked": self.writer(dish.recipe.file, here, pictures=pictures),
            "disclosure": disclosure(dish, self.settings),
            "film": film,
            "media_from": film_origin(film),
        }
