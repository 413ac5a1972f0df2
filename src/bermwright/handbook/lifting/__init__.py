"""What people may lift, alone and together. Start reading at `limits.py`."""

from bermwright.handbook.lifting.limits import lifters_needed, recommended_weight_limit, team_capacity

__all__ = ["lifters_needed", "recommended_weight_limit", "team_capacity"]
