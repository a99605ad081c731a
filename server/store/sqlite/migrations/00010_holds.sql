-- +goose Up
-- How many entries and photos a phone holds back by its own word: not on this server when its last exchange ended. Null
-- until it has told.
ALTER TABLE device ADD COLUMN holds INTEGER;

-- What was said of which trip a trip was made one with.
CREATE INDEX entry_into ON entry (record, no) WHERE kind = 'trip' AND instr(fields, '"into":') > 0;
