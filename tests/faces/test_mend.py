"""`bermwright mend` as a builder meets it."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest

from bermwright.cli.main import main

if TYPE_CHECKING:
    from pathlib import Path

KETTLE = "examples/kettle-hill.toml"
FLUE = ("--finding", "flue ends over the snow")


def test_a_copy_is_written_once_and_never_over_a_file(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    copy = tmp_path / "copy.toml"
    assert main(["mend", KETTLE, *FLUE, "--apply", "1", "-o", str(copy)]) == 0
    assert "fails 1.30 → holds" in capsys.readouterr().out
    text = copy.read_text(encoding="utf-8")
    assert 'terminal_height = "1.8 m"  # mend: flue-ends-over-the-snow, was 1.2 m' in text
    assert main(["mend", KETTLE, *FLUE, "--apply", "1", "-o", str(copy)]) == 2
    assert copy.read_text(encoding="utf-8") == text


def test_json_numbers_its_proposals(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["mend", KETTLE, *FLUE, "--json"]) == 0
    data = json.loads(capsys.readouterr().out)
    proposal = data["findings"][0]["proposals"][0]
    assert proposal["number"] == 1
    assert proposal["writes"] == [{"key": ["stove", 0, "terminal_height"], "value": "1.8 m"}]
    assert proposal["after"][0]["verdict"] == "holds"
    assert {"rule": "ribs-bend", "part": 'vault "great room"'} in data["not_looked_at_yet"]


def test_a_name_that_is_not_against_the_builder_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["mend", KETTLE, "--finding", "planks-carry-the-soil"]) == 2
    assert "Not holding: fill-keeps-to-its-stop-marks" in capsys.readouterr().err


def test_a_slip_in_a_name_or_number_is_told_before_the_house_is_looked_at(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("bermwright.app.mending.assess_file", None)
    assert main(["mend", KETTLE, "--finding", "ribs-bends"]) == 2
    assert "Did you mean ribs-bend?" in capsys.readouterr().err
    assert main(["mend", KETTLE, "--apply", "0"]) == 2
    assert "count from 1" in capsys.readouterr().err


def test_where_to_write_needs_to_know_what(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["mend", KETTLE, "-o", "never.toml"]) == 2
    assert "--apply" in capsys.readouterr().err


def test_only_what_is_looked_at_counts_for_the_exit_code(capsys: pytest.CaptureFixture[str]) -> None:
    # Dozens of findings of this house fail: one that can be mended gives 0 (above), one not known gives 1.
    assert main(["mend", KETTLE, "--finding", "drains-stay-open"]) == 1
    with pytest.raises(SystemExit):
        main(["mend", "--help"])
    assert "the others are listed and do not count" in " ".join(capsys.readouterr().out.split())
