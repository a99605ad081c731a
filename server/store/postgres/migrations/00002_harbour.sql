-- +goose Up
-- What is the harbour's rather than a boat's: the key under which cookies are signed.
CREATE TABLE harbour (
    one integer PRIMARY KEY DEFAULT 1 CHECK (one = 1),
    key bytea   NOT NULL
);
-- Each of them has 122 random bits.
INSERT INTO harbour (key) VALUES (decode(replace(gen_random_uuid()::text || gen_random_uuid()::text, '-', ''), 'hex'));
