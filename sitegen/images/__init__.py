"""A photo as the author gave it → the sizes, crops and formats that a page needs."""
