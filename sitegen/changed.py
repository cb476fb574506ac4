"""A frozen thing with some of its fields changed, quickly."""

from __future__ import annotations

from dataclasses import fields
from functools import cache
from operator import attrgetter
from typing import Any, TypeVar

T = TypeVar("T")


def changed(thing: T, **changes: Any) -> T:
    """As :func:`dataclasses.replace`, for dataclasses all of whose fields are given at the making.

    It takes half the time, which counts where it is done for every figure of every step.
    """
    kind: Any = type(thing)
    names, values = _fields(kind)
    made: T = kind(**{**dict(zip(names, values(thing), strict=True)), **changes})
    return made


@cache
def _fields(kind: type[Any]) -> tuple[tuple[str, ...], attrgetter[tuple[Any, ...]]]:
    names = tuple(field.name for field in fields(kind))
    return names, attrgetter(*names)
