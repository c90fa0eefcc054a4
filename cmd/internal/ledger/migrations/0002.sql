-- What a job knows beside its survey.
ALTER TABLE jobs ADD COLUMN tracings   TEXT    NOT NULL DEFAULT '{}'; -- JSON, of bow and stern
ALTER TABLE jobs ADD COLUMN form       INTEGER NOT NULL DEFAULT 0;    -- 1: asks for a blank form
ALTER TABLE jobs ADD COLUMN answer     TEXT    NOT NULL DEFAULT '';   -- a person's, for the letter
ALTER TABLE jobs ADD COLUMN under_tape TEXT    NOT NULL DEFAULT '';   -- what lay under the tape, as said
ALTER TABLE jobs ADD COLUMN own        TEXT    NOT NULL DEFAULT '[]'; -- JSON, odd numbers accepted as the boat's own
ALTER TABLE jobs ADD COLUMN others     TEXT    NOT NULL DEFAULT '';   -- further addresses of the customer, separated by spaces
ALTER TABLE jobs ADD COLUMN joined     INTEGER NOT NULL DEFAULT 0;    -- the job it went into, 0 for none
ALTER TABLE jobs ADD COLUMN until      INTEGER NOT NULL DEFAULT 0;    -- when a held letter comes back

ALTER TABLE drafts ADD COLUMN reminder INTEGER NOT NULL DEFAULT 0;  -- 1 for the first reminder
ALTER TABLE drafts ADD COLUMN edited   TEXT    NOT NULL DEFAULT ''; -- who gave it other words

-- What was done in chat may be told to us twice; its id tells.
ALTER TABLE decisions ADD COLUMN event TEXT NOT NULL DEFAULT '';
CREATE UNIQUE INDEX decisions_by_event ON decisions (account, event) WHERE event <> '';

-- Small facts that outlive the program: when the last digest was, when the chat
-- was last heard.
CREATE TABLE marks (
  account TEXT NOT NULL,
  name    TEXT NOT NULL,
  value   TEXT NOT NULL,
  PRIMARY KEY (account, name)
) STRICT, WITHOUT ROWID;
