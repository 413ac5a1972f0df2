"""A house as IFC4: walls, members, coverings, footings, openings, earth, each with its quantities.

Every body is written as closed triangles; end walls as pushed outlines with their openings cut by the
reader. Ids come from names, the time stamp from the date given, so that the same house gives the same file.
"""

from __future__ import annotations

import math
import uuid
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.base.errors import BermwrightError
from bermwright.base.wording import NOT_REVIEWED
from bermwright.form.solids import Kind
from bermwright.form.solids.welding import pieces
from bermwright.formats.exchange.standing import stands

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from numpy.typing import NDArray

    from bermwright.form.solids import Hole, Layer, Solid, VaultSolids
    from bermwright.formats.exchange.standing import Stand
    from bermwright.house import House

    Array = NDArray[np.float64]

Entity = Any
"""An instance of the library, which has no types."""

OURS = uuid.UUID("7d1b8c0e-5a3f-5c59-9f0d-0b7a3b8d6e21")
"""The space in which names become ids; it was drawn once and never changes."""
DIGITS = 6
"""Of coordinates: a thousandth of a millimetre."""


UNITS = (
    ("LENGTHUNIT", "METRE"),
    ("AREAUNIT", "SQUARE_METRE"),
    ("VOLUMEUNIT", "CUBIC_METRE"),
    ("PLANEANGLEUNIT", "RADIAN"),
)


class ExtraMissingError(BermwrightError, ImportError):
    """A library of an extra is not installed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Class:
    """How a kind of body is called in IFC4."""

    name: str
    predefined: str = ""
    object_type: str = ""
    quantities: str = ""
    """Name of its standard set of quantities."""


CLASSES = {
    Kind.GROUND: Class(name="IfcGeographicElement", predefined="TERRAIN"),
    Kind.FILL: Class(name="IfcGeographicElement", predefined="USERDEFINED", object_type="EARTHWORKS FILL"),
    Kind.TURF: Class(name="IfcGeographicElement", predefined="USERDEFINED", object_type="TURF"),
    Kind.FOOTING: Class(
        name="IfcFooting", predefined="STRIP_FOOTING", quantities="Qto_FootingBaseQuantities"
    ),
    Kind.WALL: Class(name="IfcWall", predefined="SOLIDWALL", quantities="Qto_WallBaseQuantities"),
    Kind.END: Class(name="IfcWall", predefined="SOLIDWALL", quantities="Qto_WallBaseQuantities"),
    Kind.WALL_INSULATION: Class(name="IfcCovering", predefined="INSULATION"),
    Kind.FLOOR: Class(name="IfcSlab", predefined="BASESLAB", quantities="Qto_SlabBaseQuantities"),
    Kind.FLOOR_INSULATION: Class(name="IfcCovering", predefined="INSULATION"),
    Kind.RIB: Class(name="IfcMember", predefined="MEMBER", quantities="Qto_MemberBaseQuantities"),
    Kind.LAGGING: Class(name="IfcCovering", predefined="CLADDING"),
    Kind.MEMBRANE: Class(name="IfcCovering", predefined="MEMBRANE"),
    Kind.VAPOUR_CONTROL: Class(name="IfcCovering", predefined="MEMBRANE"),
    Kind.INSULATION: Class(name="IfcCovering", predefined="INSULATION"),
    Kind.DRAINAGE: Class(name="IfcCovering", predefined="USERDEFINED", object_type="DRAINAGE"),
    Kind.FLEECE: Class(name="IfcCovering", predefined="USERDEFINED", object_type="FLEECE"),
    Kind.UPPER_FLOOR: Class(name="IfcSlab", predefined="FLOOR", quantities="Qto_SlabBaseQuantities"),
    Kind.OPENING: Class(name="IfcDoor"),
    Kind.FLUE: Class(name="IfcChimney", predefined="NOTDEFINED"),
    Kind.COURSE: Class(
        name="IfcWall",
        predefined="USERDEFINED",
        object_type="COURSE OF A DOME",
        quantities="Qto_WallBaseQuantities",
    ),
}


def ifc(house: House, vaults: Sequence[VaultSolids], *, date: str) -> bytes:
    """The whole house as one IFC4 file."""
    try:
        import ifcopenshell
        import ifcopenshell.guid
    except ImportError:
        raise ExtraMissingError(
            'IFC is written with the extra "exchange": pip install "bermwright[exchange]".'
        ) from None
    writer = _Writer(ifcopenshell, house.name)
    writer.project(house, vaults)
    for vault, stand in zip(vaults, stands(vaults), strict=True):
        writer.vault(vault, stand)
    return writer.text(date)


class _Writer:
    """Makes entities in a fixed order."""

    def __init__(self, library: Any, house: str) -> None:  # noqa: ANN401  (the library has no types)
        self.library, self.house = library, house
        self.file = library.file(schema="IFC4")
        self.body: Entity = None
        self.storey: Entity = None
        self.place: Entity = None
        self.parts: list[Entity] = []
        self.materials: dict[str, list[Entity]] = {}
        self.origin: Entity = None

    def make(self, name: str, **values: Any) -> Entity:  # noqa: ANN401  (the library has no types)
        """A new entity."""
        return self.file.create_entity(name, **values)

    def id(self, *names: str) -> str:
        """The id of a thing, from its names."""
        return str(self.library.guid.compress(uuid.uuid5(OURS, "/".join((self.house, *names))).hex))

    def point(self, *at: float) -> Entity:
        """A point."""
        return self.make("IfcCartesianPoint", Coordinates=tuple(round(float(v), DIGITS) + 0.0 for v in at))

    def axes(self, at: Iterable[float] = (0.0, 0.0, 0.0), turn: float = 0.0) -> Entity:
        """Axes at a place, turned about the upright one."""
        if not turn:
            return self.make("IfcAxis2Placement3D", Location=self.point(*at))
        ahead = tuple(round(one, 9) for one in (math.cos(turn), math.sin(turn), 0.0))
        return self.make(
            "IfcAxis2Placement3D",
            Location=self.point(*at),
            Axis=self.make("IfcDirection", DirectionRatios=(0.0, 0.0, 1.0)),
            RefDirection=self.make("IfcDirection", DirectionRatios=ahead),
        )

    def placed(self, under: Entity, at: Iterable[float] = (0.0, 0.0, 0.0), turn: float = 0.0) -> Entity:
        """A placement below another."""
        return self.make("IfcLocalPlacement", PlacementRelTo=under, RelativePlacement=self.axes(at, turn))

    # ------------------------------------------------------------------ the frame of the file
    def project(self, house: House, vaults: Sequence[VaultSolids]) -> None:
        """Units, contexts, site, building, storey."""
        north = next((vault.axis for vault in vaults if vault.axis is not None), None)
        true_north = None
        if north is not None:
            ratios = (-math.sin(north), math.cos(north))
            true_north = self.make("IfcDirection", DirectionRatios=tuple(round(one, 9) for one in ratios))
        context = self.make(
            "IfcGeometricRepresentationContext",
            ContextType="Model",
            CoordinateSpaceDimension=3,
            Precision=1e-5,
            WorldCoordinateSystem=self.axes(),
            TrueNorth=true_north,
        )
        self.body = self.make(
            "IfcGeometricRepresentationSubContext",
            ContextIdentifier="Body",
            ContextType="Model",
            ParentContext=context,
            TargetView="MODEL_VIEW",
        )
        units = [self.make("IfcSIUnit", UnitType=kind, Name=name) for kind, name in UNITS]
        project = self.make(
            "IfcProject",
            GlobalId=self.id("project"),
            Name=house.name,
            Description=NOT_REVIEWED,
            RepresentationContexts=[context],
            UnitsInContext=self.make("IfcUnitAssignment", Units=units),
        )
        site = self._site(house)
        building = self.make(
            "IfcBuilding",
            GlobalId=self.id("building"),
            Name=house.name,
            ObjectPlacement=self.placed(site.ObjectPlacement),
            CompositionType="ELEMENT",
        )
        self.place = self.placed(building.ObjectPlacement)
        self.storey = self.make(
            "IfcBuildingStorey",
            GlobalId=self.id("storey"),
            Name="finished floor",
            ObjectPlacement=self.place,
            CompositionType="ELEMENT",
            Elevation=0.0,
        )
        for whole, part in ((project, site), (site, building), (building, self.storey)):
            self.make(
                "IfcRelAggregates",
                GlobalId=self.id("aggregates", part.Name or "", part.is_a()),
                RelatingObject=whole,
                RelatedObjects=[part],
            )

    def _site(self, house: House) -> Entity:
        values: dict[str, Any] = {}
        for name, field in (("RefLatitude", house.site.latitude), ("RefLongitude", house.site.longitude)):
            if field is not None:
                values[name] = _angle(math.degrees(field))
        if house.site.altitude is not None:
            values["RefElevation"] = house.site.altitude
        return self.make(
            "IfcSite",
            GlobalId=self.id("site"),
            Name="site",
            ObjectPlacement=self.placed(None),
            CompositionType="ELEMENT",
            **values,
        )

    # ------------------------------------------------------------------ vaults and their parts
    def vault(self, vault: VaultSolids, stand: Stand) -> None:
        """All bodies of a vault."""
        self.origin = self.placed(self.place, (stand.x, stand.y, 0.0), stand.turn)
        made: dict[str, Entity] = {}
        for order, layer in enumerate(vault.layers):
            for solid in layer.solids:
                made |= dict(self._solid(vault, layer, order, solid))
        for hole in vault.holes:
            self._hole(vault, hole, made)

    def _solid(
        self, vault: VaultSolids, layer: Layer, order: int, solid: Solid
    ) -> Iterable[tuple[str, Entity]]:
        shape = self._shape(solid)
        for number, place in enumerate(solid.places, 1):
            name = f"{solid.name} {number}" if len(solid.places) > 1 else solid.name
            entity = self._element(vault, solid, name, shape, place)
            self._words(entity, vault, layer, order, solid)
            self._quantities(entity, vault, solid)
            self.materials.setdefault(layer.name, []).append(entity)
            self.parts.append(entity)
            yield name, entity

    def _element(self, vault: VaultSolids, solid: Solid, name: str, shape: Entity, place: Array) -> Entity:
        kind = CLASSES[solid.kind]
        values: dict[str, Any] = {}
        if solid.kind is Kind.OPENING:
            hole = next(one for one in vault.holes if one.name == solid.name)
            kind = Class(name="IfcDoor" if hole.kind == "door" else "IfcWindow")
            values = {"OverallWidth": hole.width, "OverallHeight": hole.height}
        if kind.predefined:
            values["PredefinedType"] = kind.predefined
        if kind.object_type:
            values["ObjectType"] = kind.object_type
        return self.make(
            kind.name,
            GlobalId=self.id(vault.name, str(solid.kind), name),
            Name=name,
            ObjectPlacement=self.placed(self.origin, place),
            Representation=shape,
            **values,
        )

    def _shape(self, solid: Solid) -> Entity:
        """Triangles; an outline for what is cut by its openings alone."""
        if solid.kind is Kind.END and solid.pushed is not None:
            items, kind = [self._pushed(solid)], "SweptSolid"
        else:
            # Boards that only touch each other are closed each by itself.
            items = [self._triangles(*piece) for piece in pieces(solid.vertices, solid.triangles)]
            kind = "Tessellation"
        if len(solid.places) > 1:
            items, kind = [self._mapped(items, kind)], "MappedRepresentation"
        return self._product(items, kind)

    def _product(self, items: Sequence[Entity], kind: str) -> Entity:
        return self.make("IfcProductDefinitionShape", Representations=[self._representation(items, kind)])

    def _representation(self, items: Sequence[Entity], kind: str) -> Entity:
        return self.make(
            "IfcShapeRepresentation",
            ContextOfItems=self.body,
            RepresentationIdentifier="Body",
            RepresentationType=kind,
            Items=list(items),
        )

    def _mapped(self, items: Sequence[Entity], kind: str) -> Entity:
        source = self.make(
            "IfcRepresentationMap",
            MappingOrigin=self.axes(),
            MappedRepresentation=self._representation(items, kind),
        )
        target = self.make("IfcCartesianTransformationOperator3D", LocalOrigin=self.point(0.0, 0.0, 0.0))
        return self.make("IfcMappedItem", MappingSource=source, MappingTarget=target)

    def _triangles(self, vertices: Array, triangles: NDArray[np.int64]) -> Entity:
        points = self.make("IfcCartesianPointList3D", CoordList=np.round(vertices, DIGITS).tolist())
        return self.make(
            "IfcTriangulatedFaceSet",
            Coordinates=points,
            Closed=True,
            CoordIndex=(triangles + 1).tolist(),
        )

    def _pushed(self, solid: Solid) -> Entity:
        """The outline x, z pushed along y: the profile's axes are x and z of the house."""
        pushed = solid.pushed
        assert pushed is not None  # noqa: S101  (the caller has looked)
        ring = [*np.round(pushed.outline, DIGITS).tolist(), np.round(pushed.outline[0], DIGITS).tolist()]
        curve = self.make("IfcPolyline", Points=[self.point(*spot) for spot in ring])
        profile = self.make("IfcArbitraryClosedProfileDef", ProfileType="AREA", OuterCurve=curve)
        # With x along x and the normal along minus y, the profile's second axis is z.
        axes = self.make(
            "IfcAxis2Placement3D",
            Location=self.point(0.0, pushed.end, 0.0),
            Axis=self.make("IfcDirection", DirectionRatios=(0.0, -1.0, 0.0)),
            RefDirection=self.make("IfcDirection", DirectionRatios=(1.0, 0.0, 0.0)),
        )
        return self.make(
            "IfcExtrudedAreaSolid",
            SweptArea=profile,
            Position=axes,
            ExtrudedDirection=self.make("IfcDirection", DirectionRatios=(0.0, 0.0, 1.0)),
            Depth=round(pushed.end - pushed.start, DIGITS),
        )

    def _hole(self, vault: VaultSolids, hole: Hole, made: dict[str, Entity]) -> None:
        """An opening in an end wall, and what fills it; the shell has its holes cut already."""
        wall = made.get(f"{hole.side} wall")
        if wall is None or hole.side not in {"front", "back"}:
            return
        shape = self._product([self._triangles(hole.vertices, hole.triangles)], "Tessellation")
        opening = self.make(
            "IfcOpeningElement",
            GlobalId=self.id(vault.name, "hole", hole.name),
            Name=hole.name,
            ObjectPlacement=self.placed(self.origin),
            Representation=shape,
            PredefinedType="OPENING",
        )
        self.make(
            "IfcRelVoidsElement",
            GlobalId=self.id(vault.name, "voids", hole.name),
            RelatingBuildingElement=wall,
            RelatedOpeningElement=opening,
        )
        leaf = made.get(hole.name)
        if leaf is not None:
            self.make(
                "IfcRelFillsElement",
                GlobalId=self.id(vault.name, "fills", hole.name),
                RelatingOpeningElement=opening,
                RelatedBuildingElement=leaf,
            )

    # ------------------------------------------------------------------ words and numbers
    def _words(self, entity: Entity, vault: VaultSolids, layer: Layer, order: int, solid: Solid) -> None:
        values = [
            ("Mark", "IfcLabel", NOT_REVIEWED),
            ("Layer", "IfcLabel", layer.name),
            ("Order", "IfcInteger", order),
        ]
        if solid.counted is not None and solid.counted.why:
            values.append(("DiffersFromTakeOff", "IfcText", solid.counted.why))
        properties = [
            self.make("IfcPropertySingleValue", Name=name, NominalValue=self.file.create_entity(kind, value))
            for name, kind, value in values
        ]
        made = self.make(
            "IfcPropertySet",
            GlobalId=self.id(vault.name, "words of", str(solid.kind), entity.Name),
            Name="Bermwright",
            HasProperties=properties,
        )
        self._defines(entity, made, vault, "words")

    def _quantities(self, entity: Entity, vault: VaultSolids, solid: Solid) -> None:
        kind = CLASSES[solid.kind]
        net, gross = round(solid.volume, DIGITS), round(solid.whole, DIGITS)
        sets: list[tuple[str, tuple[tuple[str, float], ...]]] = []
        if kind.quantities:
            sets.append((kind.quantities, (("GrossVolume", gross), ("NetVolume", net))))
        own = [("BodyVolume", net)]
        if solid.counted is not None:
            own.append(("TakenOffVolume", round(solid.counted.volume / len(solid.places), DIGITS)))
        sets.append(("Bermwright_Quantities", tuple(own)))
        for name, values in sets:
            made = self.make(
                "IfcElementQuantity",
                GlobalId=self.id(vault.name, name, str(solid.kind), entity.Name),
                Name=name,
                Quantities=[
                    self.make("IfcQuantityVolume", Name=one, VolumeValue=value) for one, value in values
                ],
            )
            self._defines(entity, made, vault, name)

    def _defines(self, entity: Entity, made: Entity, vault: VaultSolids, what: str) -> None:
        self.make(
            "IfcRelDefinesByProperties",
            GlobalId=self.id(vault.name, "defines", what, entity.is_a(), entity.Name),
            RelatedObjects=[entity],
            RelatingPropertyDefinition=made,
        )

    def text(self, date: str) -> bytes:
        """The file, its time stamp that of the date."""
        self.make(
            "IfcRelContainedInSpatialStructure",
            GlobalId=self.id("contained"),
            RelatedElements=self.parts,
            RelatingStructure=self.storey,
        )
        for name, entities in self.materials.items():
            self.make(
                "IfcRelAssociatesMaterial",
                GlobalId=self.id("material of", name),
                RelatedObjects=entities,
                RelatingMaterial=self.make("IfcMaterial", Name=name),
            )
        header = self.file.header
        header.file_name.name = f"{self.house}.ifc"
        header.file_name.time_stamp = f"{date}T00:00:00"
        header.file_name.originating_system = "bermwright"
        return str(self.file.to_string()).encode("utf-8")


def _angle(degrees: float) -> tuple[int, int, int, int]:
    """Degrees, minutes, seconds and millionths of a second, all with the sign of the angle."""
    sign = -1 if degrees < 0.0 else 1
    millionths = round(abs(degrees) * 3600e6)
    seconds, rest = divmod(millionths, 1_000_000)
    minutes, second = divmod(seconds, 60)
    whole, minute = divmod(minutes, 60)
    return sign * whole, sign * minute, sign * second, sign * rest
