-- +goose Up
-- The boats of the harbour. Whoever asks without the setting wirewake.boat sees nothing of the tables below.
CREATE TABLE boat (
    id        integer GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
    name      text    NOT NULL UNIQUE,
    added     bigint  NOT NULL,          -- milliseconds since 1970, as all moments below
    suspended bigint                     -- since when nobody is served; null: served
);

-- +goose StatementBegin
CREATE FUNCTION this_boat() RETURNS integer LANGUAGE sql STABLE PARALLEL SAFE
    RETURN current_setting('wirewake.boat')::integer;
-- +goose StatementEnd

-- What statements say alike in SQLite.
-- +goose StatementBegin
CREATE FUNCTION instr(whole text, part text) RETURNS integer LANGUAGE sql IMMUTABLE PARALLEL SAFE RETURN strpos(whole, part);
-- +goose StatementEnd
-- +goose StatementBegin
CREATE FUNCTION unhex(digits text) RETURNS bytea LANGUAGE sql IMMUTABLE PARALLEL SAFE RETURN decode(digits, 'hex');
-- +goose StatementEnd
-- +goose StatementBegin
CREATE FUNCTION json_each(list text) RETURNS TABLE (value text) LANGUAGE sql IMMUTABLE PARALLEL SAFE ROWS 4
    BEGIN ATOMIC SELECT json_array_elements_text(list::json); END;
-- +goose StatementEnd

-- What there is to say of a log as a whole. Whoever changes anything of the boat locks this row first.
CREATE TABLE log (
    boat    integer DEFAULT this_boat() PRIMARY KEY REFERENCES boat,
    epoch   text    NOT NULL,            -- names this numbering; a restored log gets another
    cluster text    NOT NULL,            -- in which history of the database that was: another is one that was put back
    last    bigint  NOT NULL DEFAULT 0,  -- the highest number given
    chain   bytea   NOT NULL DEFAULT decode(repeat('00', 32), 'hex'),
    address text    NOT NULL DEFAULT '',
    enter   text    NOT NULL DEFAULT '',
    looked  bigint  NOT NULL DEFAULT 0   -- up to which number the slow look round has come
);

CREATE TABLE origin (
    boat         integer DEFAULT this_boat(),
    url          text,
    first_served bigint NOT NULL,        -- seconds since 1970
    last_served  bigint NOT NULL CHECK (last_served >= first_served),
    PRIMARY KEY (boat, url)
);

CREATE TABLE entry (
    boat     integer DEFAULT this_boat(),
    no       bigint,
    id       bytea   NOT NULL,
    record   bytea   NOT NULL,
    kind     text    NOT NULL,
    trip     bytea   NOT NULL,
    prev     bytea   NOT NULL,           -- ids, 16 bytes each
    fields   text,                       -- set, in canonical JSON; null for a strike
    at       bigint  NOT NULL,
    n        bigint  NOT NULL,
    by       bytea   NOT NULL,
    by_name  text    NOT NULL,
    via      bytea,                      -- null if the phone that wrote it brought it
    via_name text,
    mark     bytea,                      -- the writer's key and signature
    chain    bytea   NOT NULL,           -- SHA-256 of the chain before and the SHA-256 of the content
    seal     bytea,                      -- SHA-256 of the content, and 16 bytes of that of who wrote and brought it
    taken    bigint  NOT NULL,
    PRIMARY KEY (boat, no),
    UNIQUE (boat, id)
);
CREATE INDEX entry_record ON entry (boat, record, no);
CREATE INDEX entry_trip ON entry (boat, trip, no);
CREATE INDEX entry_by ON entry (boat, by, n);
CREATE INDEX entry_unsealed ON entry (boat, no) WHERE seal IS NULL;
CREATE INDEX entry_into ON entry (boat, record, no) WHERE kind = 'trip' AND strpos(fields, '"into":') > 0;

-- Numbers of entries that are not as they were taken: given out to nobody until a phone brings them again.
CREATE TABLE spoilt (
    boat integer DEFAULT this_boat(),
    no   bigint,
    PRIMARY KEY (boat, no)
);

CREATE TABLE device (
    boat       integer DEFAULT this_boat(),
    id         bytea,
    berth      bytea   NOT NULL,         -- the id that it came aboard with
    token      bytea   NOT NULL,         -- SHA-256 of what its cookie holds
    name       text    NOT NULL,
    role       text    NOT NULL CHECK (role IN ('skipper', 'mate', 'guest')),
    trip       bytea   CHECK ((trip IS NOT NULL) = (role = 'guest')),
    turn       bigint  NOT NULL DEFAULT 0, -- how often this log turned out older than what the phone had seen
    enrolled   bigint  NOT NULL,
    seen       bigint  NOT NULL,
    revoked    bigint,
    lacks      text,                     -- for sea, by its own word: names with spaces between
    lacks_told bigint,
    holds      bigint,                   -- how many entries and photos it holds back by its own word
    invited    bytea,                    -- the beginning of the hash of its invitation
    came       bytea,                    -- SHA-256 of the invitation or code by which it came
    PRIMARY KEY (boat, id),
    UNIQUE (boat, token),
    UNIQUE (boat, berth)
);

-- Ids that a device had before it took another key.
CREATE TABLE former (
    boat  integer DEFAULT this_boat(),
    id    bytea,
    berth bytea   NOT NULL,
    PRIMARY KEY (boat, id)
);
CREATE INDEX former_berth ON former (boat, berth);

CREATE TABLE invitation (
    boat      integer DEFAULT this_boat(),
    hash      bytea,                     -- SHA-256 of the invitation
    code      bytea,                     -- SHA-256 of the code to type; null once used
    code_ends bigint  NOT NULL,
    role      text    NOT NULL CHECK (role IN ('skipper', 'mate', 'guest')),
    trip      bytea   CHECK ((trip IS NOT NULL) = (role = 'guest')),
    ends      bigint  NOT NULL,
    uses      bigint  NOT NULL,          -- left
    made      bigint,
    maker     text,
    PRIMARY KEY (boat, hash),
    UNIQUE (boat, code)
);

-- Phones that ask to come aboard, and what was said to them.
CREATE TABLE ask (
    boat    integer DEFAULT this_boat(),
    device  bytea,                       -- the id of the phone's key
    hash    bytea   NOT NULL,            -- of what it comes back with
    name    text    NOT NULL,
    word    text    NOT NULL,            -- shown on both screens
    network text    NOT NULL,            -- it asks from
    asked   bigint  NOT NULL,
    ends    bigint  NOT NULL,
    said    text,                        -- yes or no, null until somebody has answered
    role    text,                        -- with a yes
    trip    bytea,
    former  bytea,                       -- the token as which it was aboard so far
    PRIMARY KEY (boat, device),
    UNIQUE (boat, hash),
    UNIQUE (boat, word)
);

-- From where nobody may ask for a while.
CREATE TABLE blocked (
    boat    integer DEFAULT this_boat(),
    network text,
    ends    bigint  NOT NULL,
    PRIMARY KEY (boat, network)
);

-- Which photo is named in which trip and by whom, whether its file is there whole, and whether those who see the trip may
-- see it.
CREATE TABLE photo (
    boat   integer DEFAULT this_boat(),
    sha256 bytea,
    trip   bytea,
    by     bytea,
    whole  integer NOT NULL,
    shown  integer NOT NULL DEFAULT 1,
    sender bytea,                        -- the berth of the phone that sent it
    PRIMARY KEY (boat, sha256, trip, by)
);
CREATE INDEX photo_wanted ON photo (boat, trip) WHERE whole = 0;
CREATE INDEX photo_kept ON photo (boat, trip, sha256) WHERE whole = 1;

-- Photos on their way: they count from their first byte on.
CREATE TABLE part (
    boat   integer DEFAULT this_boat(),
    sha256 bytea,
    by     bytea,                        -- the berth of the phone that sends it
    at     bigint  NOT NULL,             -- when something of it last came, to the hour
    PRIMARY KEY (boat, sha256, by)
);
CREATE INDEX part_by ON part (boat, by, at);

-- How much each phone has brought of each trip, its own and what others wrote.
CREATE TABLE brought (
    boat    integer DEFAULT this_boat(),
    device  bytea,
    trip    bytea,
    others  integer,
    entries bigint  NOT NULL,
    bytes   bigint  NOT NULL,
    PRIMARY KEY (boat, device, trip, others)
);
CREATE INDEX brought_trip ON brought (boat, trip);

-- How much each phone has sent in its last minute.
CREATE TABLE pace (
    boat    integer DEFAULT this_boat(),
    device  bytea,
    minute  bigint  NOT NULL,
    entries bigint  NOT NULL,
    bytes   bigint  NOT NULL,
    PRIMARY KEY (boat, device)
);

-- How far this log is with another one of the same boat.
CREATE TABLE home (
    boat     integer DEFAULT this_boat(),
    one      integer CHECK (one = 1),
    url      text    NOT NULL,
    epoch    text    NOT NULL,
    since    bigint  NOT NULL,
    chain    text    NOT NULL,
    together bigint,
    apart    bigint,
    why      text,
    PRIMARY KEY (boat, one)
);

-- Entries that the other one has, with their numbers there, or that it refused, with why.
CREATE TABLE at_home (
    boat    integer DEFAULT this_boat(),
    id      bytea,
    no      bigint,
    refused text,
    PRIMARY KEY (boat, id),
    CHECK ((no IS NULL) = (refused IS NOT NULL))
);
CREATE INDEX at_home_no ON at_home (boat, no);

-- The database itself lets nothing of another boat be read or written, whatever a statement says.
-- +goose StatementBegin
DO $$
DECLARE kept text;
BEGIN
    FOREACH kept IN ARRAY ARRAY['log', 'origin', 'entry', 'spoilt', 'device', 'former', 'invitation', 'ask', 'blocked', 'photo', 'part',
        'brought', 'pace', 'home', 'at_home'] LOOP
        EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY', kept);
        EXECUTE format('CREATE POLICY of_this_boat ON %I USING (boat = current_setting(''wirewake.boat'')::integer)', kept);
    END LOOP;
END $$;
-- +goose StatementEnd
