"""Setting out by hand: right angles, levels, survey points, and curves at full size.

Start reading at `ordinates.py` (curves), `squares.py` (pegs) and `levels.py` (heights).
"""

from bermwright.handbook.setout.centres import (
    FourCentres,
    TwoRadii,
    crown_radius,
    egg_flank,
    four_centred,
    radii_by_diagonal,
    radii_by_sixty,
)
from bermwright.handbook.setout.chords import (
    chain_point,
    chord_of_arc,
    chord_ordinate,
    deflection_angle,
    tangent_length,
    three_nail_angle,
)
from bermwright.handbook.setout.fairing import Fairing, fairing
from bermwright.handbook.setout.hanging import crown_for_length, shell_span
from bermwright.handbook.setout.levels import (
    Levelled,
    adjust_heights,
    allowed_closure,
    footing_steps,
    rise_and_fall,
    sight_error,
    spread_closure,
)
from bermwright.handbook.setout.ordinates import (
    Offsets,
    ordinates_by_distance,
    ordinates_by_height,
    string_length,
)
from bermwright.handbook.setout.squares import corner_angle, diagonal, out_of_square, three_four_five
from bermwright.handbook.setout.survey import (
    Plane,
    Traverse,
    close_traverse,
    fit_plane,
    local_metres,
    odd_heights,
)

__all__ = [
    "Fairing", "FourCentres", "Levelled", "Offsets", "Plane", "Traverse", "TwoRadii", "adjust_heights",
    "allowed_closure", "chain_point", "chord_of_arc", "chord_ordinate", "close_traverse", "corner_angle",
    "crown_for_length", "crown_radius", "deflection_angle", "diagonal", "egg_flank", "fairing", "fit_plane",
    "footing_steps", "four_centred", "local_metres", "odd_heights", "ordinates_by_distance",
    "ordinates_by_height", "out_of_square", "radii_by_diagonal", "radii_by_sixty", "rise_and_fall",
    "shell_span", "sight_error", "spread_closure", "string_length", "tangent_length", "three_four_five",
    "three_nail_angle",
]  # fmt: skip
