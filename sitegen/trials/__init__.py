"""The test log: what was cooked, by which recipe, who tasted it and what they said.

A recipe's log is a file of its own beside it, ``rye-loaf.trials.yaml`` beside ``rye-loaf.md``, and not
part of its front matter, because

- a log grows for years: ten trials, each with the recipe as it stood, would bury the recipe;
- it is private. What is not in the published file can't slip onto the page, into a feed or the search
  index, and a log can be kept out of a shared repository by one line of an ignore file;
- the two have different hands and days: a correction to a recipe touches no tasting note.

Each entry holds the recipe's own text, in full, with that of the recipes that it uses. So a trial can be
worked out again by today's larder, entries can be moved, copied and deleted by hand, and what changed
between two trials is worked out, never written down from memory. A recipe has 2 to 4 kB, so the
largest log that is read (1 MB) has room for some three hundred trials.
"""
