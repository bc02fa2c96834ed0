"""The journal file: its connection, rows with their checksum chain, migrations, and recovery;
what is looked at before the engine opens a file, and what is read of one that is damaged.
Raises the errors of `storage_errors`, never a database error.
A change of the format is a new file in `migrations`; one that was released is never edited.
"""
