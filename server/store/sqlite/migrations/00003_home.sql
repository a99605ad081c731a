-- +goose Up
-- Where a phone goes that was never here: the address, or plain http, where it gets the boat's certificate.
ALTER TABLE log ADD COLUMN enter TEXT NOT NULL DEFAULT '';

-- How far this server has come in the log of another one of the same boat, in one row once it ever was there.
CREATE TABLE home (
    one    INTEGER PRIMARY KEY CHECK (one = 1),
    url    TEXT    NOT NULL,            -- of the other server
    epoch  TEXT    NOT NULL,
    since  INTEGER NOT NULL,
    chain  TEXT    NOT NULL             -- the word that stands for its entries up to since
) STRICT;

-- Entries of this log that the other server has, with their numbers there, or that it refused, with why.
CREATE TABLE at_home (
    id      BLOB    PRIMARY KEY,
    no      INTEGER,
    refused TEXT,
    CHECK ((no IS NULL) = (refused IS NOT NULL))
) STRICT, WITHOUT ROWID;

CREATE INDEX at_home_no ON at_home (no);
