"""Where the house takes in light: its windows as the sun sees them, and its horizon."""

from bermwright.takeoff.light.windows import HouseWindow, site_horizon, windows_of

__all__ = ["HouseWindow", "site_horizon", "windows_of"]
