from __future__ import annotations

import tomllib

import pytest

from bermwright.formats.house_file.scan import lines_of

TRICKY = '''\
# a comment with = and [x] and """
title = "a # no comment" # one
"quoted key" = 'lit#eral'
a.b . c = 1
multi = """
line [not.a.table]
x = 1
\\""" still
"""
raw = \'\'\'
[[no]]
\'\'\'
list = [
  "x", # comment ]
  [1, 2],
  { p = 1, q.r = [3,
     4] },
]
empty = []
none = {}
when = 2027-06-01T07:00:00
escaped = "say \\"hi\\" ]"

[ table . "in.ner" ]
key = -1.5e3
[[many]]
name = "first"
[[many.deep]]
v = true
[[many.deep]]
v = false
[many.deep.last]
w = 1
[[many]]
name = "second"
[[many.deep]]
v = 2
'''


def paths(value, key=()):
    if key:
        yield key
    if isinstance(value, dict):
        for name, inner in value.items():
            yield from paths(inner, (*key, name))
    elif isinstance(value, list):
        for count, inner in enumerate(value):
            yield from paths(inner, (*key, count))


def test_every_key_that_toml_finds_has_a_line_and_no_other():
    assert set(lines_of(TRICKY)) == set(paths(tomllib.loads(TRICKY)))


@pytest.mark.parametrize(
    ("key", "starts"),
    [
        (("title",), "title ="),
        (("quoted key",), '"quoted key"'),
        (("a", "b", "c"), "a.b . c"),
        (("raw",), "raw ="),
        (("list", 0), '  "x"'),
        (("list", 1, 1), "  [1, 2]"),
        (("list", 2, "q", "r", 1), "     4]"),
        (("escaped",), "escaped"),
        (("table", "in.ner", "key"), "key ="),
        (("many", 0, "deep", 1, "v"), "v = false"),
        (("many", 0, "deep", 1, "last", "w"), "w = 1"),
        (("many", 1, "name"), 'name = "second"'),
        (("many", 1, "deep", 0, "v"), "v = 2"),
    ],
)
def test_the_line_is_the_one_where_it_stands(key, starts):
    assert TRICKY.split("\n")[lines_of(TRICKY)[key] - 1].startswith(starts)


def test_windows_line_ends_count_once():
    assert lines_of("a = 1\r\nb = 2\r\n")[("b",)] == 2


def test_a_text_that_is_no_toml_is_left_and_not_walked_for_ever():
    assert lines_of("]]]] = = {{{ [[[ \"\"\" '''") == {("",): 1}
