-- +goose Up
-- How much a boat may have; null: as much as usual, which the program says.
ALTER TABLE boat ADD COLUMN most_entries bigint, ADD COLUMN most_bytes bigint, ADD COLUMN most_requests bigint;

-- Photos and traces that are there or on their way, by where they lie, with their bytes.
CREATE TABLE stored (
    boat  integer DEFAULT this_boat(),
    name  text,
    bytes bigint NOT NULL,
    at    bigint NOT NULL,              -- since when it counts
    PRIMARY KEY (boat, name)
);
ALTER TABLE stored ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY of_this_boat ON stored USING (boat = current_setting('wirewake.boat')::integer);
