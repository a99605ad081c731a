-- +goose Up
CREATE TABLE origin (
    url          TEXT    PRIMARY KEY,
    first_served INTEGER NOT NULL, -- seconds since 1970, UTC
    last_served  INTEGER NOT NULL CHECK (last_served >= first_served)
) STRICT, WITHOUT ROWID;
