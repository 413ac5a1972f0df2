"""Every error goes from a worker to the server whole, whatever it was made of."""

from __future__ import annotations

import pickle

import pytest

from bermwright.base.errors import BermwrightError, HouseFileError, Mistake
from bermwright.form.dome import DomeProblemError, DomeUnknownError
from bermwright.form.known import FormUnknownError
from bermwright.formats.making.readings import ReadingsError

MISTAKE = Mistake(place="vault > span", line=3, given="wide", allowed="It is a length.", advice="Write 4 m.")


@pytest.mark.parametrize(
    "error",
    [
        BermwrightError("Write it."),
        HouseFileError("house.toml", (MISTAKE,)),
        FormUnknownError("day room", ("span",)),
        DomeUnknownError("round room", ("rise",)),
        DomeProblemError("round room", "pivot", "stands inside the wall.", "Move it."),
        ReadingsError("radii", ["line 3: two"]),
    ],
    ids=lambda error: type(error).__name__,
)
def test_an_error_comes_back_as_it_was_raised(error) -> None:
    back = pickle.loads(pickle.dumps(error))  # noqa: S301  (our own)
    assert type(back) is type(error)
    assert (str(back), back.args, back.__dict__) == (str(error), error.args, error.__dict__)
