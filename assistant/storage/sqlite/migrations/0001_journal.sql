-- The journal of one job. Rows are only ever added.
CREATE TABLE about (
    key   TEXT PRIMARY KEY,   -- name, edition, units, begun
    value TEXT NOT NULL
) WITHOUT ROWID;

CREATE TABLE journal (
    position INTEGER PRIMARY KEY,   -- 1, 2, 3 … without gaps
    at       TEXT NOT NULL,         -- UTC, ISO 8601
    action   TEXT NOT NULL,         -- entry, opened, renamed, copied, removed, restored
    box      TEXT NOT NULL,
    other    TEXT NOT NULL,         -- the box it was renamed or copied from
    edition  TEXT NOT NULL,         -- the edition a new box begins under
    entry    TEXT NOT NULL,         -- JSON: the words and the statements they made
    chk      INTEGER NOT NULL       -- CRC-32 of this row, chained on from the row before
);

CREATE TRIGGER journal_is_not_changed BEFORE UPDATE ON journal
BEGIN SELECT RAISE(ABORT, 'the journal is append-only'); END;

CREATE TRIGGER journal_is_not_shortened BEFORE DELETE ON journal
BEGIN SELECT RAISE(ABORT, 'the journal is append-only'); END;
