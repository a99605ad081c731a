-- +goose Up
-- Since when an invitation is there, and the name of the phone that made it; null: in the terminal, or not known.
ALTER TABLE invitation ADD COLUMN made INTEGER;
ALTER TABLE invitation ADD COLUMN maker TEXT;

-- By which invitation a phone came aboard: the beginning of its hash.
ALTER TABLE device ADD COLUMN invited BLOB;

-- The token of the phone that asks as which it was aboard so far.
ALTER TABLE ask ADD COLUMN former BLOB;
