#!/bin/sh
# Run once by the image of PostgreSQL, as the superuser: the user and the database of the harbour's servers.
psql -v ON_ERROR_STOP=1 -v word="$WIREWAKE_PASSWORD" -U postgres <<'SQL'
CREATE ROLE wirewake LOGIN NOSUPERUSER NOBYPASSRLS PASSWORD :'word';
CREATE DATABASE wirewake OWNER wirewake;
SQL
