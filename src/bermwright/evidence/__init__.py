"""Published values as data: one module per work, one row per value.

The rows feed the tests, `bermwright evidence`, the docs and the mutation gate. Recorded values
(regression) do not belong here; they live in `tests/golden`. Start reading at `rows.py`.
"""
