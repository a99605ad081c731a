-- +goose Up
-- The writer's key and signature; null of an entry from a phone that makes none.
ALTER TABLE entry ADD COLUMN mark BLOB;

-- How much each phone has brought of each trip, its own and what others wrote.
CREATE TABLE brought (
    device  BLOB    NOT NULL,
    trip    BLOB    NOT NULL,
    others  INTEGER NOT NULL,
    entries INTEGER NOT NULL,
    bytes   INTEGER NOT NULL,           -- of content, about
    PRIMARY KEY (device, trip, others)
) STRICT, WITHOUT ROWID;

CREATE INDEX brought_trip ON brought (trip);

INSERT INTO brought (device, trip, others, entries, bytes)
SELECT coalesce(via, by), trip, via IS NOT NULL, count(*), sum(coalesce(length(fields), 0) + 320)
FROM entry GROUP BY coalesce(via, by), trip, via IS NOT NULL;

-- How much each phone has sent in its last minute.
CREATE TABLE pace (
    device  BLOB    PRIMARY KEY,
    minute  INTEGER NOT NULL,           -- since 1970
    entries INTEGER NOT NULL,
    bytes   INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
