"""The label schedule, derived from the installation: one name per device, wording and place by clause."""

from standfast.design.labels.by_book import Signed, labelled
from standfast.design.labels.places import places
from standfast.design.labels.schedule import Label, schedule
from standfast.design.labels.spots import placed, served

__all__ = ["Label", "Signed", "labelled", "placed", "places", "schedule", "served"]
