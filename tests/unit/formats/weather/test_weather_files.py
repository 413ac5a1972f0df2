from __future__ import annotations

import dataclasses
import importlib.util
import math
from pathlib import Path

import numpy as np
import pytest

from bermwright.app.climate import NoClimateError, weather_of, weather_of_place
from bermwright.data.climates import UnknownClimateError
from bermwright.formats.weather import WeatherFileError, read_weather
from bermwright.handbook.weather import monthly
from bermwright.house import About, House, Site

DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)


def package(name: str) -> Path:
    spec = importlib.util.find_spec(name)
    assert spec is not None
    assert spec.origin is not None
    return Path(spec.origin).parent


@pytest.fixture(scope="module")
def year():
    return weather_of_place("normals:Estevan")


@pytest.fixture(scope="module")
def whole(year):
    return epw(year)


def stamps() -> list[tuple[int, int, int]]:
    return [
        (month, day, hour)
        for month, days in enumerate(DAYS, start=1)
        for day in range(1, days + 1)
        for hour in range(1, 25)
    ]


def epw(weather, *, latitude=49.21, longitude=-102.96, zone=-7, when=None, changes=None) -> list[str]:
    """An EPW file as its format wants it."""
    head = [f"LOCATION,Estevan,SK,CAN,made,71862,{latitude},{longitude},{zone},581"]
    head += ["DESIGN CONDITIONS,0", "TYPICAL/EXTREME PERIODS,0", "GROUND TEMPERATURES,0"]
    head += ["HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0", "COMMENTS 1,", "COMMENTS 2,"]
    head += ["DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31"]
    columns = {
        6: weather.temperature.round(2),
        7: weather.dew_point.round(2),
        8: (100 * weather.humidity).round(1),
        9: weather.pressure.round(),
        13: weather.global_horizontal.round(1),
        14: weather.direct_normal.round(1),
        15: weather.diffuse_horizontal.round(1),
        21: weather.wind.round(2),
        30: (100 * weather.snow_depth).round(1),
    }
    lists = {column: row.tolist() for column, row in columns.items()}
    lines = []
    for k, (month, day, hour) in enumerate(when or stamps()):
        cells = ["2001", str(month), str(day), str(hour), "0", "?9", *["0"] * 29]
        for column, values in lists.items():
            cells[column] = str(values[k])
        cells[12], cells[23], cells[32] = "9999", "5", "0.2"
        for column, value in (changes or {}).get(k, {}).items():
            cells[column] = value
        lines.append(",".join(cells))
    return head + lines


def text(lines: list[str]) -> str:
    return "\n".join(lines) + "\n"


def test_what_is_written_as_epw_is_read_back(year):
    found = read_weather(text(epw(year)), "a.epw")
    for row in (
        "temperature",
        "dew_point",
        "global_horizontal",
        "direct_normal",
        "diffuse_horizontal",
        "wind",
    ):
        assert getattr(found, row) == pytest.approx(getattr(year, row), abs=0.06), row
    assert found.snow_depth == pytest.approx(year.snow_depth, abs=0.001)
    assert found.latitude == pytest.approx(year.latitude, abs=1e-4)
    assert found.zone == year.zone
    assert not found.made
    assert found.source == "EPW file of Estevan"


def test_a_byte_order_mark_and_other_line_ends_do_not_matter(year):
    lines = epw(year)
    plain = read_weather(text(lines), "a.epw")
    marked = read_weather("\ufeff" + "\r\n".join(lines), "a.epw")
    assert np.array_equal(plain.temperature, marked.temperature)


def test_a_leap_day_is_left_out_and_told(year):
    lines = epw(year)
    at = 8 + 59 * 24
    extra = [line.replace(",3,1,", ",2,29,", 1) for line in lines[at : at + 24]]
    found = read_weather(text(lines[:at] + extra + lines[at:]), "leap.epw")
    assert "29 February is left out" in found.source
    assert found.temperature == pytest.approx(year.temperature, abs=0.01)


def change_lines(lines, how):
    changed = lines[:]
    how(changed)
    return changed


def drop(start, stop):
    return lambda lines: lines.__delitem__(slice(start, stop))


def put(number, column, value):
    def how(lines):
        cells = lines[number].split(",")
        cells[column] = value
        lines[number] = ",".join(cells)

    return how


def swap(lines):
    lines[100], lines[200] = lines[200], lines[100]


WRONG = {
    "a missing hour": (drop(8 + 100, 8 + 101), "1 of 8760 hours are missing, the first is 5 January, 04:00"),
    "half a year": (drop(8 + 4000, None), "4760 of 8760 hours are missing"),
    "an hour twice": (lambda lines: lines.insert(20, lines[20]), "some stand there twice"),
    "two hours changed about": (swap, "not in order"),
    "hours from 0": (put(8, 3, "0"), "add 1 to each"),
    "31 February": (put(8 + 40 * 24, 2, "31"), "no true date"),
    "month 13": (put(8, 1, "13"), "no true date"),
    "half an hour": (put(8, 3, "1.5"), "no whole month, day and hour"),
    "a word": (put(10, 6, "cold"), 'line 11 has "cold"'),
    "kelvins": (put(8 + 4000, 6, "99.8"), "temperature is 99.8 °C"),
    "a short line": (lambda lines: lines.__setitem__(9, "2001,1,1,2,0"), "line 10 has 5 fields"),
    "four values an hour": (lambda lines: lines.__setitem__(7, "DATA PERIODS,1,4,Data"), "4 values an hour"),
    "a short head": (lambda lines: lines.__setitem__(0, "LOCATION,x"), "LOCATION line has 2 of 10"),
    "latitude 95": (
        lambda lines: lines.__setitem__(0, lines[0].replace("49.21", "95")),
        "latitude in its head",
    ),
    "altitude": (
        lambda lines: lines.__setitem__(0, lines[0].replace(",581", ",99581")),
        "altitude in its head",
    ),
}


@pytest.mark.parametrize(("how", "says"), WRONG.values(), ids=WRONG.keys())
def test_what_is_no_year_is_refused_with_its_reason(whole, how, says):
    with pytest.raises(WeatherFileError) as caught:
        read_weather(text(change_lines(whole, how)), "bad.epw")
    assert says in str(caught.value)
    assert str(caught.value).startswith("bad.epw: ")


@pytest.mark.parametrize("given", ["", "  \n \n", "hello", "a,b,c\n1,2,3\n"])
def test_another_kind_of_file_is_refused(given):
    with pytest.raises(WeatherFileError):
        read_weather(given, "x.csv")


def test_short_gaps_are_bridged_and_told(year):
    changes = {k: {6: "99.9"} for k in (5000, 5001, 5002)}
    found = read_weather(text(epw(year, changes=changes)), "gap.epw")
    assert "3 missing hours of the temperature are bridged" in found.source
    low, high = sorted((year.temperature[4999], year.temperature[5003]))
    assert np.all(
        (found.temperature[5000:5003] >= low - 0.01) & (found.temperature[5000:5003] <= high + 0.01)
    )


def test_a_long_gap_is_refused_where_it_begins(year):
    changes = {k: {6: "99.9"} for k in range(48, 60)}
    with pytest.raises(WeatherFileError, match="gap of 12 hours from 3 January, 00:00 to 01:00"):
        read_weather(text(epw(year, changes=changes)), "gap.epw")


def test_only_global_sunshine_is_split(year):
    changes = {k: {14: "9999", 15: "9999"} for k in range(8760)}
    found = read_weather(text(epw(year, changes=changes)), "g.epw")
    assert "Erbs" in found.source
    assert found.diffuse_horizontal.sum() == pytest.approx(year.diffuse_horizontal.sum(), rel=0.05)


def test_no_sunshine_at_all_is_refused(year):
    changes = {k: {13: "9999", 14: "9999", 15: "9999"} for k in range(8760)}
    with pytest.raises(WeatherFileError, match="no sunshine in it"):
        read_weather(text(epw(year, changes=changes)), "g.epw")


def test_the_sun_never_shines(year):
    changes = {k: {13: "0", 14: "0", 15: "0"} for k in range(8760)}
    with pytest.raises(WeatherFileError, match="never shines"):
        read_weather(text(epw(year, changes=changes)), "g.epw")


def test_humidity_stands_in_for_a_dew_point(year):
    changes = {k: {7: "99.9"} for k in range(8760)}
    found = read_weather(text(epw(year, changes=changes)), "h.epw")
    assert found.dew_point == pytest.approx(year.dew_point, abs=0.2)


def test_neither_humidity_nor_dew_point_is_refused(year):
    changes = {k: {7: "99.9", 8: "999"} for k in range(8760)}
    with pytest.raises(WeatherFileError, match="neither a dew point"):
        read_weather(text(epw(year, changes=changes)), "h.epw")


def test_the_wrong_hemisphere_is_noticed():
    far_north = weather_of_place("normals:Sodankylä")
    lines = epw(far_north, latitude=-67.37, longitude=26.65, zone=2)
    with pytest.raises(WeatherFileError, match="falls in the night of that place"):
        read_weather(text(lines), "s.epw")


def test_the_wrong_side_of_greenwich_is_noticed(year):
    with pytest.raises(WeatherFileError, match=r"night of that place|of the sunshine lies"):
        read_weather(text(epw(year, longitude=102.96)), "w.epw")


@pytest.mark.parametrize(("shift", "side"), [(1, "after"), (-1, "before")])
def test_a_clock_that_is_an_hour_off_is_noticed(year, shift, side):
    moved = dataclasses.replace(
        year,
        **{
            row: np.roll(getattr(year, row), shift)
            for row in ("global_horizontal", "direct_normal", "diffuse_horizontal")
        },
    )
    with pytest.raises(WeatherFileError, match=rf"1\.\d h {side} noon|0\.[89] h {side} noon"):
        read_weather(text(epw(moved)), "c.epw")


def test_a_southern_file_is_read():
    south = weather_of_place("normals:Ushuaia")
    lines = epw(south, latitude=-54.84, longitude=-68.3, zone=-5)
    found = read_weather(text(lines), "u.epw")
    assert math.degrees(found.latitude) == pytest.approx(-54.84)
    warm = monthly(found.temperature)
    assert warm[0] > warm[6]


def test_a_year_at_latitude_80_is_read():
    place = weather_of_place("normals:Vardø")
    polar = dataclasses.replace(place, latitude=math.radians(80.0))
    path = polar.path()
    light = np.where(path.up, 200.0 * np.sin(np.maximum(path.elevation, 0.0)), 0.0)
    polar = dataclasses.replace(
        polar, global_horizontal=light, diffuse_horizontal=light, direct_normal=np.zeros(8760)
    )
    lines = epw(polar, latitude=80.0, longitude=31.09, zone=2)
    found = read_weather(text(lines), "p.epw")
    assert np.all(found.global_horizontal[:24] == 0.0)
    assert np.all(np.isfinite(found.path().azimuth))


# ---------------------------------------------------------------- TMY3 and plain CSV
def test_a_real_tmy3_file_has_its_known_means():
    given = (package("pvlib") / "data" / "703165TY.csv").read_text(encoding="utf-8")
    found = read_weather(given, "703165TY.csv")
    assert found.place == "Sand Point"
    means = (0.63, 1.19, 1.66, 2.08, 3.18, 8.05, 11.80, 11.88, 7.91, 4.50, 0.44, -0.58)
    # Those means count the hour that ends at midnight to the next month; here it stays in its own.
    assert monthly(found.temperature) == pytest.approx(means, abs=0.015)
    sums = (18.1, 29.3, 57.4, 91.7, 101.6, 114.2, 155.1, 83.8, 91.2, 50.0, 22.3, 14.3)
    assert monthly(found.global_horizontal) * DAYS * 0.024 == pytest.approx(sums, abs=0.06)
    assert found.temperature.min() == -10.6


@pytest.mark.parametrize(
    ("was", "now", "says"),
    [
        ("01/01/1997,01:00", "1/1/1997,01:00", "line 3 does not begin with"),
        ("01/01/1997,01:00", "01/01/1997,01:30", "line 3 does not begin with"),
        ('703165,"SAND POINT",AK,-9.0', "703165", "of the seven fields"),
        ("-9.0,55.317,-160.517", "-9.0,55.317,-360.517", "longitude in its head"),
    ],
)
def test_a_bad_tmy3_file_is_refused(was, now, says):
    given = (package("pvlib") / "data" / "703165TY.csv").read_text(encoding="utf-8")
    with pytest.raises(WeatherFileError, match=says):
        read_weather(given.replace(was, now, 1), "t.csv")


def plain(weather, *, columns=("temperature_degC", "humidity_pct", "global_W_m2", "wind_m_s")) -> list[str]:
    rows = {
        "temperature_degC": weather.temperature,
        "humidity_pct": 100.0 * weather.humidity,
        "global_W_m2": weather.global_horizontal,
        "wind_m_s": weather.wind,
        "pressure_hPa": weather.pressure / 100.0,
    }
    lists = {title: rows[title].tolist() for title in columns}
    head = ["# place = My valley", "# latitude_deg = 49.21", "# longitude_deg = -102.96"]
    head += ["# zone_h = -7", "# altitude_m = 581", "month,day,hour," + ",".join(columns)]
    return head + [
        ",".join([str(part) for part in when] + [f"{lists[title][k]:.2f}" for title in columns])
        for k, when in enumerate(stamps())
    ]


def test_a_plain_file_says_what_it_lacked(year):
    found = read_weather(text(plain(year)), "valley.csv")
    assert found.place == "My valley"
    assert found.temperature == pytest.approx(year.temperature, abs=0.006)
    for words in ("standard atmosphere", "half a cover of cloud", "ground counts as bare", "Erbs"):
        assert words in found.source
    assert found.snow_cover.max() == 0.0


PLAIN_WRONG = {
    "no head": (lambda lines: lines.__delitem__(1), "lacks a line such as"),
    "an unknown column": (lambda lines: lines.__setitem__(5, lines[5].replace("wind_m_s", "wind")), "called"),
    "a short line": (lambda lines: lines.__setitem__(9, "1,1,4,-3"), "line 10 has 4 of 7 values"),
    "no temperature": (
        lambda lines: lines.__setitem__(5, lines[5].replace("temperature_degC", "cloud_tenths")),
        "no temperature in it",
    ),
    "no wind": (
        lambda lines: lines.__setitem__(5, lines[5].replace("wind_m_s", "cloud_tenths")),
        "no wind in it",
    ),
}


@pytest.mark.parametrize(("how", "says"), PLAIN_WRONG.values(), ids=PLAIN_WRONG.keys())
def test_a_bad_plain_file_is_refused(year, how, says):
    with pytest.raises(WeatherFileError, match=says):
        read_weather(text(change_lines(plain(year), how)), "p.csv")


# ---------------------------------------------------------------- the house's own climate
def a_house(climate):
    return House(about=About(name="x"), site=Site(climate=climate))


def test_a_house_gets_the_year_it_names(year, tmp_path):
    (tmp_path / "valley.epw").write_text(text(epw(year)), encoding="utf-8")
    assert weather_of(a_house("normals:Estevan")).made
    found = weather_of(a_house("valley.epw"), tmp_path)
    assert not found.made
    assert found.temperature == pytest.approx(year.temperature, abs=0.01)


def test_the_same_house_always_gets_the_same_weather(year):
    again = weather_of(a_house("normals:estevan"))
    assert np.array_equal(again.temperature, year.temperature)
    other = weather_of(a_house("normals:estevan"), seed=2)
    assert not np.array_equal(other.temperature, year.temperature)


def test_what_is_missing_is_told(tmp_path):
    with pytest.raises(NoClimateError, match="names no climate"):
        weather_of(a_house(None))
    with pytest.raises(UnknownClimateError):
        weather_of(a_house("normals:Nowhere"))
    with pytest.raises(WeatherFileError, match="could not be read"):
        weather_of(a_house("none.epw"), tmp_path)
    (tmp_path / "big.epw").write_bytes(b"x" * 20_000_001)
    with pytest.raises(WeatherFileError, match="about 2 MB"):
        weather_of(a_house("big.epw"), tmp_path)


def test_weather_of_another_part_of_the_world_is_refused(year, tmp_path):
    (tmp_path / "valley.epw").write_text(text(epw(year)), encoding="utf-8")
    house = a_house("valley.epw")
    near, far = (
        dataclasses.replace(house, site=dataclasses.replace(house.site, latitude=math.radians(degrees)))
        for degrees in (52.0, -49.2)
    )
    assert not weather_of(near, tmp_path).made
    with pytest.raises(WeatherFileError, match=r"from latitude 49\.2 deg, \[site\] latitude is -49\.2"):
        weather_of(far, tmp_path)
