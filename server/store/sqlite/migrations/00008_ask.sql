-- +goose Up
-- Phones that ask to come aboard, and what was said to them.
CREATE TABLE ask (
    device  BLOB    PRIMARY KEY,        -- the id of the phone's key
    hash    BLOB    NOT NULL UNIQUE,    -- of what it comes back with
    name    TEXT    NOT NULL,
    word    TEXT    NOT NULL UNIQUE,    -- shown on both screens
    network TEXT    NOT NULL,           -- it asks from
    asked   INTEGER NOT NULL,
    ends    INTEGER NOT NULL,
    said    TEXT,                       -- yes or no, null until somebody has answered
    role    TEXT,                       -- with a yes
    trip    BLOB
) STRICT, WITHOUT ROWID;

-- From where nobody may ask for a while.
CREATE TABLE blocked (
    network TEXT    PRIMARY KEY,
    ends    INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
