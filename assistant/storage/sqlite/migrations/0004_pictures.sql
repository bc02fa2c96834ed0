-- Photographs and sketches of boxes, for the report.
CREATE TABLE picture (
    number   INTEGER PRIMARY KEY,
    at       TEXT NOT NULL,         -- UTC, ISO 8601
    box      TEXT NOT NULL,         -- what the box was called then
    position INTEGER NOT NULL,      -- the last row of the journal then: later rows may rename it
    says     TEXT NOT NULL,         -- what it shows, in the person's words
    kind     TEXT NOT NULL,         -- jpeg or png
    wide     INTEGER NOT NULL,      -- in pixels
    high     INTEGER NOT NULL,
    data     BLOB NOT NULL,
    chk      INTEGER NOT NULL       -- CRC-32 of this row
);
