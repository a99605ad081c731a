-- +goose Up
-- What hangs on a device whatever key it takes; the id that it came aboard with.
ALTER TABLE device ADD COLUMN berth BLOB;
UPDATE device SET berth = id;
CREATE UNIQUE INDEX device_berth ON device (berth);

-- Ids that a device had before it took another key.
CREATE TABLE former (
    id    BLOB PRIMARY KEY,
    berth BLOB NOT NULL
) STRICT, WITHOUT ROWID;

CREATE INDEX former_berth ON former (berth);

-- Which phone sent the photo, by its berth; null: not known, or nobody has.
ALTER TABLE photo ADD COLUMN sender BLOB;
UPDATE photo SET sender = by WHERE whole = 1;

-- What a guest brings counts as its own, whoever is said to have written it.
UPDATE brought SET others = 0, entries = entries + both.e, bytes = bytes + both.b
FROM (SELECT device AS d, trip AS t, entries AS e, bytes AS b FROM brought WHERE others = 1) AS both
WHERE others = 0 AND device = both.d AND trip = both.t AND device IN (SELECT id FROM device WHERE trip IS NOT NULL);
DELETE FROM brought WHERE others = 1 AND device IN (SELECT id FROM device WHERE trip IS NOT NULL)
    AND EXISTS (SELECT 1 FROM brought AS own WHERE own.others = 0 AND own.device = brought.device AND own.trip = brought.trip);
UPDATE brought SET others = 0 WHERE others = 1 AND device IN (SELECT id FROM device WHERE trip IS NOT NULL);
