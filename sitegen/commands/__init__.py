"""One command, one file. Each imports what it needs when it runs, so that help stays quick."""
