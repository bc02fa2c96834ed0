"""Many boxes at once: a row in, a result out, in constant memory."""

from assistant.batch.described import box_of_row
from assistant.batch.working import Result, work

__all__ = ["Result", "box_of_row", "work"]
