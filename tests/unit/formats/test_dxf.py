"""DXF and PDF: audited, in millimetres, arcs stay arcs, measures read back, the same bytes each time."""

from __future__ import annotations

import io
import math
from dataclasses import replace

import pytest

from bermwright.base.drawing import (
    Arc,
    Area,
    Clip,
    Dimension,
    Hatch,
    Pen,
    Sheet,
    Spline,
    Stroke,
    Text,
    View,
    Wash,
)
from bermwright.formats.drawings import DrawingError, dxf, pdf

VIEW = View(origin=(60.0, 20.0), scale=50.0)


def sheet(*items, view=VIEW):
    return Sheet(width=200.0, height=120.0, items=items, title="trial", view=view)


def span():
    return Dimension(start=VIEW.point(-0.4, 0.0), end=VIEW.point(4.4, 0.0), offset=-6.0, text="4800")


def read(data):
    import ezdxf

    document = ezdxf.read(io.StringIO(data.decode()))
    audit = document.audit()
    assert audit.errors == []
    assert audit.fixes == []
    return document


def test_a_hundred_millimetres_are_a_hundred_on_paper():
    document = read(dxf(sheet(Stroke(path=((20.0, 10.0), (120.0, 10.0)), pen=Pen.CUT))))
    (line,) = document.modelspace().query("LINE")
    assert line.dxf.start.distance(line.dxf.end) == pytest.approx(100.0, abs=1e-9)
    assert document.header["$INSUNITS"] == 4
    assert document.dxfversion == "AC1024"


def test_at_full_size_a_span_measures_itself_from_the_houses_origin():
    post = Stroke(path=(VIEW.point(0.0, 0.0), VIEW.point(4.8, 0.0)), pen=Pen.CUT)
    document = read(dxf(sheet(post, span()), full_size=True))
    (line,) = document.modelspace().query("LINE")
    assert tuple(line.dxf.start) == pytest.approx((0.0, 0.0, 0.0), abs=1e-6)
    assert tuple(line.dxf.end) == pytest.approx((4800.0, 0.0, 0.0), abs=1e-6)
    (dimension,) = document.modelspace().query("DIMENSION")
    assert dimension.get_measurement() == pytest.approx(4800.0)


def test_on_paper_a_dimension_still_says_millimetres_of_the_house():
    (dimension,) = read(dxf(sheet(span()))).modelspace().query("DIMENSION")
    assert dimension.dxf.actual_measurement == pytest.approx(4800.0)
    assert dimension.dxf.text == "4800"


def test_a_figure_moved_aside_stands_aside_in_the_file_too():
    plain, moved = span(), replace(span(), shift=(12.0, 8.0))
    places = []
    for item in (plain, moved):
        (dimension,) = read(dxf(sheet(item))).modelspace().query("DIMENSION")
        assert dimension.dxf.actual_measurement == pytest.approx(4800.0)
        (words,) = (one for one in dimension.virtual_entities() if one.dxftype() in {"TEXT", "MTEXT"})
        places.append(words.dxf.insert)
    assert places[1].x - places[0].x == pytest.approx(12.0, abs=0.6)
    assert places[1].y - places[0].y == pytest.approx(8.0, abs=0.6)


@pytest.mark.parametrize("full_size", [False, True])
def test_a_dimension_of_a_detail_at_its_own_scale_measures_itself_too(full_size):
    detail = Dimension(start=(100.0, 50.0), end=(108.0, 50.0), offset=5.0, text="160", scale=20.0)
    dimensions = read(dxf(sheet(span(), detail), full_size=full_size)).modelspace().query("DIMENSION")
    assert [one.dxf.actual_measurement for one in dimensions] == pytest.approx([4800.0, 160.0])


def test_arcs_stay_arcs_and_splines_splines():
    items = (
        Arc(centre=(50.0, 50.0), radius=20.0, start=0.5, end=2.0, pen=Pen.SEEN),
        Arc(centre=(50.0, 50.0), radius=10.0, start=0.0, end=2.0 * math.pi, pen=Pen.SEEN),
        Spline(path=((0.0, 0.0), (10.0, 8.0), (20.0, 0.0), (30.0, 5.0)), pen=Pen.SEEN),
    )
    space = read(dxf(sheet(*items), full_size=True)).modelspace()
    (arc,) = space.query("ARC")
    assert arc.dxf.radius == pytest.approx(1000.0)
    assert math.radians(arc.dxf.start_angle) == pytest.approx(0.5)
    assert math.radians(arc.dxf.end_angle) == pytest.approx(2.0)
    assert len(space.query("CIRCLE")) == 1
    (spline,) = space.query("SPLINE")
    ends = [tuple(p)[:2] for p in (spline.control_points[0], spline.control_points[-1])]
    assert ends == [pytest.approx((-3000.0, -1000.0)), pytest.approx((-1500.0, -750.0))]


def test_layers_follow_iso_13567():
    items = (
        Area(
            path=((0, 0), (40, 0), (40, 30)),
            wash=Wash.EARTH,
            hatch=Hatch.EARTH_IN_PLACE,
            outline=Pen.SEEN,
            layer="earth",
        ),
        Text(at=(5, 5), text="±0.00 × −"),
        span(),
        Stroke(path=((0, 0), (9, 0)), pen=Pen.FRAME, layer="frame"),
    )
    document = read(dxf(sheet(*items)))
    names = {entity.dxf.layer for entity in document.modelspace()}
    assert {"A-EARTH-E-", "A-EARTH-H-", "A-TEXT--T-", "A-DIMENSD-", "A-FRAME-B-"} <= names
    assert all(len(name) == 10 for name in names)
    assert {text.dxf.text for text in document.modelspace().query("TEXT")} >= {"±0.00 × −"}


def test_what_a_window_hides_is_not_in_the_file():
    clip = Clip(
        low=(10, 10), high=(50, 50), items=(Stroke(path=((0, 30), (100, 30)), pen=Pen.CUT),), round=True
    )
    (line,) = read(dxf(sheet(clip))).modelspace().query("LINE")
    xs = sorted((line.dxf.start.x, line.dxf.end.x))
    assert xs == pytest.approx([10.0, 50.0], abs=0.01)


def test_an_arc_wholly_in_a_window_stays_one_and_a_cut_one_does_not():
    def entities(radius):
        arc = Arc(centre=(30, 30), radius=radius, start=0.1, end=3.0, pen=Pen.CUT)
        space = read(dxf(sheet(Clip(low=(10, 10), high=(50, 50), items=(arc,))))).modelspace()
        return {entity.dxftype() for entity in space}

    assert "ARC" in entities(10.0)
    assert "ARC" not in entities(25.0)


def test_every_file_bears_the_mark():
    texts = {text.dxf.text for text in read(dxf(sheet())).modelspace().query("TEXT")}
    assert texts == {"calculation aid, not reviewed"}


def test_sheets_lie_side_by_side():
    line = Stroke(path=((0.0, 0.0), (10.0, 0.0)), pen=Pen.CUT)
    first, second = read(dxf(sheet(line), sheet(line))).modelspace().query("LINE")
    assert second.dxf.start.x - first.dxf.start.x == pytest.approx(220.0)


def test_no_view_no_full_size_and_no_sheet_no_file():
    with pytest.raises(DrawingError, match="no main view"):
        dxf(sheet(view=None), full_size=True)
    with pytest.raises(DrawingError, match="at least one sheet"):
        dxf()
    with pytest.raises(DrawingError, match="at least one sheet"):
        pdf(date="2026-11-24")


def test_the_same_sheet_gives_the_same_dxf_and_pdf():
    trial = sheet(
        span(), Text(at=(5, 5), text="a"), Arc(centre=(5, 5), radius=3, start=0, end=1, pen=Pen.CUT)
    )
    assert dxf(trial) == dxf(trial)
    assert pdf(trial, date="2026-11-24") == pdf(trial, date="2026-11-24")
    assert pdf(trial, date="2026-11-24") != pdf(trial, date="2026-11-25")


def test_a_hundred_millimetres_are_a_hundred_in_the_pdf():
    import pdfplumber

    items = (
        Stroke(path=((20.0, 10.0), (120.0, 10.0)), pen=Pen.CUT),
        Stroke(path=((150.0, 10.0), (150.0, 110.0)), pen=Pen.CUT),
    )
    with pdfplumber.open(io.BytesIO(pdf(sheet(*items), date="2026-11-24"))) as document:
        (page,) = document.pages
        per_mm = 72.0 / 25.4
        assert float(page.width) / per_mm == pytest.approx(200.0, abs=0.01)
        assert float(page.height) / per_mm == pytest.approx(120.0, abs=0.01)
        across, up = page.lines
        assert (across["x1"] - across["x0"]) / per_mm == pytest.approx(100.0, abs=0.01)
        assert (up["bottom"] - up["top"]) / per_mm == pytest.approx(100.0, abs=0.01)
        assert across["x0"] / per_mm == pytest.approx(20.0, abs=0.01)


def test_the_pdf_is_set_in_the_faces_that_are_named():
    import pdfplumber

    from bermwright.base.drawing import Lettering

    items = tuple(Text(at=(10, 20 + 10 * k), text="Rib 4.80", face=face) for k, face in enumerate(Lettering))
    with pdfplumber.open(io.BytesIO(pdf(sheet(*items), date="2026-11-24"))) as document:
        fonts = {character["fontname"].split("+")[-1] for character in document.pages[0].chars}
    assert any(name.startswith("LibertinusSerif") and "Italic" in name for name in fonts)
    assert any(name.startswith("LibertinusSerif") and "Italic" not in name for name in fonts)
    assert any(name.startswith("DejaVuSansMono") for name in fonts)
