-- +goose Up
-- Photos on their way: they count from their first byte on, and those that do not come to an end go.
CREATE TABLE part (
    sha256 BLOB    NOT NULL,
    by     BLOB    NOT NULL,            -- the phone that sends it
    at     INTEGER NOT NULL,            -- when something of it last came, milliseconds since 1970, to the hour
    PRIMARY KEY (sha256, by)
) STRICT, WITHOUT ROWID;

CREATE INDEX part_by ON part (by, at);

-- Whether those who see the trip may see the photo: a guest who only names one of another trip has not shown it.
ALTER TABLE photo ADD COLUMN shown INTEGER NOT NULL DEFAULT 1;
