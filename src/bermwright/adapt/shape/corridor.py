"""What the ribs can take of bending alone, in the terms in which bending is compared."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.data.timber_classes import GAMMA_CONNECTION
from bermwright.handbook import timber as ec5
from bermwright.stages import Duration

if TYPE_CHECKING:
    from bermwright.adapt.shape.envelope import Ribs


@dataclass(frozen=True, slots=True, kw_only=True)
class Corridor:
    """Bending per metre of vault that uses up the strength while filling (N m/m, characteristic loads)."""

    boards: float
    nails: float
    """NaN where the nails are not known; infinite where there is no joint."""

    @property
    def least(self) -> float:
        """The smaller of both."""
        return self.boards if math.isnan(self.nails) else min(self.boards, self.nails)


def corridor_of(ribs: Ribs) -> Corridor:
    """Bending alone, with loads of medium duration and all partial factors; thrust takes a little more."""
    strength = ribs.strength
    kmod = ec5.modification_factor(strength.service_class, str(Duration.MEDIUM))
    share = ribs.form.spacing * max(one.permanent for one in ribs.model.factor_sets) * _model_factor(ribs)
    boards = float(strength.design(strength.bending_strength, kmod)) * strength.modulus
    return Corridor(boards=boards / share, nails=_nails(ribs, kmod) / share)


def _model_factor(ribs: Ribs) -> float:
    """The factor on bending where the heavy soil run is left out."""
    return 1.0 if ribs.model.placing.heavy else ribs.model.model_factor


def _nails(ribs: Ribs, kmod: float) -> float:
    joint = ribs.strength.joint
    if not ribs.strength.joint_nodes.size:
        return math.inf
    if joint is None:
        return math.nan
    limit = ec5.design_strength(joint.resistance * joint.effective, kmod, gamma=GAMMA_CONNECTION.value)
    one, none = np.array(1.0), np.array(0.0)
    return float(limit / joint.force(one, none, none, ribs.strength.layers))
