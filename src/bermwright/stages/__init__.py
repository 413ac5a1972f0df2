"""House and forms to the building sequence: what stands when, under which loads.

Stages are solved in order; each lists its cases. Start reading at `sequence.py`, then `cases.py`; `face.py`
holds where soil lies on the vault, `loads.py` the rest of what presses on it.
"""

from __future__ import annotations

from bermwright.stages.face import Build, build_of, soil_depth
from bermwright.stages.given import Ballast, Given, Standing
from bermwright.stages.nouns import FILLING, Action, Case, Compaction, Duration, Stage, StageKind
from bermwright.stages.sequence import building_sequence, fill_base, fill_levels, staged

__all__ = [
    "FILLING",
    "Action",
    "Ballast",
    "Build",
    "Case",
    "Compaction",
    "Duration",
    "Given",
    "Stage",
    "StageKind",
    "Standing",
    "build_of",
    "building_sequence",
    "fill_base",
    "fill_levels",
    "soil_depth",
    "staged",
]
