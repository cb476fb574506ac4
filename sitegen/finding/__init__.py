"""Ways to a recipe: main ingredients, lists, neighbours, and the index that searching goes by.

Everything here is a pure function of dishes: pages show it, and compute nothing.
"""
