"""The words of the trade, each explained in one plain sentence.

Faces show the sentence where the word stands. A word that a title or a label uses is either everyday
language or has its place here; a test keeps it so.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache


@dataclass(frozen=True, slots=True)
class Term:
    """One word of the trade."""

    name: str
    says: str
    also: tuple[str, ...] = ()
    """Other forms under which it stands in sentences."""
    marked: bool = True
    """Whether the word alone means this in a sentence: "lead" is a verb as well, "the lead" is none."""

    @property
    def forms(self) -> tuple[str, ...]:
        """Every way in which it is written where it means this."""
        return (self.name, *self.also) if self.marked else self.also


GLOSSARY: tuple[Term, ...] = (
    # the shape of a vault
    Term("axis", "The line along the middle of a vault, looked along when walking in."),
    Term("catenary", "The curve of a chain hanging by its ends; upside down it carries its own weight without bending.", ("catenaries",)),
    Term("crown", "The highest part of a vault, over the middle of the room.", ("crowns",)),
    Term("course", "One level row of blocks, stones or earth tubes.", ("courses",)),
    Term("dome", "A vault that is round in plan, like half an egg.", ("domes",)),
    Term("ellipse", "A circle pressed flat."),
    Term("foot", "The lower end of a rib, where it stands on its wall or footing.", ("feet",)),
    Term("haunch", "The part of a vault between foot and crown, where soil presses hardest from the side.", ("haunches",)),
    Term("headroom", "The height that is left for a person to stand."),
    Term("middle line", "The line halfway between the inner and the outer face of a rib.", ("centreline",)),
    Term("pointed arch", "An arch of two curves that meet in a ridge at the crown."),
    Term("rise", "The height of the crown over the feet."),
    Term("section", "The house as it looks when it is cut across."),
    Term("shell", "Everything that closes the room against the soil: ribs, planks and the layers over them.", ("shells",)),
    Term("span", "The width between the two feet of a vault.", ("spans",)),
    Term("springing", "The level at which the vault begins: that of its feet."),
    Term("three-centred arch", "An arch drawn with a compass from three places, flat at the top and round at the sides.", ("three-centred",)),
    Term("under cover", "A curve that follows from the soil over it, so that the finished ribs are pressed and not bent."),
    Term("vault", "A roof that is bent like a tunnel and stands by being pressed together.", ("vaults",)),
    # what it is made of
    Term("bent laminations", "Thin boards bent over each other and nailed into one curved rib.", ("bent boards",)),
    Term("bay", "The room between one rib and the next.", ("bays",)),
    Term("bond beam", "A beam of concrete along the top of a wall that joins it and takes pull.", ("bond beams",)),
    Term("butt joint", "Where two boards of a layer meet end to end; there only the other layers go through.", ("butt joints",)),
    Term("buttress", "A thick piece of wall square to another, which stands against its being pushed over.", ("buttresses",)),
    Term("collar", "The upstand around a hole in the vault that keeps soil and water out.", ("collars",)),
    Term("design strength", "What a part can be trusted with, after a margin for chance has been taken off."),
    Term("drainage", "A layer through which water runs down and away.", ("drain", "drains", "drained")),
    Term("fleece", "A cloth that lets water through and holds soil back."),
    Term("flue", "The pipe that leads smoke out.", ("flues",)),
    Term("footing", "The wide strip in the ground that spreads the weight of a wall.", ("footings",)),
    Term("geogrid", "An open net of strong plastic that holds the soil laid on it.", ("geogrids",)),
    Term("hanger", "A piece of folded steel in which the end of a beam hangs."),
    Term("header", "The short beam over an opening that catches the ends of cut ribs.", ("headers",)),
    Term("hinge", "A place that can turn but not move."),
    Term("joist", "One of a row of beams that carry a floor.", ("joists",)),
    Term("insulation", "A layer that holds warmth."),
    Term("lagging", "The planks laid across the ribs, which carry the soil to them.", ("lagged", "lagging planks")),
    Term("lintel", "The beam over a door or window in a wall.", ("lintels",)),
    Term("membrane", "The sheet that keeps the water out.", ("membranes",)),
    Term("plate", "The timber that lies on a wall and takes the feet of the ribs; also the flat machine that beats soil.", ("plates",)),
    Term("purlin", "A beam along the house that carries what lies across it.", ("purlins",)),
    Term("rib", "One of the curved timbers that stand in a row and carry the vault.", ("ribs",)),
    Term("segment ribs", "Ribs nailed together from short sawn pieces in several layers.", ("segment rib",)),
    Term("shoe", "The steel or timber piece in which the foot of a rib stands.", ("shoes", "foot shoes")),
    Term("socket", "What holds the foot of a rib in its place.", ("sockets",)),
    Term("strength class", "A letter and a number, such as C24, that say how strong sorted timber is.", ("strength classes",)),
    Term("tie", "A rod, timber or slab that keeps two things from moving apart.", ("ties", "floor tie")),
    Term("trimmer", "The stronger rib beside an opening that carries for those that were cut.", ("trimmers",)),
    Term("vapour control", "A layer inside that keeps the damp of the room out of the insulation."),
    # soil and water
    Term("angle of friction", "How steeply a dry heap of the soil would just stand; the larger, the less it pushes sideways.", ("friction angle", "friction")),
    Term("back-water level", "The height to which water rises beside the house when its drain is blocked.", ("backs up",)),
    Term("cohesion", "The stickiness of soil, which holds it together without weight on it."),
    Term("compaction", "Beating or rolling soil until it lies dense.", ("compacted", "compacts")),
    Term("fat clay", "Clay that swells when it is wet and shrinks when it is dry."),
    Term("fill", "The soil that is placed around and over the vault."),
    Term("frost heave", "Freezing soil draws water up and swells; what stands on it is lifted.", ("heaves", "heave")),
    Term("ground acceleration", "How hard an earthquake shakes the rock under the site."),
    Term("lead", "How far the fill on one side is ahead of the other side.", ("a lead", "the lead", "lead of"), marked=False),
    Term("lift", "One layer of fill, spread and compacted before the next.", ("one lift", "a lift"), marked=False),
    Term("mound", "The heap of soil over the house as it is finished.", ("mounds", "berm")),
    Term("natural ground", "The ground as it lay before anybody dug."),
    Term("saturated", "With all its pores full of water."),
    Term("soil face", "The outside of the last layer over the vault, against which the soil lies."),
    Term("soil run", "One of the four ways in which the soil is taken to press, from soft to stiff, each computed.", ("soil runs",)),
    Term("soakaway", "A pit of stones in which water seeps into the ground.", ("soakaways",)),
    Term("stiffness", "How hard something must be pressed to give way by a little."),
    Term("toe", "Where the slope of the mound meets the ground; also the edge of a footing towards the room.", ("toes",)),
    Term("turf", "The grass with its roots, laid as the last layer."),
    Term("umbrella", "Insulation laid in the ground around the house, so that the soil under it stays warm."),
    Term("unit weight", "How much a cubic metre of it weighs."),
    # forces
    Term("action", "Whatever presses, pulls or shakes the house: soil, snow, wind, people.", ("actions",)),
    Term("balance", "All pushes one way are answered by as many the other way."),
    Term("ballast", "Weight laid on the crown while the sides are filled, so that it is not pushed up."),
    Term("bearing", "Where one thing rests on another, and the pressure between them.", ("bear",)),
    Term("bending", "What makes a rib rounder or flatter, stretching one edge and pressing the other.", ("bend", "bends")),
    Term("brace", "A slanting board that keeps a row of ribs from leaning.", ("braces", "bracing")),
    Term("characteristic", "A value on the careful side of what tests and records show."),
    Term("buckling", "A slender part under pressure escapes sideways all at once.", ("buckle",)),
    Term("corner", "One choice of the ends of all ranges; the worst one is shown.", ("governing corner", "corner of the ranges", "corners of the ranges"), marked=False),
    Term("creep", "Timber under load goes on giving way for years."),
    Term("guy", "A rope that holds a rib upright until others stand beside it.", ("guys",)),
    Term("load case", "One arrangement of snow, wind, people or water on the house at one stage.", ("case", "cases")),
    Term("permanent load", "What lies on a part for good: its own weight, soil, turf.", ("permanent",)),
    Term("pinned", "Held so that it can turn but not move."),
    Term("prop", "A post that holds the ribs up only while the house is built.", ("props",)),
    Term("ratio", "What is asked of a part over what it can do; above 1.00 it does not hold."),
    Term("service class", "How damp timber stays for years: 1 heated and dry, 2 under a roof, 3 wet."),
    Term("shear", "Two layers that want to slide past each other."),
    Term("stage", "One moment of building, such as ribs up, lagged, or filled to a level.", ("stages",)),
    Term("stop mark", "The level at which the fill must stop on one side until the other has followed.", ("stop marks",)),
    Term("tension", "A pull; joints of stone, blocks or earth take none and open."),
    Term("thrust", "The push along a rib from its crown to its feet."),
    Term("yield strength", "The pull at which steel stays longer than it was."),
    Term("Young's modulus", "How much pull or pressure a material takes to change its length by a little."),
    Term("tight", "It holds, but with less than a tenth to spare, or only because the soil holds the ribs.", marked=False),
    # warmth, air and fire
    Term("air changes", "How often in an hour all air of the house is replaced.", ("air change",)),
    Term("conductivity", "How well heat passes through a material.", ("thermal conductivity",)),
    Term("condensation", "Damp of the air that turns to water on something cold.", ("condenses",)),
    Term("draught", "The pull of warm air rising in a flue.", ("stack",)),
    Term("frost line", "How deep the ground is frozen."),
    Term("hearth", "The floor before a fire door, which must not burn."),
    Term("monthly normals", "What the weather of each month is in a usual year at a station.", ("normals",)),
    Term("sd value", "The thickness of still air that holds vapour back as well as the layer does.", ("sd",)),
    Term("U-value", "How much heat a window or wall loses for each degree between inside and outside.", ("u_value",)),
    # making
    Term("bevel", "The slant at which the end of a board is cut.", ("bevels",)),
    Term("ordinate", "The distance from a straight line to a curve, measured at marked places.", ("ordinates",)),
    Term("predrilled", "With a hole drilled before the nail is driven, so that the board does not split."),
    Term("salvaged", "Used before, and taken from another building."),
    Term("sapwood", "The outer, younger wood of a tree, which rots first."),
    Term("seasoned", "Dried until it no longer shrinks much."),
    Term("template", "A drawing at full size, to cut along.", ("templates",)),
)  # fmt: skip
"""Every term, by subject."""


def explained(word: str) -> Term | None:
    """The term of a word or of one of its forms.

    >>> explained("Ribs").name
    'rib'
    """
    return _by_form().get(word.lower())


def terms_in(text: str) -> tuple[Term, ...]:
    """The terms that stand in a text, in its order, each once.

    >>> [term.name for term in terms_in("Nails lead the cut layer past its butt joint")]
    ['butt joint']
    """
    found = (_by_form()[match.group().lower()] for match in _pattern().finditer(text))
    return tuple(dict.fromkeys(found))


@cache
def _by_form() -> dict[str, Term]:
    return {form.lower(): term for term in GLOSSARY for form in (*term.also, term.name)}


@cache
def _pattern() -> re.Pattern[str]:
    """Longer forms first, so that "butt joint" is not taken for a joint."""
    forms = sorted((form for term in GLOSSARY for form in term.forms), key=lambda form: (-len(form), form))
    return re.compile(rf"(?<![\w-])(?:{'|'.join(map(re.escape, forms))})(?![\w-])", re.IGNORECASE)
