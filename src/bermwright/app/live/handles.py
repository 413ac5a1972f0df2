"""Handles of the section: what may be dragged, where it stands, and what a place of the hand means."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.units import feet_and_inches, show
from bermwright.house.fields import Quantity, said_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.shapes import CoverBand, VaultForm
    from bermwright.house import House, Vault
    from bermwright.house.checks import Key
    from bermwright.house.fields import Said
