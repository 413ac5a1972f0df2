"""Where the house takes in light: its windows as the sun sees them, and its horizon."""

from bermwright.takeoff.light.windows import SHUTTER, HouseWindow, site_horizon, windows_of

__all__ = ["SHUTTER", "HouseWindow", "site_horizon", "windows_of"]
