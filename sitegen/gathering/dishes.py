"""The dishes of a site, each worked out after those that it is made with, and only if it must be."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from sitegen import faults
from sitegen.dish import Dish
from sitegen.gathering.reads import Read
from sitegen.kitchen.work_out import work_out
from sitegen.larder.larder import Larder
from sitegen.problems import Problem
from sitegen.reading.recipe import Recipe
from sitegen.readthrough import read_through
from sitegen.references import dependency_order
from sitegen.site import Settings

Worked = tuple[Dish | None, Sequence[Problem]]


class Dishes:
    """What the recipes of a site come to."""

    def __init__(self) -> None:
        self._inputs: tuple[Settings, Larder] | None = None
        self._recipes: dict[str, Recipe] = {}
        self._order: dict[str, int] = {}
        self._users: dict[str, set[str]] = {}
        self._worked: dict[str, Worked] = {}
        self.wrong: Sequence[Problem] = ()
        """What is wrong with how recipes refer to each other."""
        self._wrong_in: set[str] = set()
        self.by_slug: dict[str, Dish] = {}
        """In no order that means anything."""

    def renew(
        self,
        reads: Mapping[str, Read],
        changed: Mapping[str, Read | None],
        files: Iterable[str],
        inputs: tuple[Settings, Larder],
        leaves: Callable[[str], Worked | None],
        progress: Callable[[int, int], None],
    ) -> set[str]:
        """Work out what ``changed``, given with what it was before, and all that is made with it.

        ``leaves`` gives what is known of a file without working it out. Says which files' dishes or
        problems may be others now; everything, if the shape of the site is another.
        """
        anew = self._inputs is None or any(
            a is not b for a, b in zip(self._inputs, inputs, strict=True)
        )
        shaped = anew or any(self._is_reshaped(f, old, reads) for f, old in changed.items())
        again = set(changed)
        if shaped:
            again |= self._arrange(reads, files)
        else:
            for file in self._recipes.keys() & changed.keys():
                recipe = reads[file].recipe
                assert recipe is not None
                self._recipes[file] = recipe
        todo = set(self._order) if anew else self._with_users(again, reads)
        self._inputs = inputs
        for file in self._worked.keys() - self._order.keys():
            del self._worked[file]
        jobs = sorted(todo & self._order.keys(), key=self._order.__getitem__)
        before = self.by_slug
        self.by_slug = {
            self._recipes[f].slug: d for f, (d, _) in self._worked.items() if d and f not in todo
        }
        for count, file in enumerate(jobs, start=1):
            known = leaves(file)
            self._worked[file] = known if known is not None else self._work(reads[file], inputs)
            dish = self._worked[file][0]
            if dish is not None:
                self.by_slug[reads[file].slug] = dish
            progress(count, len(jobs))
        if shaped or before.keys() != self.by_slug.keys():
            return set(reads) | again
        return again | todo

    def problems(self, file: str) -> Iterator[Problem]:
        """What was found in working a recipe out, and in reading it through."""
        _, found = self._worked.get(file, (None, ()))
        if file in self._wrong_in or any(p.rule == "reference-missing" for p in found):
            yield from _said_once(found, self.wrong)
        else:
            yield from found

    def _is_reshaped(self, file: str, old: Read | None, reads: Mapping[str, Read]) -> bool:
        new = reads.get(file)
        if old is None or new is None or old.shape != new.shape:
            return True
        return file in self._wrong_in  # its problems have other places now

    def _arrange(self, reads: Mapping[str, Read], files: Iterable[str]) -> set[str]:
        """Find the order anew. Gives the files that are worked out now and were not, or were."""
        recipes: dict[str, Recipe] = {}
        slugs: set[str] = set()
        self._users = {}
        for file, read in reads.items():
            for reference in read.uses:
                self._users.setdefault(reference.slug, set()).add(file)
            if read.recipe is not None and read.slug not in slugs:
                slugs.add(read.slug)
                recipes[file] = read.recipe
        uses = {file: reads[file].uses for file in recipes}
        order, self.wrong = dependency_order(recipes, set(files), uses)
        before = self._order.keys()
        self._recipes = recipes
        self._order = {file: place for place, file in enumerate(order)}
        self._wrong_in = {problem.file for problem in self.wrong}
        return before ^ self._order.keys()

    def _with_users(self, files: Collection[str], reads: Mapping[str, Read]) -> set[str]:
        """Files, and those of all recipes that are made with them, however far round."""
        from sitegen.reading.read import slug_of

        found, waiting = set(files), list(files)
        while waiting:
            fresh = self._users.get(slug_of(waiting.pop()), set()) - found
            found |= fresh
            waiting += fresh
        return found

    def _work(self, read: Read, inputs: tuple[Settings, Larder]) -> Worked:
        """One recipe worked out and read through."""
        settings, larder = inputs
        recipe, source = read.recipe, read.source
        assert recipe is not None
        assert source is not None
        used = {reference.slug for reference in read.uses}
        others = {slug: self.by_slug[slug] for slug in sorted(used) if slug in self.by_slug}
        try:
            dish, problems = work_out(recipe, larder, settings, others)
            return dish, [*problems, *read_through(dish, source, settings, larder)]
        except Exception as error:  # ours; the other recipes must not suffer for it
            return None, (faults.of_file(read.file, error),)


def _said_once(found: Iterable[Problem], said: Sequence[Problem]) -> Iterator[Problem]:
    """A dish's problems, without those of references that have been told of in ``said``.

    What is left of them are references to a recipe that is there and has errors of its own.
    """
    places = {(p.file, p.line) for p in said}
    for problem in found:
        if problem.rule != "reference-missing":
            yield problem
        elif (problem.file, problem.line) not in places:
            yield replace(
                problem,
                rule="reference-broken",
                message="the recipe used here has errors, so this one can't be worked out",
                hint="mend that recipe first",
            )
