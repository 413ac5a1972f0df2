from __future__ import annotations

import pytest

from bermwright.data.rates import ANY_SOIL, RATES, SOIL_STATES, soil_states
from bermwright.data.works.catalogue import all_works


@pytest.mark.parametrize(
    ("name", "row"),
    [
        ("silty till", "till (boulder clay)"),
        ("boulder clay", "till (boulder clay)"),
        ("gravelly sand", "sand"),
        ("sand and gravel", "gravel"),
        ("Blue Clay", "clay"),
        ("sandy silt", "loam or silt"),
        ("gravels", "gravel"),
        ("crumbled sandstone", "any of these soils"),
        ("", "any of these soils"),
    ],
)
def test_a_soil_is_known_by_its_last_word(name, row):
    assert soil_states(name).name == row


def test_where_nothing_is_known_the_range_holds_all_rows():
    for row in SOIL_STATES:
        assert ANY_SOIL.compacted_over_bank.low <= row.compacted_over_bank.low
        assert ANY_SOIL.compacted_over_bank.high >= row.compacted_over_bank.high
        assert ANY_SOIL.bulking.low <= row.bulking.low
        assert ANY_SOIL.bulking.high >= row.bulking.high


def test_every_rate_has_its_work_in_the_bibliography():
    works = all_works()
    assert [rate.name for rate in RATES if works.get(rate.cite.work.key) != rate.cite.work] == []
