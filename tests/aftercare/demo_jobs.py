"""The demo jobs that a removal and a service are planned for, and what a fixture gives."""

from collections.abc import Callable

from standfast.aftercare.carriage import Condition
from standfast.aftercare.removal import Removal

DEMOS = ("one_wall", "detached_pair", "stack_outdoors", "cabinet", "many_sources", "terrace", "verandah")
Removed = Callable[[str, Condition], Removal]
