"""How templates are compiled: as Jinja does it, but with less work for each thing that is printed.

Jinja hands on every word of a page by itself, through all the blocks and parts around it, and makes
an object of every escaped text. Here a block is put together before it is handed on, and text without
a sign to escape is printed as it is.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from functools import cached_property, partial
from types import FunctionType
from typing import Any

from jinja2 import Environment, Template
from jinja2.compiler import CodeGenerator, Frame
from jinja2.meta import find_referenced_templates
from jinja2.nodes import Expr, Node
from jinja2.nodes import Template as Root
from jinja2.runtime import Context, Macro, new_context
from markupsafe import Markup, escape

_sign = re.compile("[&<>\"']").search


def written(value: Any) -> str:
    """A value as HTML: what :func:`markupsafe.escape` gives, but for the type of plain text.

    >>> written("fish & chips"), written(4), written(Markup("<b>"))
    (Markup('fish &amp; chips'), '4', Markup('<b>'))
    """
    kind = type(value)
    if kind is Markup:
        return value  # type: ignore[no-any-return]
    if kind is str and not _sign(value):
        return value  # type: ignore[no-any-return]
    return str(value) if kind is int else escape(value)


_NAMED = "named_templates"


class Generator(CodeGenerator):
    """Writes the Python code of a template."""

    def visit_Template(self, node: Root, frame: Frame | None = None) -> None:
        """A whole template; which others it names is written down with it."""
        super().visit_Template(node, frame)
        named = sorted({name for name in find_referenced_templates(node) if name})
        self.writeline(f"{_NAMED} = {named!r}")

    def blockvisit(self, nodes: Iterable[Node], frame: Frame) -> None:
        """The statements of a template, a block or what stands in one of these."""
        if frame.buffer is not None or frame.require_output_check:  # a template that extends one
            super().blockvisit(nodes, frame)
            return
        self.buffer(frame)
        super().blockvisit(nodes, frame)
        self.writeline(f"yield concat({frame.buffer})")
        frame.buffer = None

    def _output_child_pre(self, node: Expr, frame: Frame, finalize: Any) -> None:
        if frame.eval_ctx.volatile or not frame.eval_ctx.autoescape or finalize.src is not None:
            super()._output_child_pre(node, frame, finalize)
        else:
            self.write("environment.written(")


class QuickContext(Context):
    """What a template knows; what it calls is mostly a plain function or a macro."""

    def call(self, called: Callable[..., Any], /, *args: Any, **more: Any) -> Any:
        """What the template calls, given as Jinja gives it."""
        kind = type(called)
        if kind is Macro:
            args = (self.eval_ctx, *args)
        elif kind not in _DIRECT or hasattr(called, "jinja_pass_arg"):
            return super().call(called, *args, **more)
        if more:
            more.pop("_block_vars", None)
            more.pop("_loop_vars", None)
        return called(*args, **more)


_DIRECT = (FunctionType, partial)


class QuickTemplate(Template):
    """A template; what every template knows is gathered once, and not for every page."""

    def new_context(
        self,
        vars: dict[str, Any] | None = None,
        shared: bool = False,
        locals: Mapping[str, Any] | None = None,
    ) -> Context:
        """What the template is given, over what every template knows."""
        given = vars or {}
        if not shared:
            given = self._everywhere | given
        # Without globals, as all templates of an environment have the same: Jinja would look for
        # differences each time that one imports another.
        return new_context(self.environment, self.name, self.blocks, given, True, None, locals)

    @cached_property
    def _everywhere(self) -> dict[str, Any]:
        return dict(self.globals)


class Quick(Environment):
    """An environment whose templates are compiled so."""

    code_generator_class = Generator
    context_class = QuickContext
    template_class = QuickTemplate
    written = staticmethod(written)

    def named(self, template: str) -> list[str]:
        """The templates that one extends, includes or imports, as it names them."""
        module = self.get_template(template).root_render_func.__globals__
        names: list[str] = module[_NAMED]
        return names
