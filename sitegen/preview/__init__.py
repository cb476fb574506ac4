"""See the site while writing it: a local server that follows every save."""
