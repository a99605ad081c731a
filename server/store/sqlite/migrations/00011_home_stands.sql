-- +goose Up
-- How the exchange with home stands: when it last went well, since when it does not, and what somebody has to do about it.
ALTER TABLE home ADD COLUMN together INTEGER;
ALTER TABLE home ADD COLUMN apart INTEGER;
ALTER TABLE home ADD COLUMN why TEXT;
