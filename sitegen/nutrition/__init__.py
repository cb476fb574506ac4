"""A dish's nutrients, labels, claims and allergen statements."""
