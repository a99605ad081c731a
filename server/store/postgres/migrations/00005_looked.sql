-- +goose Up
-- When it was last looked whether what a boat has is as it was taken; null: never.
ALTER TABLE boat ADD COLUMN looked bigint;
