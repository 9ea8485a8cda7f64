"""What must be true of a pack beyond each field: functions from all that was read to the mistakes in it."""

from collections.abc import Callable, Iterable

from engines.packs.reading.checks.coverage import every_part_is_tagged, everything_required_is_read, nothing_renewed_is_read
from engines.packs.reading.checks.derived import derived_rows_hold
from engines.packs.reading.checks.doubles import nothing_is_listed_twice, variants_agree
from engines.packs.reading.checks.fits import fits_hold
from engines.packs.reading.checks.limit_rows import rows_name_what_exists, rows_say_something
from engines.packs.reading.checks.names import entries_name_what_exists
from engines.packs.reading.checks.operations import details_suit_their_kind, operations_name_what_exists
from engines.packs.reading.checks.order import nothing_waits_for_itself, stages_come_in_order, stages_suit_their_area
from engines.packs.reading.checks.printed_fits import printed_fits_follow_from_parts
from engines.packs.reading.checks.ranges import one_row_in_force
from engines.packs.reading.checks.running import (
    a_failed_run_opens_what_exists,
    limits_of_the_run_hold,
    rated_power_can_be_compared,
    the_schedule_can_be_followed,
)
from engines.packs.reading.draft import Draft
from engines.packs.reading.mistakes import Mistake

CHECKS: list[Callable[[Draft], Iterable[Mistake]]] = [
    nothing_is_listed_twice,
    entries_name_what_exists,
    operations_name_what_exists,
    details_suit_their_kind,
    rows_name_what_exists,
    rows_say_something,
    variants_agree,
    one_row_in_force,
    derived_rows_hold,
    fits_hold,
    printed_fits_follow_from_parts,
    stages_suit_their_area,
    stages_come_in_order,
    nothing_waits_for_itself,
    every_part_is_tagged,
    everything_required_is_read,
    nothing_renewed_is_read,
    the_schedule_can_be_followed,
    limits_of_the_run_hold,
    a_failed_run_opens_what_exists,
    rated_power_can_be_compared,
]
