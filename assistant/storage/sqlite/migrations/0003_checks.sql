-- A remembered verdict carries a CRC-32 of itself, chained on from the row it was worked out at.
-- Verdicts of earlier forms have none: they are worked out anew. `about` gets a row "check".
ALTER TABLE verdicts ADD COLUMN chk INTEGER;
