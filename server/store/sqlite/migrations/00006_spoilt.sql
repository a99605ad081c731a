-- +goose Up
-- What an entry must be by itself: the SHA-256 of its content, and 16 bytes of that of who wrote and brought it. Null: it
-- was taken before there was this, and not looked at since.
ALTER TABLE entry ADD COLUMN seal BLOB;
CREATE INDEX entry_unsealed ON entry (no) WHERE seal IS NULL;

-- Numbers of entries that the disk has spoilt: they are given out to nobody until a phone brings them again.
CREATE TABLE spoilt (
    no INTEGER PRIMARY KEY
) STRICT;

-- The number up to which the slow look round has come.
ALTER TABLE log ADD COLUMN looked INTEGER NOT NULL DEFAULT 0;
