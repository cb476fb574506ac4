"""The rules, in the order in which they are listed and run. To add one: a file here, and a row."""

from __future__ import annotations

from sitegen.readthrough import (
    alt_long,
    alt_missing,
    amount_in_words,
    amount_missing,
    amount_unmarked,
    amount_unmeasurable,
    beans_not_boiled,
    canning_untested,
    claim_untrue,
    cooling_too_slow,
    core_missing,
    core_too_low,
    divided_unsaid,
    energy_unlikely,
    heading_skipped,
    heat_scale_unsaid,
    honey_for_babies,
    ingredient_never_used,
    ingredient_not_listed,
    ingredient_order,
    ingredient_renamed,
    ingredient_unmarked,
    keeping_too_long,
    listed_twice,
    nutrition_gaps,
    oil_kept_too_long,
    oil_too_hot,
    oven_air_dropped,
    oven_air_mixed,
    oven_air_unsaid,
    oven_never_used,
    oven_not_heated,
    oven_pair,
    overnight_unplanned,
    pair_count_weight,
    pair_metric_us,
    pair_volume_weight,
    partly_left_over,
    portion_unusual,
    raising_too_much,
    range_reversed,
    reheating_too_low,
    rest_too_short,
    salt_unlikely,
    spelling_mixed,
    spoon_heaped,
    step_long,
    step_no_sign,
    step_no_time,
    step_number,
    summary_long,
    summary_missing,
    time_total,
    tin_differs,
    tin_too_small,
    tin_unsized,
    title_long,
    title_twice,
    used_up_twice,
    weight_unknown,
    word_alone,
    yield_pieces,
    yield_scoop,
    yield_volume,
    yield_weight,
)
from sitegen.readthrough.rule import Rule, in_no_dish

_INGREDIENTS, _PAIRS, _TIMES, _OVENS = "ingredients", "pairs of figures", "times", "ovens and tins"
_YIELDS, _WORDS, _FIGURES, _SAFETY = "yields", "words", "figures", "safety"

RULES: tuple[Rule, ...] = (
    Rule(
        "ingredient-never-used", "error", ingredient_never_used.check,
        "the cook buys and weighs it, and then does not know where it goes", _INGREDIENTS,
    ),
    Rule(
        "ingredient-unmarked", "advice", ingredient_unmarked.check,
        "amounts in the step save the way back to the list, and only what is in brackets scales",
        _INGREDIENTS,
    ),
    Rule(
        "ingredient-not-listed", "advice", ingredient_not_listed.check,
        "readers shop by the list; allergens and nutrition are worked out from it", _INGREDIENTS,
    ),
    Rule(
        "listed-twice", "advice", listed_twice.check,
        "readers buy and weigh it twice, and the label counts it twice", _INGREDIENTS,
    ),
    Rule(
        "ingredient-order", "advice", ingredient_order.check,
        "a list in the order of use can be set out once and cooked from left to right", _INGREDIENTS,
    ),
    Rule(
        "ingredient-renamed", "advice", ingredient_renamed.check,
        "two names for one thing look like two things", _INGREDIENTS,
    ),
    Rule(
        "used-up-twice", "error", used_up_twice.check,
        "whoever weighs by the list runs out in the middle of cooking", _INGREDIENTS,
    ),
    Rule(
        "partly-left-over", "advice", partly_left_over.check,
        "the rest stands there weighed, and may or may not have been meant to go in", _INGREDIENTS,
    ),
    Rule(
        "divided-unsaid", "advice", divided_unsaid.check,
        "the word tells the cook not to tip it all in at once", _INGREDIENTS,
    ),
    Rule(
        "amount-missing", "advice", amount_missing.check,
        "without an amount it can't be bought, scaled or counted", _INGREDIENTS,
    ),
    Rule(
        "amount-in-words", "error", amount_in_words.check,
        "it is not shopped for, and a reader with an allergy is not told of it", _INGREDIENTS,
    ),
    Rule(
        "amount-unmeasurable", "advice", amount_unmeasurable.check,
        "a glass in one kitchen is two in another", _INGREDIENTS,
    ),
    Rule(
        "amount-unmarked", "advice", amount_unmarked.check,
        "for twice the portions the page would still print this amount", _INGREDIENTS,
    ),
    Rule(
        "pair-volume-weight", "advice", pair_volume_weight.check,
        "half of the readers cook by the one figure and half by the other", _PAIRS,
    ),
    Rule(
        "spoon-heaped", "advice", spoon_heaped.check,
        "one cook's heaped spoon is twice another's, and the grams on the page are those of a level one",
        _PAIRS,
    ),
    Rule(
        "pair-metric-us", "advice", pair_metric_us.check,
        "half of the readers cook by the one figure and half by the other", _PAIRS,
    ),
    Rule(
        "pair-count-weight", "advice", pair_count_weight.check,
        "one of the two is a slip, and everything reckoned from the weight is wrong with it", _PAIRS,
    ),
    Rule(
        "range-reversed", "advice", range_reversed.check,
        "one of the two figures is wrong, and readers can't tell which", _TIMES,
    ),
    Rule(
        "time-total", "advice", time_total.check,
        "readers decide by the time at the head whether dinner will be ready", _TIMES,
    ),
    Rule(
        "rest-too-short", "advice", rest_too_short.check,
        "a wait found half-way through the method spoils the evening", _TIMES,
    ),
    Rule(
        "overnight-unplanned", "advice", overnight_unplanned.check,
        "a night found half-way through the method spoils the evening", _TIMES,
    ),
    Rule(
        "step-no-sign", "advice", step_no_sign.check,
        "stoves and pans differ; what the food looks like does not", _TIMES,
    ),
    Rule(
        "step-no-time", "advice", step_no_time.check,
        "without a time nobody can plan the meal, or knows whether something has gone wrong", _TIMES,
    ),
    Rule(
        "oven-not-heated", "advice", oven_not_heated.check,
        "a cold oven adds a quarter of an hour and changes how things rise", _OVENS,
    ),
    Rule(
        "oven-never-used", "advice", oven_never_used.check,
        "it burns for nothing, or a step has been lost", _OVENS,
    ),
    Rule(
        "oven-air-unsaid", "advice", oven_air_unsaid.check,
        "with the fan on, the same figure is 20 °C more heat", _OVENS,
    ),
    Rule(
        "oven-air-dropped", "error", oven_air_dropped.check,
        "the page would give readers a setting that is 20 °C wrong", _OVENS,
    ),
    Rule(
        "oven-air-mixed", "advice", oven_air_mixed.check,
        "the word may stand after the wrong figure, which makes it 20 °C wrong", _OVENS,
    ),
    Rule(
        "oven-pair", "error", oven_pair.check,
        "one of the two is wrong, and half of the readers bake by it", _OVENS,
    ),
    Rule(
        "heat-scale-unsaid", "advice", heat_scale_unsaid.check,
        "a warm plate at 200 °F is a hot oven at 200 °C, and half of the readers know only one of them",
        _OVENS,
    ),
    Rule(
        "tin-unsized", "advice", tin_unsized.check,
        "in a tin a little wider a cake is a third thinner, and done long before", _OVENS,
    ),
    Rule(
        "tin-differs", "advice", tin_differs.check,
        "one of the two sizes is wrong, and the batch runs over or bakes dry", _OVENS,
    ),
    Rule(
        "tin-too-small", "advice", tin_too_small.check, "it runs over in the oven", _OVENS, of_batch=True,
    ),
    Rule(
        "yield-weight", "advice", yield_weight.check,
        "portions and figures for 100 g are reckoned from the weight of the batch", _YIELDS, of_batch=True,
    ),
    Rule(
        "yield-volume", "advice", yield_volume.check,
        "other recipes take this one by its volume", _YIELDS, of_batch=True,
    ),
    Rule(
        "yield-scoop", "advice", yield_scoop.check,
        "readers who scoop get another number of pieces, and other baking times", _YIELDS, of_batch=True,
    ),
    Rule(
        "yield-pieces", "advice", yield_pieces.check,
        "the figures for a portion are for a number of pieces that nobody can serve", _YIELDS,
    ),
    Rule(
        "portion-unusual", "advice", portion_unusual.check,
        "everything said of a serving hangs on the number of portions", _YIELDS, of_batch=True,
    ),
    Rule(
        "summary-missing", "advice", summary_missing.check,
        "it is what readers see in lists, feeds and search results", _WORDS,
    ),
    Rule(
        "summary-long", "advice", summary_long.check, "the end is cut off where it is shown", _WORDS,
    ),
    Rule(
        "title-long", "advice", title_long.check, "the end is cut off where it is shown", _WORDS,
    ),
    Rule(
        "title-twice", "advice", in_no_dish,
        "in lists, search and result pages readers see two of the same and open the wrong one",
        _WORDS, over_site=title_twice.check,
    ),
    Rule(
        "word-alone", "advice", in_no_dish,
        "the recipe stands on a list of its own, and readers of the other list never see it",
        _WORDS, over_site=word_alone.check,
    ),
    Rule(
        "alt-missing", "advice", alt_missing.check,
        "who can't see the picture is told nothing", _WORDS,
    ),
    Rule(
        "alt-long", "advice", alt_long.check,
        "a screen reader reads it out in one go, and it can't be skimmed", _WORDS,
    ),
    Rule(
        "step-number", "advice", step_number.check,
        "a step that is lost or glued to another is not missed until somebody cooks", _WORDS,
    ),
    Rule(
        "step-long", "advice", step_long.check,
        "with wet hands and a hot pan nobody finds the place again", _WORDS,
    ),
    Rule(
        "heading-skipped", "advice", heading_skipped.check,
        "who listens to the page moves through it by the depth of its headings", _WORDS,
    ),
    Rule(
        "spelling-mixed", "advice", spelling_mixed.check,
        "readers take two words for two things, and search for one of them only", _WORDS,
    ),
    Rule(
        "nutrition-gaps", "advice", nutrition_gaps.check,
        "readers who count what they eat would count too little", _FIGURES, of_batch=True,
    ),
    Rule(
        "weight-unknown", "advice", weight_unknown.check,
        "the other system stays empty for it, and the label can only say 'at least'", _FIGURES,
    ),
    Rule(
        "salt-unlikely", "advice", salt_unlikely.check,
        "a slip of the spoon makes a dish that can't be eaten, or a ferment that spoils", _FIGURES,
        of_batch=True,
    ),
    Rule(
        "raising-too-much", "advice", raising_too_much.check,
        "one wrong letter, tbsp for tsp, and the cake tastes of soap", _FIGURES, of_batch=True,
    ),
    Rule(
        "energy-unlikely", "advice", energy_unlikely.check,
        "a figure that is plainly wrong makes every other one doubtful", _FIGURES, of_batch=True,
    ),
    Rule(
        "core-too-low", "error", core_too_low.check,
        "germs that make people ill survive it", _SAFETY,
    ),
    Rule(
        "core-missing", "advice", core_missing.check,
        "colour and juices do not tell whether it is safe; a thermometer does", _SAFETY,
    ),
    Rule(
        "beans-not-boiled", "error", beans_not_boiled.check,
        "a few undercooked beans are enough to make someone very ill", _SAFETY,
    ),
    Rule(
        "keeping-too-long", "error", keeping_too_long.check,
        "some germs go on growing in the cold, without a smell", _SAFETY,
    ),
    Rule(
        "cooling-too-slow", "error", cooling_too_slow.check,
        "between 4 and 60 °C germs double every 20 minutes or so", _SAFETY,
    ),
    Rule(
        "reheating-too-low", "error", reheating_too_low.check,
        "lukewarm leftovers feed what grew in them", _SAFETY,
    ),
    Rule(
        "oil-kept-too-long", "error", oil_kept_too_long.check,
        "botulism can't be seen, smelled or tasted, and it kills", _SAFETY,
    ),
    Rule(
        "claim-untrue", "error", claim_untrue.check,
        "who must avoid a food believes the word in the title, and eats it", _SAFETY,
    ),
    Rule(
        "oil-too-hot", "error", oil_too_hot.check,
        "a pan of oil that burns can't be put out with water, and takes the kitchen with it", _SAFETY,
    ),
    Rule(
        "honey-for-babies", "error", honey_for_babies.check,
        "infant botulism comes from honey, and no kitchen's heat makes it safe", _SAFETY,
    ),
    Rule(
        "canning-untested", "advice", canning_untested.check,
        "a jar that was not processed enough can hold botulism and look sound", _SAFETY,
    ),
)  # fmt: skip
"""Every rule."""

BY_NAME = {rule.name: rule for rule in RULES}
