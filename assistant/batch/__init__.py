"""Many boxes at once: a row in, a result out, in constant memory."""

from boxaloud.assistant.batch.column_parser import box_of_row
from boxaloud.assistant.batch.row_evaluator import Result, work

__all__ = ["Result", "box_of_row", "work"]
