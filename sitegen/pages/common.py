"""What every page of a site has in common: its frame, its links, its policy."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from functools import cached_property, lru_cache, partial
from typing import TYPE_CHECKING, Any

from markupsafe import Markup

from sitegen.dish import Dish
from sitegen.images.photoset import PhotoSet
from sitegen.pages import address, jsonld, sharing
from sitegen.pages.frame import PARTS, frame_of
from sitegen.pages.links import link_writer
from sitegen.pages.menu import Target, targets
from sitegen.pages.page import Page
from sitegen.pages.theme import Theme

if TYPE_CHECKING:
    from sitegen.collection import Collection
    from sitegen.reading.recipe import Recipe

TEXT_SIZES = "(min-width: 42rem) 38rem, 92vw"
"""How wide a picture inside a text is shown."""
SITE_FILE = "content/site.yaml"
FRAMED = "theme:page.html"

POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' data:",
        "media-src 'self'",
        "connect-src 'self'",
        "manifest-src 'self'",
        "worker-src 'self'",
        "base-uri 'none'",
        "form-action 'self'",
    )
)
"""The content security policy of every page; it holds from disk as well."""


@lru_cache(maxsize=64)
def _policy(media_from: str) -> str:
    return POLICY.replace("media-src 'self'", f"media-src 'self' {media_from}".rstrip())


class Common:
    """A site, and what its pages share."""

    def __init__(
        self,
        collection: Collection,
        theme: Theme,
        photos: Mapping[str, PhotoSet],
        preview: bool,
    ) -> None:
        self.collection, self.theme, self.photos = collection, theme, photos
        self.settings = collection.site.settings
        self.preview = preview
        self.known = collection.dishes.keys()

    @cached_property
    def markdown_pages(self) -> Mapping[str, str]:
        """The site's Markdown files and the pages that are made of them."""
        return markdown_pages(self.collection)

    @cached_property
    def plain_titles(self) -> Sequence[tuple[str, str]]:
        """Path and title of each plain page."""
        return [(address.plain(p.slug), p.title) for p in self.collection.plain_pages]

    @cached_property
    def dishes(self) -> tuple[Dish, ...]:
        """In title order, as the collection keeps them."""
        return tuple(self.collection.dishes.values())

    def writer(self, file: str, here: str, *, pictures: bool = True) -> Callable[[str], Markup]:
        """What turns the HTML of ``file`` into HTML for the page ``here``."""

        def draw(photo: PhotoSet, alt: str) -> str:
            shown = replace(photo, alt=alt)
            return str(self.picture(shown, partial(address.relative, here), TEXT_SIZES))

        return link_writer(
            file,
            here,
            self.markdown_pages,
            paying=self.settings.paid_hosts,
            photos=self.photos,
            draw=draw if pictures else None,
        )

    @cached_property
    def picture(self) -> Callable[..., str]:
        """The theme's macro that draws a picture in every format."""
        module = self.theme.environment.get_template("parts/photo.html").module
        macro: Callable[..., str] = module.picture  # type: ignore[attr-defined]
        return macro

    def render(
        self,
        template: str,
        here: str,
        kind: str,
        title: str,
        description: str,
        *,
        nodes: Sequence[jsonld.Node] = (),
        inputs: tuple[str, ...],
        hidden: bool = False,
        rooted: bool = False,
        canonical_of: str = "",
        shares: Recipe | None = None,
        shows: PhotoSet | None = None,
        **more: Any,
    ) -> Page:
        """A page of a template, in the frame that all have; ``more`` is what the template is given besides."""
        base = self.settings.address
        frame = frame_of(
            self.theme, self.settings, self.menu_targets, self.plain_titles, here, rooted
        )
        canonical = address.absolute(base, canonical_of or here) if base else ""
        shared = not (hidden or self.preview)
        context: dict[str, Any] = {
            **frame.given,
            "frame": frame,
            "policy": _policy(more.pop("media_from", "")),
            "here": here,
            "page_title": title,
            "page_description": description,
            "canonical": canonical,
            "hidden": not shared,
            "share": sharing.properties(
                self.settings,
                title,
                description,
                canonical,
                recipe=shares,
                photo=shows,
                icon=self.theme.asset(sharing.ICON) if self.theme.has(sharing.ICON) else "",
            )
            if shared
            else (),
            "worker": "" if self.preview or rooted else frame.given["to"](address.WORKER),
            "structured": jsonld.script_text(jsonld.graph(nodes)) if nodes else "",
            "body_class": f"page-{kind}",
            **more,
        }
        html = self.theme.environment.get_template(template).render(context)
        if self.settings.minify:
            from sitegen.pages.small import small_content

            content = small_content(html)
        else:
            content = html.encode()
        return Page(here, content, kind, (*inputs, *self._drawn_with(template)))

    @cached_property
    def menu_targets(self) -> tuple[Target, ...]:
        """What the links of the head lead to."""
        return tuple(targets(self.settings, self.markdown_pages))

    def _drawn_with(self, template: str) -> tuple[str, ...]:
        """``theme:NAME`` of every template that a page of this one could be drawn with."""
        named = self.theme.references(template)
        return (*named, *map("theme:{}".format, PARTS)) if FRAMED in named else named

    def recipe_files(self, dish: Dish, users: Sequence[Dish]) -> tuple[str, ...]:
        """The author's files that a page of a dish is made of."""
        used = [self.collection.dishes[s] for s in dish.uses if s in self.known]
        return (SITE_FILE, dish.recipe.file, *(d.recipe.file for d in (*used, *users)))

    def all_files(self) -> tuple[str, ...]:
        """Every file of the author's that has a page."""
        plain = (page.file for page in self.collection.plain_pages)
        return (SITE_FILE, *(dish.recipe.file for dish in self.dishes), *plain)


def markdown_pages(collection: Collection) -> dict[str, str]:
    """The site's Markdown files and the pages that are made of them."""
    return {dish.recipe.file: address.recipe(slug) for slug, dish in collection.dishes.items()} | {
        page.file: address.plain(page.slug) for page in collection.plain_pages
    }
