"""House to geometry: the vault's curves, its rib pieces and the ground, as arrays in metres.

Knows the house, asks the handbook, holds no load and no strength. Start reading at `vault.py`.
"""

from bermwright.form.earth import fill_area, under_turf
from bermwright.form.known import FormUnknownError
from bermwright.form.room import headroom
from bermwright.form.vault import missing_for_form, vault_form

__all__ = ["FormUnknownError", "fill_area", "headroom", "missing_for_form", "under_turf", "vault_form"]
