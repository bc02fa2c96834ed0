-- Where each box stood when something was last said of it: a memory to count by, never a
-- truth. A row holds only while `position` is the last of its box and `works` is the same.
CREATE TABLE verdicts (
    box      TEXT PRIMARY KEY,
    position INTEGER NOT NULL,
    works    TEXT NOT NULL,         -- a fingerprint of the rules it was worked out by
    verdict  TEXT NOT NULL
) WITHOUT ROWID;
