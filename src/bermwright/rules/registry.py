"""Every rule there is, and by name what no rule covers yet."""

from __future__ import annotations

from difflib import get_close_matches
from typing import TYPE_CHECKING

from bermwright.base.errors import BermwrightError
from bermwright.rules.air.fresh import FRESH_AIR
from bermwright.rules.air.stove import STOVE_AIR
from bermwright.rules.air.tube import INTAKE_TUBE
from bermwright.rules.damp.corners import CORNERS
from bermwright.rules.damp.layers import LAYERS_DRY
from bermwright.rules.damp.ribs import RIBS_DRY
from bermwright.rules.domes.standing import DOMES_STAND
from bermwright.rules.erection.bracing import RIBS_STAND_UP
from bermwright.rules.erection.lifting import RIBS_ARE_LIFTED
from bermwright.rules.fire.escape import ALARMS_WAKE, TWO_WAYS_OUT, WAY_OUT_IS_SHORT
from bermwright.rules.fire.stoves import FLUE_OVER_SNOW, FLUE_THROUGH, HEARTH_IS_DEEP, STOVE_KEEPS_OFF
from bermwright.rules.fire.timber import NAILS_IN_FIRE, PLANKS_IN_FIRE, RIBS_IN_FIRE
from bermwright.rules.grids.holding import STEPS_STAND
from bermwright.rules.lasting.crushed import NOT_CRUSHED
from bermwright.rules.lasting.foam import FOAM_HOLDS
from bermwright.rules.lasting.frost import FROST
from bermwright.rules.lasting.leak import LEAK
from bermwright.rules.lasting.lost import NEIGHBOURS
from bermwright.rules.lasting.pipes import DRAINS_OPEN, PIPES_HOLD
from bermwright.rules.lasting.plank import LOST_PLANK
from bermwright.rules.lasting.water import FLOOR_DRY
from bermwright.rules.lasting.wood import WOOD_FITS
from bermwright.rules.openings.cut import COLLARS_STAND_OUT, HEADERS_CARRY, TRIMMERS_CARRY
from bermwright.rules.openings.ends import END_PLANKS, END_POSTS, END_WALLS, ENDS_ARE_CLOSED
from bermwright.rules.openings.falling import RIBS_UNDER_FALL
from bermwright.rules.openings.floors import FLOORS_ARE_FIRM, FLOORS_CARRY
from bermwright.rules.openings.graded import BOARDS_ARE_GRADED
from bermwright.rules.openings.lintels import LINTELS_CARRY, OPENINGS_FIT
from bermwright.rules.openings.logs import BEAMS_CARRY, POSTS_CARRY
from bermwright.rules.ribs.bending import RIBS_BEND
from bermwright.rules.ribs.buckling import RIBS_BUCKLE, RIBS_TIP
from bermwright.rules.ribs.feet import FEET_BEAR
from bermwright.rules.ribs.joints import NAILS_CARRY, NAILS_FIT
from bermwright.rules.ribs.lagging import PLANKS_CARRY
from bermwright.rules.ribs.laminations import BOARDS_BEND, NAILS_TIE
from bermwright.rules.ribs.movement import PIECES_LIFT, RIBS_STAY
from bermwright.rules.ribs.shear import RIBS_SHEAR
from bermwright.rules.soil.actions import ACTIONS_ARE_KNOWN
from bermwright.rules.soil.filling import STOP_MARKS
from bermwright.rules.soil.membrane import SOIL_GRIPS
from bermwright.rules.soil.validity import WITHIN_METHODS
from bermwright.rules.soil.winter import FIRST_WINTER
from bermwright.rules.supports.breaking import FOOTINGS_HOLD, WALLS_HOLD
from bermwright.rules.supports.ground import FORCE_STAYS, GROUND_CARRIES
from bermwright.rules.supports.parts.buttresses import BUTTRESSES_STAND
from bermwright.rules.supports.parts.joined import FLOOR_TIE_HOLDS
from bermwright.rules.supports.parts.rings import RING_HOLDS
from bermwright.rules.supports.parts.shoes import FEET_STAY
from bermwright.rules.supports.pressing import FOOT_FORCES
from bermwright.rules.supports.shaking import SUPPORTS_SHAKEN
from bermwright.rules.supports.turning import SUPPORTS_STAY, SUPPORTS_TURN
from bermwright.rules.whole.along import LEANS_ALONG
from bermwright.rules.whole.along_storms import STORMS_ALONG
from bermwright.rules.whole.body import HOUSE_STAYS
from bermwright.rules.whole.cover import COVER_STAYS
from bermwright.rules.whole.forces import FORCES_CLOSE
from bermwright.rules.whole.slopes import SLOPES_STAY
from bermwright.rules.whole.storms import QUAKE_STANDS, WIND_STANDS
from bermwright.rules.whole.surveyed import GROUND_AS_SURVEYED
from bermwright.rules.whole.wheels import WHEELS_KEEP_OFF

if TYPE_CHECKING:
    from bermwright.rules.nouns import AnyRule, HouseRule, Rule

RULES: tuple[Rule, ...] = (
    RIBS_BEND,
    RIBS_SHEAR,
    NAILS_CARRY,
    NAILS_FIT,
    BOARDS_BEND,
    NAILS_TIE,
    RIBS_BUCKLE,
    RIBS_TIP,
    RIBS_STAY,
    FEET_BEAR,
    FOOT_FORCES,
    FEET_STAY,
    SUPPORTS_TURN,
    SUPPORTS_STAY,
    GROUND_CARRIES,
    FORCE_STAYS,
    WALLS_HOLD,
    FOOTINGS_HOLD,
    FLOOR_TIE_HOLDS,
    RING_HOLDS,
    BUTTRESSES_STAND,
    SUPPORTS_SHAKEN,
    PLANKS_CARRY,
    PIECES_LIFT,
    NEIGHBOURS,
    LOST_PLANK,
    LEAK,
    NOT_CRUSHED,
    FOAM_HOLDS,
    FROST,
    FLOOR_DRY,
    HEADERS_CARRY,
    TRIMMERS_CARRY,
    COLLARS_STAND_OUT,
    RIBS_UNDER_FALL,
    RIBS_IN_FIRE,
    PLANKS_IN_FIRE,
    NAILS_IN_FIRE,
    STOP_MARKS,
    SOIL_GRIPS,
    FIRST_WINTER,
    ACTIONS_ARE_KNOWN,
    FORCES_CLOSE,
    HOUSE_STAYS,
    LEANS_ALONG,
    STORMS_ALONG,
    SLOPES_STAY,
    COVER_STAYS,
    WIND_STANDS,
    QUAKE_STANDS,
    WHEELS_KEEP_OFF,
    RIBS_STAND_UP,
    RIBS_ARE_LIFTED,
    WITHIN_METHODS,
)

HOUSE_RULES: tuple[HouseRule, ...] = (
    DOMES_STAND,
    GROUND_AS_SURVEYED,
    STEPS_STAND,
    ENDS_ARE_CLOSED,
    END_PLANKS,
    END_POSTS,
    END_WALLS,
    OPENINGS_FIT,
    LINTELS_CARRY,
    BEAMS_CARRY,
    POSTS_CARRY,
    FLOORS_CARRY,
    FLOORS_ARE_FIRM,
    BOARDS_ARE_GRADED,
    TWO_WAYS_OUT,
    WAY_OUT_IS_SHORT,
    ALARMS_WAKE,
    STOVE_KEEPS_OFF,
    FLUE_THROUGH,
    FLUE_OVER_SNOW,
    HEARTH_IS_DEEP,
    LAYERS_DRY,
    CORNERS,
    RIBS_DRY,
    WOOD_FITS,
    PIPES_HOLD,
    DRAINS_OPEN,
    FRESH_AIR,
    INTAKE_TUBE,
    STOVE_AIR,
)
"""Rules on the whole house and on the parts beside its vaults."""

EVERY_RULE: tuple[AnyRule, ...] = (*RULES, *HOUSE_RULES)

NOT_CHECKED: tuple[str, ...] = (
    "domes: thrust, rings, openings, soil, snow, wind and earthquake; only their shape and courses are drawn",
    "the bank of the dig before it is filled; clay without time to drain, in slopes and under footings",
    "how much the ground settles; ground under end walls, inner walls, posts and stoves",
    "wind on end walls and doors; an earthquake on end walls, posts and floors",
    "the published tables of frost-protected footings",
    "fire in linings of plaster, in floors, posts and end walls; fire brigade access",
    "buckling of the ribs beside a lost one, water that a leak lets into the room",
    "pipes of clay and concrete, wheels over pipes, pressure on an insulation umbrella in the ground",
    "air that leaks through joints into the layers, and driving rain; radon; insects and termites",
    "heat by the hour: `bermwright winter` reckons it",
)


class UnknownRuleError(BermwrightError, KeyError):
    """A name that is no rule."""

    def __str__(self) -> str:
        return str(self.args[0])


def rule_named(name: str) -> AnyRule:
    """The rule of that name, with spaces or hyphens."""
    wanted = name.strip().lower().replace(" ", "-")
    names = {rule.name: rule for rule in EVERY_RULE}
    if wanted in names:
        return names[wanted]
    near = get_close_matches(wanted, names, n=1)
    hint = f" Did you mean {near[0]}?" if near else ""
    raise UnknownRuleError(f"There is no rule named {name!r}.{hint} There are: {', '.join(names)}.")
