-- +goose Up
-- What servers share and a crash may forget: nothing of it is written ahead, nor does a standby have it.
-- Wrong tries, which leak away with time, under the SHA-256 of what they are counted by.
CREATE UNLOGGED TABLE tries (
    boat  integer DEFAULT this_boat(),
    key   bytea,
    wrong double precision NOT NULL,
    at    bigint NOT NULL,
    PRIMARY KEY (boat, key)
);
CREATE INDEX tries_at ON tries (boat, at);

-- When a phone that asks to come aboard last looked what was said to it.
CREATE UNLOGGED TABLE look (
    boat   integer DEFAULT this_boat(),
    device bytea,
    at     bigint NOT NULL,
    PRIMARY KEY (boat, device)
);

-- +goose StatementBegin
DO $$
DECLARE kept text;
BEGIN
    FOREACH kept IN ARRAY ARRAY['tries', 'look'] LOOP
        EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY', kept);
        EXECUTE format('CREATE POLICY of_this_boat ON %I USING (boat = current_setting(''wirewake.boat'')::integer)', kept);
    END LOOP;
END $$;
-- +goose StatementEnd
