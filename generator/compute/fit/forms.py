"""Linear forms: `L - (b3 + b4) / 2 + 0.35` as exact coefficients, with min() and max() of them.

Goes in: the text of a rule.  Comes out: a Tree whose leaves are linear forms; plain numbers in
a form are millimetres (for forces: kilonewtons), names are dimensions, and products of two
dimensions are refused, so that every sensitivity is a coefficient.
"""

import ast
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import isfinite
from typing import Literal

from generator.model.quantity import NM_PER_MM

# nobody writes a limit so long, and nothing of this length nests too deeply to be read
MOST_CHARACTERS = 200


class FormFault(ValueError):
    """The text of a form cannot be read, or is not linear."""


@dataclass(frozen=True, slots=True)
class Form:
    """sum(coefficient x dimension) + constant, the constant in base units (nm or mN)."""

    terms: tuple[tuple[str, Fraction], ...]
    constant: Fraction

    @staticmethod
    def of(terms: Mapping[str, Fraction], constant: Fraction) -> "Form":
        return Form(tuple(sorted((n, c) for n, c in terms.items() if c)), constant)

    def plus(self, other: "Form", factor: Fraction = Fraction(1)) -> "Form":
        terms = dict(self.terms)
        for name, coefficient in other.terms:
            terms[name] = terms.get(name, Fraction(0)) + factor * coefficient
        return Form.of(terms, self.constant + factor * other.constant)

    def times(self, factor: Fraction) -> "Form":
        return Form.of({n: c * factor for n, c in self.terms}, self.constant * factor)

    @property
    def never_negative(self) -> bool:
        """Proven for all positive dimensions: no coefficient and no constant is negative."""
        return self.constant >= 0 and all(c >= 0 for _, c in self.terms)


class Vocabulary(dict[str, Form]):
    """What each name of a rule stands for, a dimension or a macro such as stop; equal only to itself, so
    that what was read with it can be kept by it."""

    __hash__ = object.__hash__  # type: ignore[assignment]

    def __eq__(self, other: object) -> bool:
        return self is other


@dataclass(frozen=True, slots=True)
class Tree:
    """A form, or the least or greatest of several trees."""

    kind: Literal["form", "min", "max"]
    form: Form | None = None
    parts: tuple["Tree", ...] = ()

    def leaves(self) -> Iterable[Form]:
        if self.form is not None:
            yield self.form
        for part in self.parts:
            yield from part.leaves()


def leaf(form: Form) -> Tree:
    return Tree("form", form)


def minus(left: Tree, right: Tree) -> Tree:
    """left - right, with min and max carried outward (minus turns one into the other)."""
    if left.form is not None and right.form is not None:
        return leaf(left.form.plus(right.form, Fraction(-1)))
    if left.form is None:
        return Tree(left.kind, parts=tuple(minus(part, right) for part in left.parts))
    kind: Literal["min", "max"] = "max" if right.kind == "min" else "min"
    return Tree(kind, parts=tuple(minus(left, part) for part in right.parts))


def parse_form(text: str, words: Mapping[str, Form]) -> Tree:
    """Read a form; `words` says what each name stands for (a dimension, or a macro such as stop).

    Raises FormFault for unknown names, products of dimensions and anything but + - * / min max.
    """
    if len(text) > MOST_CHARACTERS:
        raise FormFault(f"'{text[:20]}...' has more than {MOST_CHARACTERS} characters")
    try:
        body = ast.parse(text.replace(" mm", "").replace(" kN", "").strip(), mode="eval").body
    except (SyntaxError, ValueError) as error:
        raise FormFault(f"'{text}' is not a form") from error
    return _tree(body, words)


def _tree(node: ast.expr, words: Mapping[str, Form]) -> Tree:
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in ("min", "max"):
        if not node.args or node.keywords:
            raise FormFault(f"'{ast.unparse(node)}' has nothing to choose from")
        kind: Literal["min", "max"] = "min" if node.func.id == "min" else "max"
        return Tree(kind, parts=tuple(_tree(argument, words) for argument in node.args))
    return leaf(_form(node, words))


def _form(node: ast.expr, words: Mapping[str, Form]) -> Form:
    match node:
        case ast.Name(id=name):
            if name not in words:
                raise FormFault(f"'{name}' is not a dimension of this rule table")
            return words[name]
        case ast.Constant(value=int() | float() as value) if not isinstance(value, bool) and isfinite(value):
            # repr of a float is its shortest decimal, so this is the number as written
            return Form((), Fraction(repr(value)) * NM_PER_MM)
        case ast.UnaryOp(op=ast.USub(), operand=operand):
            return _form(operand, words).times(Fraction(-1))
        case ast.BinOp(left=left, op=ast.Add(), right=right):
            return _form(left, words).plus(_form(right, words))
        case ast.BinOp(left=left, op=ast.Sub(), right=right):
            return _form(left, words).plus(_form(right, words), Fraction(-1))
        case ast.BinOp(left=left, op=ast.Mult(), right=right):
            return _product(_form(left, words), _form(right, words))
        case ast.BinOp(left=left, op=ast.Div(), right=right):
            return _form(left, words).times(1 / _number(_form(right, words)))
        case _:
            raise FormFault(f"'{ast.unparse(node)}' has no place in a linear form")


def _number(form: Form) -> Fraction:
    if form.terms or not form.constant:
        raise FormFault("a linear form divides by plain numbers only")
    return form.constant / NM_PER_MM


def _product(left: Form, right: Form) -> Form:
    if not left.terms:
        return right.times(left.constant / NM_PER_MM)
    if not right.terms:
        return left.times(right.constant / NM_PER_MM)
    raise FormFault("a product of two dimensions is not linear")
