"""Many boxes at once: a row in, a result out, in constant memory."""

from boxaloud.assistant.reports.batch.column_parser import box_of_row
from boxaloud.assistant.reports.batch.row_evaluator import work

__all__ = ["box_of_row", "work"]
