"""The bibliography lists what something rests on, and nothing else."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path

import bermwright
from bermwright.data.works.catalogue import all_works

PACKAGE = Path(bermwright.__file__).parent
WORD = re.compile(r"[A-Za-z0-9]+(?:[-_][A-Za-z0-9]+)*")
DECLARED = re.compile(r'^(\w+)(?:: Final)? = Work\(\s*key="([^"]+)"', re.MULTILINE)


def test_every_work_is_cited_by_something():
    texts = {path: path.read_text(encoding="utf-8") for path in PACKAGE.rglob("*.py")}
    words = Counter(word for text in texts.values() for word in WORD.findall(text))
    declared = {key: name for text in texts.values() for name, key in DECLARED.findall(text)}
    assert declared.keys() == all_works().keys()
    once = {key for key, name in declared.items() if sum(words[one] for one in {key, name}) == 2}
    assert once == set()
