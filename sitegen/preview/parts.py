"""The part of a file that a player asks for: it can move within a film only if it is given parts."""

from __future__ import annotations

import re


def part_of(asked: str, length: int) -> tuple[int, int] | None:
    """First and last byte of one range of bytes (RFC 9110, 14.1.2); None: send the whole.

    >>> part_of("bytes=100-", 1000), part_of("bytes=-10", 1000), part_of("bytes=0-9", 1000)
    ((100, 999), (990, 999), (0, 9))
    """
    found = re.fullmatch(r"bytes=(\d*)-(\d*)", asked.strip())
    if not found or not (found[1] or found[2]):
        return None
    if not found[1]:
        first, last = max(length - int(found[2]), 0), length - 1
    else:
        first, last = int(found[1]), min(int(found[2] or length - 1), length - 1)
    return (first, last) if first <= last else None
