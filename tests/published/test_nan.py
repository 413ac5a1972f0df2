"""A number that is not known stays unknown: NaN for any input gives an error or NaN, never a figure."""

from __future__ import annotations

import math
from typing import Any

import pytest

from bermwright.base.errors import BermwrightError
from bermwright.evidence import Row, all_rows

# One row a function is enough: the guard stands at its top.
ROWS = {row.function: row for row in reversed(all_rows())}
CASES = [
    pytest.param(row, name, id=f"{function.removeprefix('bermwright.handbook.')}-{name}")
    for function, row in sorted(ROWS.items())
    for name, value in row.inputs.items()
    if isinstance(value, float)
]


@pytest.mark.filterwarnings("ignore:invalid value encountered")  # numpy says that NaN is no number: so it is
@pytest.mark.parametrize(("row", "name"), CASES)
def test_nan_gives_no_figure(row: Row, name: str) -> None:
    inputs: dict[str, Any] = {**row.inputs, name: math.nan}
    try:
        result = float(row.pick(row.call(**inputs)))
    except BermwrightError:
        return
    assert math.isnan(result)
