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
