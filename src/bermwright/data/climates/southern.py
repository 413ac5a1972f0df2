"""Monthly normals of places in Argentina, Chile, New Zealand. Each row says where it was published."""

from __future__ import annotations

from bermwright.data.climates.nouns import AVERAGED, PUBLISHED, MonthlyNormals
from bermwright.data.climates.sources import averaged, sent, snow, spread

BARILOCHE = MonthlyNormals(
    name="Bariloche",
    country="Argentina",
    latitude=-41.15,
    longitude=-71.17,
    elevation=840.0,
    climate="southern Andes",
    period="2003-2021",
    kind=AVERAGED,
    cite=averaged("87765", years=17),
    mean=(15.8, 15.5, 12.4, 8.2, 5.2, 3.2, 2.2, 3.0, 5.2, 7.8, 11.1, 13.6),
    maximum=(23.6, 23.7, 20.5, 15.5, 10.7, 7.3, 6.9, 8.3, 11.7, 14.5, 18.0, 20.6),
    minimum=(7.3, 7.2, 4.8, 2.6, 1.0, -0.3, -1.5, -1.1, -0.2, 1.7, 3.9, 5.8),
    precipitation=(27.3, 17.3, 19.2, 48.6, 101.1, 154.5, 119.9, 123.1, 51.9, 39.4, 27.0, 24.5),
    sunshine=(334.0, 282.0, 255.0, 196.0, 141.0, 106.0, 133.0, 151.0, 195.0, 240.0, 290.0, 314.0),
    daily_spread=(3.2, 3.1, 2.6, 2.6, 2.8, 2.8, 2.3, 2.3, 2.2, 2.6, 3.1, 3.4),
    daily_spread_cite=spread("87765", years=16),
    humidity=(0.48, 0.5, 0.56, 0.66, 0.75, 0.78, 0.78, 0.75, 0.64, 0.59, 0.52, 0.5),
    vapour_pressure=(850.0, 870.0, 800.0, 720.0, 670.0, 600.0, 560.0, 570.0, 570.0, 620.0, 690.0, 780.0),
    lowest=(-4.0, -3.0, -5.5, -8.1, -9.6, -14.0, -25.4, -10.5, -9.5, -8.0, -5.0, -4.4),
    snowy=False,
    doubts=(
        "The humidity follows from vapour pressure and mean temperature; in cold months some of it reads high.",
    ),
)

EL_CALAFATE = MonthlyNormals(
    name="El Calafate",
    country="Argentina",
    latitude=-50.28,
    longitude=-72.05,
    elevation=204.0,
    climate="southern Andes, Patagonian steppe",
    period="2003-2021",
    kind=AVERAGED,
    cite=averaged("87904", years=16),
    mean=(13.8, 13.9, 11.6, 7.2, 4.2, 1.4, 1.1, 2.3, 5.3, 8.1, 10.9, 12.9),
    maximum=(19.3, 19.2, 17.0, 13.0, 9.0, 5.6, 5.7, 7.2, 11.3, 13.7, 15.9, 17.9),
    minimum=(7.3, 6.8, 5.1, 1.2, -1.6, -3.7, -3.9, -2.7, -0.8, 1.3, 4.0, 6.4),
    precipitation=(7.0, 11.5, 9.3, 22.7, 21.2, 12.4, 13.9, 12.7, 10.4, 13.0, 7.1, 8.0),
    sunshine=(291.0, 244.0, 213.0, 177.0, 117.0, 89.0, 107.0, 144.0, 196.0, 237.0, 279.0, 273.0),
    daily_spread=(2.4, 3.3, 2.6, 3.0, 3.3, 4.2, 2.9, 3.0, 2.7, 2.5, 2.6, 2.2),
    daily_spread_cite=spread("87904", years=10),
    humidity=(0.48, 0.51, 0.55, 0.64, 0.72, 0.72, 0.78, 0.73, 0.62, 0.54, 0.49, 0.47),
    vapour_pressure=(750.0, 810.0, 740.0, 650.0, 590.0, 490.0, 510.0, 520.0, 550.0, 580.0, 640.0, 690.0),
    lowest=(-1.0, -2.2, -6.8, -9.6, -12.4, -16.6, -17.4, -15.2, -9.0, -9.0, -8.0, -5.0),
    snowy=False,
    doubts=(
        "The humidity follows from vapour pressure and mean temperature; in cold months some of it reads high.",
    ),
)

USHUAIA = MonthlyNormals(
    name="Ushuaia",
    country="Argentina",
    latitude=-54.84,
    longitude=-68.3,
    elevation=57.0,
    climate="subantarctic coast",
    period="2003-2021",
    kind=AVERAGED,
    cite=averaged("87938", years=13),
    mean=(9.4, 9.3, 8.6, 6.1, 4.4, 2.6, 2.5, 2.9, 4.4, 6.2, 7.4, 8.5),
    maximum=(13.4, 13.8, 12.4, 9.1, 7.0, 4.6, 4.8, 5.6, 7.7, 10.2, 11.4, 12.5),
    minimum=(6.5, 6.5, 5.6, 3.8, 2.3, 0.6, 0.4, 0.5, 1.7, 2.7, 4.2, 5.3),
    precipitation=(39.9, 31.2, 40.2, 46.3, 37.3, 40.3, 38.2, 37.7, 30.3, 22.5, 36.9, 38.3),
    sunshine=(156.0, 148.0, 133.0, 95.0, 85.0, 45.0, 55.0, 98.0, 121.0, 159.0, 157.0, 150.0),
    snow_days=(0.0, 0.0, 0.0, 1.0, 2.7, 6.0, 4.2, 2.5, 3.2, 2.0, 0.0, 0.0),
    snow_days_cite=snow("87938", years=7),
    daily_spread=(2.4, 2.5, 2.5, 2.4, 2.4, 2.3, 2.2, 2.4, 2.4, 2.6, 2.8, 2.3),
    daily_spread_cite=spread("87938", years=12),
    humidity=(0.7, 0.74, 0.74, 0.76, 0.76, 0.8, 0.77, 0.75, 0.73, 0.68, 0.69, 0.71),
    vapour_pressure=(820.0, 860.0, 820.0, 720.0, 640.0, 580.0, 560.0, 560.0, 610.0, 650.0, 710.0, 780.0),
    lowest=(1.0, 0.7, -0.3, -4.5, -4.8, -6.0, -6.5, -5.5, -5.5, -4.9, -1.3, -1.0),
    snowy=False,
    doubts=(
        "Days with snow may read high where snowless months went unreported.",
        "The humidity follows from vapour pressure and mean temperature; in cold months some of it reads high.",
    ),
)

BALMACEDA = MonthlyNormals(
    name="Balmaceda",
    country="Chile",
    latitude=-45.91,
    longitude=-71.69,
    elevation=516.0,
    climate="southern Andes, windy steppe",
    period="2003-2021",
    kind=AVERAGED,
    cite=averaged("85874", years=14),
    mean=(12.6, 12.4, 9.8, 6.5, 3.6, 1.5, 0.6, 1.9, 4.5, 6.7, 9.0, 11.3),
    maximum=(18.8, 19.4, 16.8, 12.7, 8.8, 5.3, 4.6, 6.8, 10.4, 13.0, 15.0, 17.2),
    minimum=(6.8, 6.1, 4.6, 2.2, -0.1, -1.6, -2.4, -1.4, 0.3, 1.7, 3.9, 6.0),
    precipitation=(19.2, 19.4, 33.7, 47.4, 64.8, 85.2, 67.0, 50.2, 25.5, 35.9, 34.1, 22.3),
    daily_spread=(2.6, 2.6, 2.6, 3.1, 3.6, 3.4, 3.7, 2.6, 2.2, 2.2, 2.4, 2.5),
    daily_spread_cite=spread("85874", years=13),
    humidity=(0.61, 0.57, 0.66, 0.7, 0.78, 0.8, 0.82, 0.78, 0.69, 0.64, 0.62, 0.59),
    vapour_pressure=(880.0, 820.0, 810.0, 670.0, 620.0, 550.0, 520.0, 550.0, 590.0, 630.0, 700.0, 790.0),
    snowy=False,
    doubts=(
        "The humidity follows from vapour pressure and mean temperature; in cold months some of it reads high.",
    ),
)

TARA_HILLS = MonthlyNormals(
    name="Tara Hills (Omarama)",
    country="New Zealand",
    latitude=-44.53,
    longitude=169.89,
    elevation=485.0,
    climate="dry high country, southern hemisphere",
    period="1961-1990",
    kind=PUBLISHED,
    cite=sent("93747", "1961-1990"),
    mean=(16.7, 16.4, 12.9, 9.5, 6.3, 3.0, 1.8, 4.2, 7.2, 9.9, 11.8, 14.6),
    maximum=(23.9, 23.4, 19.7, 15.8, 12.1, 8.1, 6.9, 9.6, 13.2, 16.1, 18.4, 21.4),
    minimum=(9.5, 9.3, 6.2, 3.3, 0.4, -2.1, -3.3, -1.2, 1.2, 3.6, 5.3, 7.7),
    precipitation=(44.0, 35.0, 52.0, 39.0, 41.0, 48.0, 46.0, 43.0, 37.0, 41.0, 46.0, 54.0),
    daily_spread=(3.0, 2.8, 2.7, 2.7, 2.7, 2.7, 2.5, 2.2, 2.5, 2.8, 3.3, 2.6),
    daily_spread_cite=spread("93747", years=16),
    humidity=(0.61, 0.62, 0.7, 0.75, 0.72, 0.75, 0.76, 0.74, 0.7, 0.68, 0.63, 0.6),
    vapour_pressure=(1150.0, 1160.0, 1040.0, 890.0, 690.0, 570.0, 530.0, 610.0, 710.0, 830.0, 870.0, 990.0),
    lowest=(0.3, -1.4, -2.3, -6.3, -10.8, -10.8, -11.7, -9.0, -5.3, -5.0, -4.2, -2.3),
    snowy=False,
    note="The years 2003-2021 were 0.4 K warmer than this table.",
    doubts=(
        "The service sent two tables for the same years; the one sent most often is used.",
        "The humidity follows from vapour pressure and mean temperature; in cold months some of it reads high.",
    ),
)

PLACES: tuple[MonthlyNormals, ...] = (
    BARILOCHE,
    EL_CALAFATE,
    USHUAIA,
    BALMACEDA,
    TARA_HILLS,
)
