"""Parts, materials and typical guns as data: every figure with its footing and source."""

from __future__ import annotations

from stripdown.catalogue.balls import CatalogueBall, load_balls
from stripdown.catalogue.compatibility import Compatibility
from stripdown.catalogue.defaults import Default, load_defaults
from stripdown.catalogue.engagement import CatalogueEngagement, load_engagement
from stripdown.catalogue.faults import Fault, load_faults
from stripdown.catalogue.fluids import Fluid, load_fluids
from stripdown.catalogue.guns import CatalogueGun, load_guns
from stripdown.catalogue.injuries import CatalogueInjury, load_injuries
from stripdown.catalogue.limits import CatalogueLimit, load_limits
from stripdown.catalogue.materials import load_materials
from stripdown.catalogue.part_materials import PartMaterials, load_part_materials
from stripdown.catalogue.protection import CatalogueProtection, load_protection
from stripdown.catalogue.ratings import MaterialRating, load_ratings
from stripdown.catalogue.screw_classes import ScrewClass, load_screw_classes
from stripdown.catalogue.shell_materials import ShellMaterial, load_shell_materials
from stripdown.catalogue.springs import LabelledSpring, load_springs
from stripdown.catalogue.threads import Thread, load_threads
from stripdown.catalogue.wires import Wire, load_wires
from stripdown.references.provenance import Footing, Provenance

__all__ = [
    "CatalogueBall",
    "CatalogueEngagement",
    "CatalogueGun",
    "CatalogueInjury",
    "CatalogueLimit",
    "CatalogueProtection",
    "Compatibility",
    "Default",
    "Fault",
    "Fluid",
    "Footing",
    "LabelledSpring",
    "MaterialRating",
    "PartMaterials",
    "Provenance",
    "ScrewClass",
    "ShellMaterial",
    "Thread",
    "Wire",
    "load_balls",
    "load_defaults",
    "load_engagement",
    "load_faults",
    "load_fluids",
    "load_guns",
    "load_injuries",
    "load_limits",
    "load_materials",
    "load_part_materials",
    "load_protection",
    "load_ratings",
    "load_screw_classes",
    "load_shell_materials",
    "load_springs",
    "load_threads",
    "load_wires",
]
