"""The photos, pictures inside texts and films of a site, kept by the file that names them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from sitegen.collection import PlainPage
from sitegen.dish import Dish
from sitegen.gathering.reads import Read
from sitegen.memory import Memory, Same, stamp
from sitegen.problems import Problem
from sitegen.reading.pictures import beside
from sitegen.reading.recipe import Photo, Recipe
from sitegen.workroom import Workroom

if TYPE_CHECKING:
    from sitegen.images.cache import Cache
    from sitegen.images.film import Film
    from sitegen.images.photos import Photograph


class Pictures:
    """What the texts of a site show."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._memory = Memory()
        self._own: dict[str, Photograph] = {}
        self._inside: dict[str, list[tuple[str, Photograph]]] = {}
        self._films: dict[str, Film] = {}
        self.problems: dict[str, list[Problem]] = {}
        """By the file that names the picture or film; only files that have any."""

    def renew(
        self, reads: Mapping[str, Read], again: Iterable[str], pages: Iterable[PlainPage]
    ) -> None:
        """Look again at what these recipe files show, and at what the pages do."""
        for file in again:
            self._forget(file)
            read = reads.get(file)
            if read is not None and read.recipe is not None:
                self._look_at_recipe(read.recipe)
        for page in pages:
            self._forget(page.file)
            self._look_into(page)

    def keep_only(self, files: Iterable[str]) -> None:
        """Forget the files that are not there any more."""
        known = set(files)
        for file in {*self._own, *self._inside, *self._films, *self.problems} - known:
            self._forget(file)

    @property
    def showing(self) -> set[str]:
        """The files that show anything, or would if it were there."""
        return {*self._own, *self._inside, *self._films, *self.problems}

    def photographs(self, reads: Mapping[str, Read]) -> dict[str, Photograph]:
        """Every photograph by its recipe's slug, then every picture in a text by its file."""
        found: dict[str, Photograph] = {}
        for file in sorted(self._own):
            found.setdefault(reads[file].slug, self._own[file])
        for file in (*sorted(f for f in self._inside if f in reads), *sorted(self._inside)):
            for key, photograph in self._inside[file]:
                found.setdefault(key, photograph)
        return found

    def films(self, reads: Mapping[str, Read]) -> dict[str, Film]:
        """Every film by its recipe's slug."""
        found: dict[str, Film] = {}
        for file in sorted(self._films):
            found.setdefault(reads[file].slug, self._films[file])
        return found

    def _forget(self, file: str) -> None:
        for kept in (self._own, self._inside, self._films, self.problems):
            kept.pop(file, None)

    def _say(self, file: str, found: Iterable[Problem]) -> None:
        if problems := list(found):
            self.problems.setdefault(file, []).extend(problems)

    def _look_at_recipe(self, recipe: Recipe) -> None:
        if recipe.photo:
            from sitegen.images.photos import photograph

            path = (self._folder / recipe.file).parent / recipe.photo.file
            found, wrong = self._memory.recall(
                f"photo {recipe.file}",
                (Same(recipe), stamp(path)),
                partial(photograph, recipe, self._folder, self._cache()),
            )
            self._say(recipe.file, wrong)
            if found is not None:
                self._own[recipe.file] = found
        self._look_into(recipe)
        if recipe.video:
            self._look_at_film(recipe)

    def _look_into(self, text: Recipe | PlainPage) -> None:
        for picture in pictures_of(text):
            from sitegen.images.photos import picture_in_text

            key = beside(text.file, picture.file)
            found, wrong = self._memory.recall(
                f"picture {text.file} {picture.place}",
                (picture, stamp(self._folder / key)),
                partial(picture_in_text, picture, text.file, self._folder, self._cache()),
            )
            self._say(text.file, wrong)
            if found is not None:
                self._inside.setdefault(text.file, []).append((key, found))

    def _look_at_film(self, recipe: Recipe) -> None:
        from sitegen.images.film import film

        assert recipe.video is not None
        names = filter(None, (recipe.video.file, recipe.video.captions))
        stamps = tuple(stamp(self._folder / beside(recipe.file, name)) for name in names)
        found, wrong = self._memory.recall(
            f"film {recipe.file}", (Same(recipe), *stamps), partial(film, recipe, self._folder)
        )
        self._say(recipe.file, wrong)
        if found is not None:
            self._films[recipe.file] = found

    def _cache(self) -> Cache:
        from sitegen.images.cache import Cache

        return Cache(Workroom(self._folder).cache)


def pictures_of(text: Recipe | PlainPage) -> tuple[Photo, ...]:
    """The pictures of a text, and its film's still."""
    still = (text.video.poster,) if isinstance(text, Recipe) and text.video else ()
    return (*text.pictures, *still)


def seen(
    dishes: Mapping[str, Dish], pages: Iterable[PlainPage], known: Mapping[str, Photograph]
) -> Iterator[str]:
    """The keys of the pictures that the pages show: no draft's."""
    if not known:
        return
    yield from (slug for slug in dishes if slug in known)
    texts: list[Recipe | PlainPage] = [dish.recipe for dish in dishes.values()]
    for text in (*texts, *pages):
        for picture in pictures_of(text):
            key = beside(text.file, picture.file)
            if key in known:
                yield key
