"""Glass and windows: heat lost, sun let in, and what is left of both over a year.

Start reading at `year.py`; `panes.py` is the glass in winter, `solar.py` the glass in the sun,
`window.py` the frame and the shutter, `plate.py` the pane in the wind, `setting.py` how it is set.
"""

from bermwright.handbook.glazing.panes import (
    gap_resistances,
    gas_conductance,
    glass_u,
    radiant_conductance,
)
from bermwright.handbook.glazing.plate import (
    GlassKind,
    Lasting,
    glass_strength,
    pane_deflection,
    pane_stress,
    pane_thickness,
)
from bermwright.handbook.glazing.setting import Rebate, pane_rebate, setting_block
from bermwright.handbook.glazing.solar import absorbed, clear_pane, diffuse_factor, solar_factor
from bermwright.handbook.glazing.window import Fit, frame_share, shuttered_u, window_u
from bermwright.handbook.glazing.year import (
    Balance,
    Frame,
    ScanRow,
    Window,
    WindowYear,
    compare_glasses,
    sun_through,
    window_balance,
    window_of,
    window_scan,
    window_year,
)

__all__ = [
    "Balance", "Fit", "Frame", "GlassKind", "Lasting", "Rebate", "ScanRow", "Window", "WindowYear",
    "absorbed", "clear_pane", "compare_glasses", "diffuse_factor", "frame_share", "gap_resistances",
    "gas_conductance", "glass_strength", "glass_u", "pane_deflection", "pane_rebate", "pane_stress",
    "pane_thickness", "radiant_conductance", "setting_block", "shuttered_u", "solar_factor",
    "sun_through", "window_balance", "window_of", "window_scan", "window_u", "window_year",
]  # fmt: skip
