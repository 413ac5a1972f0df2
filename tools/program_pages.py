"""Reference pages that come from the commands, the rules and the house model."""

from __future__ import annotations

import contextlib
import io
import os
from typing import TYPE_CHECKING

from bermwright.cli.main import COMMANDS, main
from bermwright.house import House
from bermwright.house.fields import Choice, Quantity, Said, Table, Tables, said_of
from bermwright.rules.registry import EVERY_RULE
from page_parts import NOTE, table

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from bermwright.rules.nouns import AnyRule


# ---------------------------------------------------------------- commands
def commands_page() -> str:
    """The help of every command."""
    os.environ["COLUMNS"] = "100"  # the width at which argparse folds its lines
    parts = ["# Commands\n", NOTE]
    parts += [f"## {name}\n\n```text\n{_help(name)}```\n" for name in COMMANDS]
    return "\n".join(parts)


def _help(name: str) -> str:
    printed = io.StringIO()
    with contextlib.redirect_stdout(printed), contextlib.suppress(SystemExit):
        main([name, "--help"])
    return printed.getvalue()


# ---------------------------------------------------------------- rules
def rules_page() -> str:
    """Every rule: what it asks, why, by which works, and how well those are known."""
    parts = ["# Rules\n", NOTE, RULES_HEAD.format(count=len(EVERY_RULE))]
    parts += [_rule(rule) for rule in sorted(EVERY_RULE, key=lambda rule: rule.name)]
    return "\n".join(parts)


RULES_HEAD = """\
{count} rules. `bermwright explain NAME FILE` shows the working of one for your house.
`holds` means: this rule, with these values. Whatever no rule covers is named by `check` under *not checked*.
"""


def _rule(rule: AnyRule) -> str:
    sources = "".join(f"- {cite.work.key}: {cite.place} ({cite.provenance})\n" for cite in rule.cites)
    asks = ", ".join(f"`{place}`" for place in rule.asks)
    needs = f"\nWithout {asks} it stays unknown.\n" if asks else ""
    return f"## {rule.name}\n\n{rule.title}.\n\n{rule.why}\n{needs}\n{sources}"


# ---------------------------------------------------------------- the house file
def house_page() -> str:
    """Every table and key of the house file."""
    parts = ["# House file\n", NOTE, HOUSE_HEAD]
    parts += [_table(path, model) for path, model in _models(House, "")]
    return "\n".join(parts)


HOUSE_HEAD = """\
TOML. Every quantity is a text with its unit; where allowed, `a..b` says that it lies between two values.
What is left out becomes a question, or takes the value named here, which every result then names as assumed.
"""


def _models(model: type, path: str) -> Iterator[tuple[str, type]]:
    for key, said in said_of(model).items():
        match said.kind:
            case Table(of=inner):
                name = f"{path}.{key}".strip(".")
                yield f"[{name}]", inner
                yield from _models(inner, name)
            case Tables(of=inner):
                name = f"{path}.{key}".strip(".")
                yield f"[[{name}]]", inner
                yield from _models(inner, name)


def _table(path: str, model: type) -> str:
    rows = [
        (f"`{said.key}`", said.words, _form(said), _left_out(said))
        for said in said_of(model).values()
        if not isinstance(said.kind, Table | Tables)
    ]
    return f"## {path}\n\n{table(('key', 'is', 'written', 'left out'), rows)}"


def _form(said: Said) -> str:
    match said.kind:
        case Quantity(low=low, high=high, ranged=ranged):
            limits = f"; {low} to {high}" if low and high else ""
            return f"`{said.example}`{limits}{'; a range is allowed' if ranged else ''}"
        case Choice(options=options):
            return ", ".join(f"`{option.value}`" for option in options)
    return f"`{said.example}`" if said.example else type(said.kind).__name__.lower()


def _left_out(said: Said) -> str:
    if said.required:
        return "must be there"
    if said.ask is not None:
        return f"asks: {said.ask.asks}"
    if said.source:
        return f"assumed: {said.default} ({said.source})"
    return said.missing


PAGES: dict[str, Callable[[], str]] = {
    "commands.md": commands_page,
    "rules.md": rules_page,
    "house-file.md": house_page,
}
