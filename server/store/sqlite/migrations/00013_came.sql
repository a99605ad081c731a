-- +goose Up
-- SHA-256 of the invitation or code by which a phone came aboard: by it the same phone comes once more where the answer was
-- lost; null if it asked, or that is not known.
ALTER TABLE device ADD COLUMN came BLOB;
