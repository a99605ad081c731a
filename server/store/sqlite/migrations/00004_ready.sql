-- +goose Up
-- What a phone still lacks for sea, by its own word: names with spaces between; null until it has told.
ALTER TABLE device ADD COLUMN lacks TEXT;
ALTER TABLE device ADD COLUMN lacks_told INTEGER; -- milliseconds since 1970
