"""Many boxes at once: a row in, a result out, in constant memory.
No row may stop the others: what is wrong with one is told in its own result.
A new column is a field of `contract.batch_documents` and a reader in `content_cells`.
"""

from boxaloud.assistant.reports.batch.column_parser import box_of_row
from boxaloud.assistant.reports.batch.row_evaluator import work

__all__ = ["box_of_row", "work"]
