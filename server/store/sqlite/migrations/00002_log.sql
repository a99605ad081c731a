-- +goose Up
-- What there is to say of the log as a whole, in one row.
CREATE TABLE log (
    one     INTEGER PRIMARY KEY CHECK (one = 1),
    epoch   TEXT    NOT NULL,           -- names this numbering; a restored log gets another
    last    INTEGER NOT NULL,           -- the highest number given
    chain   BLOB    NOT NULL,           -- that of the entry with this number
    address TEXT    NOT NULL            -- where phones found the server when it was last started
) STRICT;

INSERT INTO log (one, epoch, last, chain, address) VALUES (1, lower(hex(randomblob(8))), 0, zeroblob(32), '');

CREATE TABLE entry (
    no       INTEGER PRIMARY KEY,
    id       BLOB    NOT NULL UNIQUE,
    record   BLOB    NOT NULL,
    kind     TEXT    NOT NULL,
    trip     BLOB    NOT NULL,
    prev     BLOB    NOT NULL,          -- ids, 16 bytes each
    fields   TEXT,                      -- set, in canonical JSON; null for a strike
    at       INTEGER NOT NULL,
    n        INTEGER NOT NULL,
    by       BLOB    NOT NULL,
    by_name  TEXT    NOT NULL,
    via      BLOB,                      -- null if the phone that wrote it brought it
    via_name TEXT,
    chain    BLOB    NOT NULL,          -- SHA-256 of the chain before and the SHA-256 of the content
    taken    INTEGER NOT NULL           -- by this computer's clock, milliseconds since 1970
) STRICT;

CREATE INDEX entry_record ON entry (record);
CREATE INDEX entry_trip ON entry (trip, no);
CREATE INDEX entry_by ON entry (by, n);

CREATE TABLE device (
    id       BLOB    PRIMARY KEY,
    token    BLOB    NOT NULL UNIQUE,   -- SHA-256 of what its cookie holds
    name     TEXT    NOT NULL,
    role     TEXT    NOT NULL CHECK (role IN ('skipper', 'mate', 'guest')),
    trip     BLOB    CHECK ((trip IS NOT NULL) = (role = 'guest')),
    turn     INTEGER NOT NULL DEFAULT 0, -- how often this file turned out older than what the phone had seen
    enrolled INTEGER NOT NULL,          -- milliseconds since 1970, as the rest
    seen     INTEGER NOT NULL,
    revoked  INTEGER
) STRICT, WITHOUT ROWID;

CREATE TABLE invitation (
    hash      BLOB    PRIMARY KEY,      -- SHA-256 of the invitation
    code      BLOB    UNIQUE,           -- SHA-256 of the code to type; null once used
    code_ends INTEGER NOT NULL,
    role      TEXT    NOT NULL CHECK (role IN ('skipper', 'mate', 'guest')),
    trip      BLOB    CHECK ((trip IS NOT NULL) = (role = 'guest')),
    ends      INTEGER NOT NULL,
    uses      INTEGER NOT NULL          -- left
) STRICT, WITHOUT ROWID;

-- Which photo is named in which trip and by whom, and whether its file is there whole.
CREATE TABLE photo (
    sha256 BLOB    NOT NULL,
    trip   BLOB    NOT NULL,
    by     BLOB    NOT NULL,
    whole  INTEGER NOT NULL,
    PRIMARY KEY (sha256, trip, by)
) STRICT, WITHOUT ROWID;

CREATE INDEX photo_wanted ON photo (trip) WHERE whole = 0;
CREATE INDEX photo_kept ON photo (trip, sha256) WHERE whole = 1;
