"""The mutation gate: whether the evidence notices a wrong coefficient in the handbook.

    .venv/bin/python tools/mutate.py                      every handbook module
    .venv/bin/python tools/mutate.py --module frames      only modules whose name holds "frames"
    .venv/bin/python tools/mutate.py --list               show every survivor
    .venv/bin/python tools/mutate.py --write              write tools/survivors.txt again

Each mutant (see `mutants.py`) is planted alone, and the rows of evidence that reach it are computed
until one disagrees or raises: then it is killed. Recorded values do not count; there are none among
the rows. Kernels run as plain Python, so that planting one is quick.
"""

from __future__ import annotations

import argparse
import ast
import contextlib
import functools
import gc
import importlib
import importlib.abc
import importlib.util
import inspect
import multiprocessing
import os
import pkgutil
import signal
import sys
import threading
import time
import warnings
from collections import Counter, defaultdict
from dataclasses import dataclass, field
from pathlib import Path
from types import CodeType, FrameType, FunctionType, ModuleType
from typing import TYPE_CHECKING, Any

from mutants import Mutant, mutants_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence
    from importlib.machinery import ModuleSpec
    from multiprocessing.pool import Pool

    from bermwright.evidence.rows import Row

SURVIVORS = Path(__file__).with_name("survivors.txt")
WANTED = 0.90
PER_MUTANT = 20.0
"""Seconds of evidence that one mutant is worth; like every time of a row it is of the processor, so that a
busy machine neither kills a mutant nor lets one live."""
REPLACED = ("bermwright.handbook", "bermwright.evidence", "bermwright.data")
"""Packages whose modules are imported again when they rest on a changed constant."""


# ---------------------------------------------------------------- what each row reaches
@dataclass(frozen=True, slots=True)
class Reach:
    """What one row of evidence runs through, how long it takes, and whether it agrees now."""

    id: str
    seconds: float
    agrees: bool
    functions: frozenset[tuple[str, str]]
    """Module and outermost function of every handbook function that ran."""


def handbook_modules() -> list[str]:
    """The names of every handbook module."""
    package = importlib.import_module("bermwright.handbook")
    found = [info.name for info in pkgutil.walk_packages(package.__path__, "bermwright.handbook.")]
    return sorted(found)


def reach_of(row_id: str) -> Reach:
    """Compute one row and note every handbook function that it runs through."""
    codes: set[CodeType] = set()

    def note(frame: FrameType, event: str, _: object) -> None:
        if event == "call":
            codes.add(frame.f_code)

    start = time.process_time()
    sys.setprofile(note)
    try:
        agrees = _agrees(_ROWS[row_id])
    finally:
        sys.setprofile(None)
    seconds = time.process_time() - start
    ours = {
        (_name_of(code.co_filename), code.co_qualname.split(".<locals>")[0])
        for code in codes
        if _is_ours(code)
    }
    return Reach(row_id, seconds, agrees, frozenset(ours))


def _is_ours(code: CodeType) -> bool:
    return code.co_filename.startswith(str(Path(_module("bermwright.handbook").__file__ or "").parent))


def _name_of(filename: str) -> str:
    parts = Path(filename).with_suffix("").parts
    dotted = ".".join(parts[len(parts) - parts[::-1].index("bermwright") - 1 :])
    return dotted.removesuffix(".__init__")


def _agrees(row: Row) -> bool:
    rows = _module("bermwright.evidence.rows")
    try:
        return bool(rows.check(row).agrees)
    except Exception:  # noqa: BLE001  (whatever a wrong coefficient raises, it has been noticed)
        return False


# ---------------------------------------------------------------- one worker
_ROWS: dict[str, Row] = {}
_FUNCTIONS: dict[tuple[str, str], list[FunctionType]] = {}
_CACHES: list[Any] = []
_SOURCES: dict[str, str] = {}
"""Read once: somebody may edit a file while the gate runs."""


def start_worker(sources: Mapping[str, str] | None = None) -> None:
    """Import everything once; each worker process does this, with the sources as the first one read them."""
    warnings.simplefilter("ignore")
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    numpy = importlib.import_module("numpy")
    numpy.seterr(all="ignore")
    for name in handbook_modules():
        module = importlib.import_module(name)
        _SOURCES[name] = inspect.getsource(module) if sources is None else sources[name]
    _ROWS.update({row.id: row for row in _module("bermwright.evidence.catalogue").all_rows()})
    for thing in gc.get_objects():
        if isinstance(thing, FunctionType) and _is_ours(thing.__code__):
            key = (_name_of(thing.__code__.co_filename), thing.__code__.co_qualname)
            _FUNCTIONS.setdefault(key, []).append(thing)
        if hasattr(type(thing), "cache_clear") and str(getattr(thing, "__module__", "")).startswith(
            "bermwright"
        ):
            _CACHES.append(thing)


def _module(name: str) -> ModuleType:
    return importlib.import_module(name)


class _Late(Exception):  # noqa: N818  (it is a bell, not an error)
    """A row took far longer than it should: a loop that no longer ends."""


def _ring(_signal: int, _frame: FrameType | None) -> None:
    raise _Late


@dataclass(frozen=True, slots=True)
class Verdict:
    """What became of one mutant."""

    module: str
    index: int
    killer: str | None
    """The id of the first row that notices it, or None."""
    seconds: float


def verdict_of(task: tuple[str, int, tuple[tuple[str, float], ...]]) -> Verdict:
    """Whether some row notices the mutant.

    A row that runs twenty times longer than before has noticed it too.
    """
    module, index, rows = task
    began = time.process_time()
    killer = _killer(_mutants(module)[index], rows, began + PER_MUTANT)
    return Verdict(module, index, killer, time.process_time() - began)


def _killer(mutant: Mutant, rows: Sequence[tuple[str, float]], until: float) -> str | None:
    try:
        with _planted(mutant) as planted:
            for row_id, seconds in rows:
                if time.process_time() > until:
                    break
                if _notices(planted[row_id], 2.0 + 20.0 * seconds):
                    return row_id
    except _Late:
        return "a loop that does not end"
    except Exception as error:  # noqa: BLE001  (a module that cannot be imported is a noticed mutant)
        return f"import raises {type(error).__name__}"
    return None


def _notices(row: Row, seconds: float) -> bool:
    signal.signal(signal.SIGPROF, _ring)
    signal.setitimer(signal.ITIMER_PROF, seconds)
    try:
        return not _agrees_or_rings(row)
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)


def _agrees_or_rings(row: Row) -> bool:
    try:
        return _agrees(row)
    except _Late:
        return False


_MADE: dict[str, list[Mutant]] = {}


def _mutants(module: str) -> list[Mutant]:
    if module not in _MADE:
        _MADE[module] = mutants_of(module, _SOURCES[module])
    return _MADE[module]


@contextlib.contextmanager
def _planted(mutant: Mutant) -> Iterator[dict[str, Row]]:
    filename = _module(mutant.module).__file__ or ""
    code = compile(mutant.planted(_SOURCES[mutant.module]), filename, "exec")
    functions = _FUNCTIONS.get((mutant.module, mutant.function), [])
    swap = _swapped(functions, code, mutant.function) if functions else _imported_again(mutant.module, code)
    for cached in _CACHES:
        cached.cache_clear()
    try:
        with swap as rows:
            yield rows
    finally:
        for cached in _CACHES:
            cached.cache_clear()


@contextlib.contextmanager
def _swapped(functions: Sequence[FunctionType], code: CodeType, name: str) -> Iterator[dict[str, Row]]:
    """Give the living function its changed body: whoever imported it by name sees the change."""
    before = [function.__code__ for function in functions]
    bodies = {(body.co_qualname, body.co_firstlineno): body for body in _bodies(code)}
    for function in functions:
        function.__code__ = bodies[name, function.__code__.co_firstlineno]
    try:
        yield _ROWS
    finally:
        for function, body in zip(functions, before, strict=True):
            function.__code__ = body


def _bodies(code: CodeType) -> Iterator[CodeType]:
    yield code
    for constant in code.co_consts:
        if isinstance(constant, CodeType):
            yield from _bodies(constant)


class _Planter(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Imports one module from changed code."""

    def __init__(self, module: str, code: CodeType, *, package: list[str] | None) -> None:
        self.module, self.code, self.package = module, code, package

    def find_spec(self, fullname: str, path: object = None, target: object = None) -> ModuleSpec | None:
        del path, target
        if fullname != self.module:
            return None
        spec = importlib.util.spec_from_loader(fullname, self, is_package=self.package is not None)
        if spec is not None and self.package is not None:
            spec.submodule_search_locations = self.package
        return spec

    def exec_module(self, module: ModuleType) -> None:
        module.__file__ = self.code.co_filename
        exec(self.code, module.__dict__)  # noqa: S102  (this is what the gate is for)


@contextlib.contextmanager
def _imported_again(module: str, code: CodeType) -> Iterator[dict[str, Row]]:
    """Import what rests on a changed constant afresh, and put the old modules back after."""
    old = {name: sys.modules[name] for name in _resting_on(module)}
    locations = getattr(old[module], "__path__", None)
    planter = _Planter(module, code, package=None if locations is None else list(locations))
    for name in old:
        parent, _, child = name.rpartition(".")
        vars(sys.modules[parent]).pop(child, None)  # `from parent import child` reads it here
    for name in old:
        del sys.modules[name]
    sys.meta_path.insert(0, planter)
    try:
        again = [_module(name) for name in old if name.startswith("bermwright.evidence.")]
        yield _ROWS | {row.id: row for mod in again for row in getattr(mod, "ROWS", ())}
    finally:
        sys.meta_path.remove(planter)
        sys.modules.update(old)
        for name, mod in old.items():
            parent, _, child = name.rpartition(".")
            setattr(sys.modules[parent], child, mod)


def _resting_on(module: str) -> list[str]:
    """The module and every loaded one that imports it, straight or by way of others."""
    found, ahead = {module}, [module]
    while ahead:
        name = ahead.pop()
        more = {user for user, used in _imports().items() if name in used} - found
        found |= more
        ahead += more
    return [name for name in sys.modules if name in found]


@functools.cache
def _imports() -> dict[str, set[str]]:
    """What each loaded module of the replaced packages imports; its packages come with it."""
    loaded = {name for name in sys.modules if name.startswith(REPLACED)}
    return {name: loaded & _imported(sys.modules[name]) - {name} for name in loaded}


def _imported(module: ModuleType) -> set[str]:
    found = set()
    for node in ast.walk(ast.parse(inspect.getsource(module))):
        if isinstance(node, ast.ImportFrom):
            found |= {node.module or "", *(f"{node.module}.{alias.name}" for alias in node.names)}
        elif isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
    return found


# ---------------------------------------------------------------- the whole run
@dataclass(slots=True)
class Tally:
    """What came out, module by module."""

    made: Counter[str] = field(default_factory=Counter)
    killed: Counter[str] = field(default_factory=Counter)
    seconds: defaultdict[str, float] = field(default_factory=lambda: defaultdict(float))
    survivors: list[Mutant] = field(default_factory=list)
    unreached: set[str] = field(default_factory=set)
    """Keys of survivors that no row reaches at all."""

    @property
    def share(self) -> float:
        """Killed over made."""
        return sum(self.killed.values()) / max(1, sum(self.made.values()))


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the gate; 0 when it is met."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--module", default="", help="only modules whose name holds this text")
    parser.add_argument("--list", action="store_true", help="show every survivor")
    parser.add_argument("--write", action="store_true", help="write tools/survivors.txt again")
    parser.add_argument("--workers", type=int, default=2)
    wanted = parser.parse_args(arguments)
    _plain_python()
    start_worker()
    modules = [name for name in handbook_modules() if wanted.module in name]
    context = multiprocessing.get_context("spawn")
    with context.Pool(wanted.workers, initializer=start_worker, initargs=(_SOURCES,)) as pool:
        print(f"{len(_ROWS)} rows of evidence: what does each reach?", flush=True)
        reaches = list(pool.imap_unordered(reach_of, sorted(_ROWS), chunksize=4))
        slow = sorted(reaches, key=lambda reach: -reach.seconds)[:3]
        print("  slowest as plain Python:", ", ".join(f"{reach.id} {reach.seconds:.1f} s" for reach in slow))
        bad = sorted(reach.id for reach in reaches if not reach.agrees)
        for row_id in bad:
            print(f"  disagrees before any change, left out: {row_id}")
        tally = _run(pool, modules, [reach for reach in reaches if reach.agrees])
    _print(tally)
    return _judge(tally, whole=not wanted.module, show=wanted.list, write=wanted.write) or int(bool(bad))


def _plain_python() -> None:
    """For this process and the workers that it starts; numba reads it when it is first imported."""
    os.environ["NUMBA_DISABLE_JIT"] = "1"
    for name in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS"):
        os.environ.setdefault(name, "1")  # two workers already fill two cores


def _run(pool: Pool, modules: Sequence[str], reaches: Sequence[Reach]) -> Tally:
    tally = Tally()
    tasks = []
    for module in modules:
        for index, mutant in enumerate(_mutants(module)):
            tally.made[module] += 1
            rows = _rows_for(mutant, reaches)
            if rows:
                tasks.append((module, index, rows))
            else:
                tally.survivors.append(mutant)
                tally.unreached.add(mutant.key)
    ticker = _Ticker(len(tasks))
    for verdict in pool.imap_unordered(verdict_of, tasks, chunksize=2):
        ticker.tick()
        tally.seconds[verdict.module] += verdict.seconds
        if verdict.killer is None:
            tally.survivors.append(_mutants(verdict.module)[verdict.index])
        else:
            tally.killed[verdict.module] += 1
    tally.survivors.sort(key=lambda mutant: (mutant.module, mutant.line))
    return tally


def _rows_for(mutant: Mutant, reaches: Sequence[Reach]) -> tuple[tuple[str, float], ...]:
    """The rows that run through the mutant's function, the quickest first."""
    if mutant.function:
        hits = [reach for reach in reaches if (mutant.module, mutant.function) in reach.functions]
    else:
        users = {name for name in handbook_modules() if _uses(name, mutant.module)}
        hits = [reach for reach in reaches if users & {module for module, _ in reach.functions}]
    hits.sort(key=lambda reach: reach.seconds)
    return tuple((reach.id, reach.seconds) for reach in hits)


def _uses(name: str, module: str) -> bool:
    return name == module or module in _SOURCES[name]


class _Ticker:
    """A line of progress every few seconds."""

    def __init__(self, total: int) -> None:
        self.total, self.done = total, 0
        self.began = self.said = time.perf_counter()

    def tick(self) -> None:
        self.done += 1
        now = time.perf_counter()
        if now - self.said > 5.0:
            self.said = now
            left = (now - self.began) * (self.total - self.done) / self.done
            print(f"  {self.done} of {self.total} mutants, about {left:.0f} s left", flush=True)


def _print(tally: Tally) -> None:
    print(f"\n{'module':52}{'mutants':>8}{'killed':>8}{'share':>8}{'seconds':>9}")
    for module, made in sorted(tally.made.items()):
        killed, name = tally.killed[module], module.removeprefix("bermwright.handbook.")
        print(f"{name:52}{made:8}{killed:8}{killed / made:8.0%}{tally.seconds[module]:9.1f}")
    total, killed = sum(tally.made.values()), sum(tally.killed.values())
    print(f"{'all':52}{total:8}{killed:8}{tally.share:8.1%}{sum(tally.seconds.values()):9.1f}")


def _judge(tally: Tally, *, whole: bool, show: bool, write: bool) -> int:
    alive = {mutant.key: mutant for mutant in tally.survivors}
    if show or not whole:
        for key, mutant in alive.items():
            print(f"  line {mutant.line}: {key}{'  (no row reaches it)' if key in tally.unreached else ''}")
    if not whole:
        return 0
    listed = read_survivors()
    if write:
        write_survivors({key: listed.get(key, "") for key in alive})
        listed = read_survivors()
    new = sorted(set(alive) - set(listed))
    dead = sorted(set(listed) - set(alive))
    silent = sorted(key for key, reason in listed.items() if not reason)
    for title, keys in (
        ("survives without being listed in tools/survivors.txt", () if show else new),
        ("is listed but no longer survives: take it out", dead),
        ("is listed without a reason", silent),
    ):
        for key in keys:
            print(f"  {title}: {key}")
    met = tally.share >= WANTED
    print(
        f"\n{'The gate is met' if met and not (new or dead or silent) else 'The gate is NOT met'}: "
        f"{tally.share:.1%} killed, {WANTED:.0%} wanted; {len(alive)} survivors, {len(listed)} listed."
    )
    return int(not met or bool(new or dead or silent))


# ---------------------------------------------------------------- the list of survivors
HEADER = """\
# Mutants that no published, derived or independent row notices, each with its reason after ` :: `.
# Written by `tools/mutate.py --write`; the list may only shrink (the number below is its ceiling).
# The ceiling rose once, from 37, when twenty modules came under the gate that it had not seen before.
"""


def read_survivors() -> dict[str, str]:
    """Key and reason of every listed survivor; more of them than the ceiling are refused."""
    if not SURVIVORS.exists():
        return {}
    ceiling, found = 0, {}
    for line in SURVIVORS.read_text(encoding="utf-8").splitlines():
        if line.startswith("at most "):
            ceiling = int(line.removeprefix("at most "))
        elif line and not line.startswith("#"):
            key, _, reason = line.partition(" ::")
            found[key.strip()] = reason.strip()
    if len(found) > ceiling:
        raise SystemExit(
            f"tools/survivors.txt lists {len(found)} survivors; the list may not exceed {ceiling}."
        )
    return found


def write_survivors(entries: dict[str, str]) -> None:
    """Write the list; the ceiling goes down by itself and up only by hand."""
    before = _ceiling()
    ceiling = len(entries) if before is None else min(before, len(entries))
    lines = [f"{key} :: {reason}".rstrip() for key, reason in sorted(entries.items())]
    text = HEADER + f"at most {max(ceiling, 0)}\n" + "".join(line + "\n" for line in lines)
    SURVIVORS.write_text(text, encoding="utf-8")


def _ceiling() -> int | None:
    if not SURVIVORS.exists():
        return None
    lines = SURVIVORS.read_text(encoding="utf-8").splitlines()
    return next((int(line.removeprefix("at most ")) for line in lines if line.startswith("at most ")), None)


if __name__ == "__main__":
    if threading.current_thread() is not threading.main_thread():
        raise SystemExit("run this as a program")
    sys.exit(main())
