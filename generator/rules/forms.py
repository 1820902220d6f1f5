"""Linear forms, `L - (b3 + b4) / 2 + 0.35`, as exact coefficients, with min() and max() of them.

Plain numbers in a form are millimetres (for forces: kilonewtons), names are dimensions, and products of two
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


Kind = Literal["min", "max"]


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


class Vocabulary(dict[str, Tree]):
    """What each name of a rule stands for, a dimension or a macro such as stop; equal only to itself, so
    that what was read with it can be kept by it."""

    __hash__ = object.__hash__  # type: ignore[assignment]

    def __eq__(self, other: object) -> bool:
        return self is other


def leaf(form: Form) -> Tree:
    return Tree("form", form)


def dimension(name: str) -> Tree:
    return leaf(Form(((name, Fraction(1)),), Fraction(0)))


def plus(left: Tree, right: Tree) -> Tree:
    """left + right, with min and max carried outward."""
    if left.form is not None and right.form is not None:
        return leaf(left.form.plus(right.form))
    if left.form is None:
        return Tree(left.kind, parts=tuple(plus(part, right) for part in left.parts))
    return plus(right, left)


def times(tree: Tree, factor: Fraction) -> Tree:
    """A negative factor turns min into max."""
    if tree.form is not None:
        return leaf(tree.form.times(factor))
    turned: Kind = "max" if tree.kind == "min" else "min"
    kind = tree.kind if factor >= 0 else turned
    return Tree(kind, parts=tuple(times(part, factor) for part in tree.parts))


def minus(left: Tree, right: Tree) -> Tree:
    return plus(left, times(right, Fraction(-1)))


def parse_form(text: str, words: Mapping[str, Tree]) -> Tree:
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


def linear(text: str, words: Mapping[str, Tree]) -> Form:
    """The same where nothing is chosen.  Raises FormFault for min and max too."""
    form = parse_form(text, words).form
    if form is None:
        raise FormFault(f"'{text}' chooses, where one linear form is needed")
    return form


def _tree(node: ast.expr, words: Mapping[str, Tree]) -> Tree:
    match node:
        case ast.Call(func=ast.Name(id="min" | "max" as kind), args=args, keywords=keywords):
            if not args or keywords:
                raise FormFault(f"'{ast.unparse(node)}' has nothing to choose from")
            parts = tuple(_tree(argument, words) for argument in args)
            return Tree("min" if kind == "min" else "max", parts=parts)
        case ast.Name(id=name):
            if name not in words:
                raise FormFault(f"'{name}' is not a dimension of this rule table")
            return words[name]
        case ast.Constant(value=int() | float() as value) if not isinstance(value, bool) and isfinite(value):
            # repr of a float is its shortest decimal, so this is the number as written
            return leaf(Form((), Fraction(repr(value)) * NM_PER_MM))
        case ast.UnaryOp(op=ast.USub(), operand=operand):
            return times(_tree(operand, words), Fraction(-1))
        case ast.BinOp(left=left, op=op, right=right):
            return _combined(node, op, _tree(left, words), _tree(right, words))
        case _:
            raise FormFault(f"'{ast.unparse(node)}' has no place in a linear form")


def _combined(node: ast.expr, op: ast.operator, left: Tree, right: Tree) -> Tree:
    match op:
        case ast.Add():
            return plus(left, right)
        case ast.Sub():
            return minus(left, right)
        case ast.Mult():
            return times(left, _number(right)) if _is_number(right) else times(right, _number(left))
        case ast.Div():
            divisor = _number(right) if _is_number(right) else Fraction(0)
            if not divisor:
                raise FormFault("a linear form divides by plain numbers only")
            return times(left, 1 / divisor)
        case _:
            raise FormFault(f"'{ast.unparse(node)}' has no place in a linear form")


def _is_number(tree: Tree) -> bool:
    return tree.form is not None and not tree.form.terms


def _number(tree: Tree) -> Fraction:
    if tree.form is None or tree.form.terms:
        raise FormFault("a product of two dimensions is not linear")
    return tree.form.constant / NM_PER_MM
