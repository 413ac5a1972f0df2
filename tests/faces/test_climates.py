from __future__ import annotations

import json


def test_every_station_is_listed(run):
    code, out, _ = run("schema", "--climates")
    assert code == 0
    assert "Östersund Frösön" in out
    assert "74 stations." in out


def test_the_list_is_json_on_demand(run, tmp_path):
    code, out, _ = run("schema", "--climates", "--json")
    assert code == 0
    assert len(json.loads(out)) == 74
    target = tmp_path / "stations.json"
    assert run("schema", "--climates", "-o", target)[0] == 0
    assert json.loads(target.read_text(encoding="utf-8")) == json.loads(out)


def test_a_station_that_is_not_there_is_a_mistake_in_the_file(run, tmp_path):
    path = tmp_path / "house.toml"
    assert run("new", path, "--name", "x")[0] == 0
    text = path.read_text(encoding="utf-8")
    path.write_text(
        text.replace('# climate = "normals:Östersund Frösön"', 'climate = "normals:Estevn"', 1),
        encoding="utf-8",
    )
    code, out, err = run("check", path)
    assert code == 2
    said = out + err
    assert "site > climate" in said
    assert "is not a packaged station." in said
    assert '"normals:Estevan"' in said
