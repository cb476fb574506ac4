"""Who paid: what a page says near its top, by whatever its links and its author say.

Readers must be told plainly, and before they meet the link: common practice, and in many places law
(such as 16 CFR part 255 in the United States and the CAP Code in the United Kingdom, both from memory).
"""

from __future__ import annotations

from sitegen.dish import Dish
from sitegen.late import noted
from sitegen.pages.links import is_paid, links_in
from sitegen.site import Settings


def disclosure(dish: Dish, settings: Settings) -> str:
    """The author's own words, the site's where a link is paid for, or nothing."""
    recipe = dish.recipe
    if recipe.disclosure:
        return recipe.disclosure
    hosts = settings.paid_hosts
    paid = any(is_paid(href, title, hosts) for href, title in _links(dish))
    return settings.disclosure if paid else ""


@noted(Dish)
def _links(dish: Dish) -> tuple[tuple[str, str], ...]:
    """Address and title of every link in a dish's words."""
    texts = [dish.recipe.intro, *(part.lead for part in dish.method)]
    texts += [part for section in dish.sections for part in section.texts]
    for part in dish.method:
        for step in part.steps:
            texts += [piece for piece in step.pieces if isinstance(piece, str)]
    return tuple([link for text in texts if "<a" in text for link in links_in(text)])
