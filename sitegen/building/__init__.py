"""From laid-out pages to a folder on disk: staged whole, put in place, and nothing else touched."""
