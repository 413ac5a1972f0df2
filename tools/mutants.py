"""Wrong coefficients planted in a module's source, one at a time: what `mutate.py` runs.

A mutant is one small lie: a coefficient 2 % too large, an exponent 0.05 too large, a sign turned,
`min` for `max`, `sin` for `cos`. What has no physical meaning (an index, an axis, a tolerance, a
number of steps, the bounds given to `within`, a message) is left alone; the rules are below.
"""

from __future__ import annotations

import ast
import re
from collections import Counter
from dataclasses import dataclass
from itertools import islice
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

SWAPS = {
    "min": "max",
    "max": "min",
    "amin": "amax",
    "amax": "amin",
    "minimum": "maximum",
    "maximum": "minimum",
    "fmin": "fmax",
    "fmax": "fmin",
    "sin": "cos",
    "cos": "sin",
    "sinh": "cosh",
    "cosh": "sinh",
}
"""Functions that are taken for each other, by their last name."""

COUNTS = re.compile(
    r"^(e|i|j|k|m|n|at|row|column|first|last|next|index|count|size|order|half|pieces|parts|steps?|"
    r"nodes?|elements?|number\w*|\w+_(index|count|number|steps|nodes|elements))$"
)
"""Names that hold a whole number: arithmetic with them is bookkeeping, not physics."""

NUMERICAL = re.compile(
    r"(tol|iter|step|point|node|sweep|tiny|small|samples|digits|guess|spread_out|grid|maxls|chunk|bracket)",
    re.IGNORECASE,
)
"""Names of settings of a numerical method; the evidence need not notice them."""

RANGE_CALLS = {"within"}
"""Calls that refuse what lies outside of the bounds given to them."""

QUIET_CALLS = RANGE_CALLS | {"range", "len", "round", "isclose", "allclose"}
"""Calls in which nothing is physics: the range of an equation is tested in tests/unit."""

SHAPING_CALLS = {
    "arange", "diff", "empty", "expand_dims", "full", "linspace", "moveaxis", "ones", "repeat", "reshape",
    "roll", "swapaxes", "tile", "zeros",
}  # fmt: skip
"""Calls whose own whole numbers are shapes, shifts or counts."""

ELEMENTWISE = {"sqrt", "log", "log1p", "exp", "abs", "sin", "cos", "arctan"}
"""Calls in which no element of an array sees another."""

QUIET_KEYWORDS = {"axis", "ndmin", "num", "decimals", "digits", "full_output", "order", "k", "n"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Mutant:
    """One lie: where and what."""

    module: str
    function: str
    """Qualified name of the outermost function; empty when it is evaluated at import."""
    line: int
    was: str
    now: str
    statement: str
    """The first line of the statement that holds it."""
    ordinal: int
    """Counts lies that read the same in the same function."""
    position: int
    """Of the changed node, in the order of `ast.walk`."""
    change: Callable[[ast.AST], None]

    def planted(self, source: str) -> ast.Module:
        """The tree of the module with this lie in it."""
        tree = ast.parse(source)
        self.change(next(islice(ast.walk(tree), self.position, None)))
        return tree

    @property
    def key(self) -> str:
        """A name that outlives a moved line."""
        where = f"{self.module.removeprefix('bermwright.handbook.')}:{self.function or '<module>'}"
        again = f" #{self.ordinal}" if self.ordinal > 1 else ""
        return f"{where}: {self.was} -> {self.now} in `{self.statement}`{again}"


@dataclass(frozen=True, slots=True)
class _Place:
    """A node on its way down from the module: its ancestors, the nearest last."""

    node: ast.AST
    above: tuple[ast.AST, ...]


Change = tuple[str, str, "Callable[[ast.AST], None]"]


def mutants_of(module: str, source: str) -> list[Mutant]:
    """Every mutant of a module, in the order of its source."""
    tree = ast.parse(source)
    position = {id(node): index for index, node in enumerate(ast.walk(tree))}
    seen: Counter[tuple[str, ...]] = Counter()
    bounds = _bounds(tree)
    made = []
    for place in _places(tree, ()):
        if any(
            isinstance(node, ast.Assign) and bounds >= {*_targets(node.targets[0])} for node in place.above
        ):
            continue
        for was, now, change in _changes(place):
            function, statement = _function(place), _statement(place)
            seen[function, was, now, statement] += 1
            made.append(
                Mutant(
                    module=module,
                    function=function,
                    line=getattr(place.node, "lineno", 0),
                    was=was,
                    now=now,
                    statement=statement,
                    ordinal=seen[function, was, now, statement],
                    position=position[id(place.node)],
                    change=change,
                )
            )
    return made


def _places(node: ast.AST, above: tuple[ast.AST, ...]) -> Iterator[_Place]:
    yield _Place(node, above)
    for child in _children(node):
        yield from _places(child, (*above, node))


def _children(node: ast.AST) -> Iterator[ast.AST]:
    if isinstance(node, ast.arguments):
        yield from _defaults(node)
        return
    for name, child in ast.iter_fields(node):
        if not _unread(node, name):
            yield from (
                item for item in (child if isinstance(child, list) else [child]) if isinstance(item, ast.AST)
            )


def _defaults(node: ast.arguments) -> Iterator[ast.AST]:
    """Default values, without those of numerical settings."""
    named = [*node.posonlyargs, *node.args]
    pairs = [*zip(named[len(named) - len(node.defaults) :], node.defaults, strict=True)]
    pairs += [(arg, value) for arg, value in zip(node.kwonlyargs, node.kw_defaults, strict=True) if value]
    yield from (value for arg, value in pairs if not NUMERICAL.search(arg.arg))


def _unread(node: ast.AST, field: str) -> bool:
    """Whether a branch of the tree has no physics in it."""
    match node:
        case ast.Subscript():
            unread = field == "slice"
        case ast.Raise() | ast.JoinedStr() | ast.Assert() | ast.Import() | ast.ImportFrom():
            unread = True
        case ast.FunctionDef():
            unread = field in {"decorator_list", "returns"}
        case ast.Call():
            unread = _last_name(node.func) in QUIET_CALLS
        case ast.keyword():
            unread = node.arg in QUIET_KEYWORDS or bool(NUMERICAL.search(node.arg or ""))
        case ast.Assign():
            unread = all(NUMERICAL.search(name) for target in node.targets for name in _targets(target))
        case ast.AugAssign():
            unread = bool(NUMERICAL.search(_target(node.target)))
        case ast.AnnAssign():
            unread = field == "annotation" or bool(NUMERICAL.search(_target(node.target)))
        case _:
            unread = False
    return unread


def _bounds(tree: ast.Module) -> set[str]:
    """Names that are read only as the bounds given to `within`."""
    calls = [
        node for node in ast.walk(tree) if isinstance(node, ast.Call) and _last_name(node.func) in RANGE_CALLS
    ]
    inside = Counter(name for call in calls for name in _read(call))
    return {name for name, times in inside.items() if Counter(_read(tree))[name] == times}


def _read(tree: ast.AST) -> list[str]:
    return [n.id for n in ast.walk(tree) if isinstance(n, ast.Name) and isinstance(n.ctx, ast.Load)]


def _targets(node: ast.AST) -> list[str]:
    return [_target(part) for part in (node.elts if isinstance(node, ast.Tuple) else [node])]


def _target(node: ast.AST) -> str:
    return node.id if isinstance(node, ast.Name) else ""


def _changes(place: _Place) -> Iterator[Change]:
    match place.node:
        case ast.Constant(value=bool()):
            return
        case ast.Constant(value=int() | float() as value):
            yield from _number(place.node, place.above, value)
        case ast.BinOp(op=ast.Pow()):
            yield from _exponent(place.node)
        case ast.BinOp(op=ast.Add() | ast.Sub()) if _is_half_turn(place.node, place.above[-1]):
            return
        case ast.BinOp(op=ast.Add() | ast.Sub()) if not _bookkeeping(place.node):
            yield _sign(place.node)
        case ast.AugAssign(op=ast.Add() | ast.Sub()) if not _is_counting(place.node):
            yield _sign(place.node)
        case ast.UnaryOp(op=ast.USub()) if not _constant(place.node.operand):
            yield "-", "+", _drop_minus
        case ast.Call():
            yield from _swap(place.node)


def _number(node: ast.Constant, above: tuple[ast.AST, ...], value: float) -> Iterator[Change]:
    parent = above[-1]
    power = isinstance(parent, ast.BinOp) and isinstance(parent.op, ast.Pow) and parent.right is node
    if (
        power
        or value == 0
        or _is_tolerance(value)
        or _in_bookkeeping(node, above)
        or _never_taken(node, above)
    ):
        return
    wrong = value * 1.02

    def change(twin: ast.AST) -> None:
        assert isinstance(twin, ast.Constant)  # noqa: S101  (narrows the type for mypy)
        twin.value = wrong

    yield f"{value!r}", f"{wrong:.6g}", change


def _exponent(node: ast.BinOp) -> Iterator[Change]:
    text = ast.unparse(node.right)

    def change(twin: ast.AST) -> None:
        assert isinstance(twin, ast.BinOp)  # noqa: S101  (copied from one of that kind)
        twin.right = ast.copy_location(ast.BinOp(twin.right, ast.Add(), ast.Constant(0.05)), twin.right)
        ast.fix_missing_locations(twin)

    yield f"** {text}", f"** ({text} + 0.05)", change


def _sign(node: ast.BinOp | ast.AugAssign) -> Change:
    was, now = ("+", "-") if isinstance(node.op, ast.Add) else ("-", "+")

    def change(twin: ast.AST) -> None:
        assert isinstance(twin, ast.BinOp | ast.AugAssign)  # noqa: S101  (copied from one of that kind)
        twin.op = ast.Sub() if isinstance(twin.op, ast.Add) else ast.Add()

    return was, now, change


def _drop_minus(twin: ast.AST) -> None:
    assert isinstance(twin, ast.UnaryOp)  # noqa: S101  (copied from one of that kind)
    twin.op = ast.UAdd()


def _swap(node: ast.Call) -> Iterator[Change]:
    name = _last_name(node.func)
    if name not in SWAPS:
        return

    def change(twin: ast.AST) -> None:
        func = twin.func  # type: ignore[attr-defined]
        if isinstance(func, ast.Attribute):
            func.attr = SWAPS[name]
        else:
            func.id = SWAPS[name]

    yield name, SWAPS[name], change


def _last_name(func: ast.expr) -> str:
    match func:
        case ast.Name(id=name) | ast.Attribute(attr=name):
            return name
    return ""


def _is_tolerance(value: float) -> bool:
    """Whether a number is 1e-6, 1e-9 and the like, or a stand-in for infinity."""
    return re.fullmatch(r"1e(-(0?[6-9]|1\d|\d{3})|\+?(9|\d\d))", f"{abs(value):g}") is not None


def _in_bookkeeping(node: ast.expr, above: tuple[ast.AST, ...]) -> bool:
    """Whether a whole number only counts: `n + 1`, `len(x) - 1`, `i % 2`."""
    parent = above[-1]
    if not isinstance(node, ast.Constant) or not isinstance(node.value, int):
        return False
    return _shapes(above) or _counted(parent, above)


def _never_taken(node: ast.expr, above: tuple[ast.AST, ...]) -> bool:
    """Whether a number only stands in where an outer `where` of the same condition takes the other side.

    In `where(still, inf, made / where(still, 1.0, fresh))` nobody ever sees the 1.0.
    """
    inner = above[-1]
    side = _side_of(inner, node)
    for at in range(len(above) - 2, -1, -1) if side else ():
        outer, within = above[at], above[at + 1]
        if _side_of(outer, within) == 3 - (side or 0) and _condition(outer) == _condition(inner):
            return True
        alone = isinstance(outer, ast.BinOp | ast.UnaryOp) or _is_call_of(outer, ELEMENTWISE)
        if not alone and _side_of(outer, within) is None:
            return False  # a sum, say, in which every element is seen
    return False


def _side_of(call: ast.AST, argument: ast.AST) -> int | None:
    """1 or 2: which side of a `where` it is; None where it is none."""
    if isinstance(call, ast.Call) and _last_name(call.func) == "where" and argument in call.args[1:3]:
        return call.args.index(argument)
    return None


def _condition(call: ast.AST) -> str:
    return ast.unparse(call.args[0]) if isinstance(call, ast.Call) else ""


def _is_call_of(node: ast.AST, names: set[str]) -> bool:
    return isinstance(node, ast.Call) and _last_name(node.func) in names


def _is_half_turn(node: ast.BinOp, parent: ast.AST) -> bool:
    """Whether it is `(x + pi)` in `(x + pi) % (2 pi)`: either sign gives the same."""
    whole = isinstance(parent, ast.BinOp) and isinstance(parent.op, ast.Mod) and parent.left is node
    turn = ast.unparse(parent.right) if whole and isinstance(parent, ast.BinOp) else ""
    return ast.unparse(node.right) == "np.pi" and turn in {"(2.0 * np.pi)", "2.0 * np.pi", "TURN"}


def _shapes(above: tuple[ast.AST, ...]) -> bool:
    passed = (ast.Tuple, ast.List, ast.UnaryOp, ast.BinOp)
    nearest = next((node for node in reversed(above) if not isinstance(node, passed)), None)
    return isinstance(nearest, ast.Call) and _last_name(nearest.func) in SHAPING_CALLS


def _counted(parent: ast.AST, above: tuple[ast.AST, ...]) -> bool:
    match parent:
        case ast.AugAssign():
            return _is_counting(parent)
        case ast.Tuple():
            return len(above) > 1 and isinstance(above[-2], ast.For)
        case ast.Compare():
            return any(_counts(side) for side in (parent.left, *parent.comparators))
        case ast.Assign():
            return any(_counts(target) for target in parent.targets)
    return isinstance(parent, ast.BinOp) and (
        _bookkeeping(parent) or isinstance(parent.op, ast.Mod | ast.FloorDiv)
    )


def _bookkeeping(node: ast.BinOp) -> bool:
    """Whether a sum is one of counts, of tuples or of texts."""
    sides = (node.left, node.right)
    return any(_counts(side) or isinstance(side, ast.Tuple | ast.List | ast.JoinedStr) for side in sides)


def _is_counting(node: ast.AugAssign) -> bool:
    """Whether `n += 1` and the like only counts."""
    whole = isinstance(node.value, ast.Constant) and isinstance(node.value.value, int)
    return whole or _counts(node.target)


def _counts(node: ast.AST) -> bool:
    match node:
        case ast.Name(id=name):
            return COUNTS.match(name) is not None
        case ast.Attribute(attr=name):
            return name in {"size", "ndim"}
        case ast.Subscript(value=ast.Attribute(attr="shape")):
            return True
        case ast.Call():
            return _last_name(node.func) in {"len", "range"}
        case ast.BinOp():
            return _counts(node.left) and (_counts(node.right) or _constant(node.right))
    return False


def _constant(node: ast.AST) -> bool:
    return isinstance(node, ast.Constant)


def _function(place: _Place) -> str:
    """Qualified name of the outermost function whose body holds the node."""
    names = []
    chain = (*place.above, place.node)
    for at, node in enumerate(chain):
        if isinstance(node, ast.ClassDef):
            names.append(node.name)
        if isinstance(node, ast.FunctionDef):
            inside = at + 1 < len(chain) and not isinstance(chain[at + 1], ast.arguments)
            return ".".join([*names, node.name]) if inside else ""
    return ""


def _statement(place: _Place) -> str:
    statement = next(
        (node for node in (place.node, *reversed(place.above)) if isinstance(node, ast.stmt)), None
    )
    if isinstance(statement, ast.FunctionDef):
        return f"def {statement.name}"
    text = "" if statement is None else ast.unparse(statement).splitlines()[0]
    return text if len(text) <= 90 else text[:87] + "..."
