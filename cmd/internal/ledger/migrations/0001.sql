-- Times are milliseconds since 1970, 0 for none.

CREATE TABLE cursors (
  account      TEXT    NOT NULL,
  mailbox      TEXT    NOT NULL,
  uid_validity INTEGER NOT NULL,
  last_uid     INTEGER NOT NULL,
  PRIMARY KEY (account, mailbox)
) STRICT, WITHOUT ROWID;

-- One row for every message seen, whatever came of it.
CREATE TABLE messages (
  id           INTEGER PRIMARY KEY,
  account      TEXT    NOT NULL,
  mailbox      TEXT    NOT NULL,
  uid_validity INTEGER NOT NULL,
  uid          INTEGER NOT NULL,
  message_id   TEXT    NOT NULL,
  hash         TEXT    NOT NULL,
  sender       TEXT    NOT NULL, -- address, lower case
  sender_name  TEXT    NOT NULL,
  subject      TEXT    NOT NULL,
  received     INTEGER NOT NULL,
  size         INTEGER NOT NULL,
  state        TEXT    NOT NULL CHECK (state IN ('new', 'answered', 'held', 'ignored')),
  reason       TEXT    NOT NULL,
  job          INTEGER NOT NULL, -- 0 for none
  tries        INTEGER NOT NULL,
  failure      TEXT    NOT NULL,
  seen         INTEGER NOT NULL,
  UNIQUE (account, mailbox, uid_validity, uid)
) STRICT;
CREATE INDEX messages_by_message_id ON messages (account, message_id);
CREATE INDEX messages_by_hash ON messages (account, hash);
CREATE INDEX messages_by_job ON messages (account, job);

CREATE TABLE jobs (
  account       TEXT    NOT NULL,
  id            INTEGER NOT NULL,
  customer      TEXT    NOT NULL, -- address, lower case
  customer_name TEXT    NOT NULL,
  boat          TEXT    NOT NULL,
  language      TEXT    NOT NULL,
  state         TEXT    NOT NULL CHECK (state IN ('waiting-us', 'waiting-customer', 'held', 'ready', 'closed', 'set-aside')),
  reason        TEXT    NOT NULL, -- why it is held or set aside
  perhaps       INTEGER NOT NULL, -- the job it may belong to, 0 for none
  question      TEXT    NOT NULL, -- what the customer asked and nobody has answered
  subject       TEXT    NOT NULL, -- of the customer's last message
  message_id    TEXT    NOT NULL, -- of the customer's last message
  refs          TEXT    NOT NULL, -- its References, separated by spaces
  rounds        INTEGER NOT NULL, -- letters sent that asked for something
  summary       TEXT    NOT NULL, -- JSON, the job at a glance for chat, without pictures
  channel       TEXT    NOT NULL, -- the chat thread
  thread        TEXT    NOT NULL,
  created       INTEGER NOT NULL,
  updated       INTEGER NOT NULL,
  PRIMARY KEY (account, id)
) STRICT, WITHOUT ROWID;
CREATE INDEX jobs_by_customer ON jobs (account, customer);

-- Every state a job's survey was in, and what made it so.
CREATE TABLE surveys (
  account  TEXT    NOT NULL,
  job      INTEGER NOT NULL,
  version  INTEGER NOT NULL,
  cause    TEXT    NOT NULL,
  survey   TEXT    NOT NULL, -- JSON
  problems TEXT    NOT NULL, -- JSON
  verdict  TEXT    NOT NULL,
  created  INTEGER NOT NULL,
  PRIMARY KEY (account, job, version),
  FOREIGN KEY (account, job) REFERENCES jobs (account, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE drafts (
  account    TEXT    NOT NULL,
  job        INTEGER NOT NULL,
  version    INTEGER NOT NULL,
  message_id TEXT    NOT NULL,
  recipient  TEXT    NOT NULL,
  answers    TEXT    NOT NULL, -- Message-ID of the customer's message
  state      TEXT    NOT NULL CHECK (state IN ('open', 'sending', 'sent', 'unsure', 'held', 'replaced', 'settled')),
  asks       INTEGER NOT NULL, -- number of places asked for
  question   TEXT    NOT NULL, -- that must be answered first; '' when nothing is in the way
  letter     TEXT    NOT NULL, -- as text
  mime       BLOB    NOT NULL, -- the whole message, as it was filed
  outgoing_id TEXT   NOT NULL, -- Message-ID and message as they went out, or
  outgoing   BLOB    NOT NULL, -- were about to: a person may have changed both
  created    INTEGER NOT NULL,
  settled    INTEGER NOT NULL,
  settled_by TEXT    NOT NULL,
  PRIMARY KEY (account, job, version),
  FOREIGN KEY (account, job) REFERENCES jobs (account, id)
) STRICT;
CREATE UNIQUE INDEX drafts_by_message_id ON drafts (account, message_id);
CREATE INDEX drafts_by_outgoing_id ON drafts (account, outgoing_id);
-- Never more than one letter waits or is under way in a job.
CREATE UNIQUE INDEX drafts_one_open ON drafts (account, job) WHERE state IN ('open', 'sending');

CREATE TABLE decisions (
  id      INTEGER PRIMARY KEY,
  account TEXT    NOT NULL,
  job     INTEGER NOT NULL,
  version INTEGER NOT NULL, -- of the draft, 0 when it is about the job
  kind    TEXT    NOT NULL,
  person  TEXT    NOT NULL,
  words   TEXT    NOT NULL,
  made    INTEGER NOT NULL,
  done    INTEGER NOT NULL, -- 0 until the service has acted on it
  outcome TEXT    NOT NULL
) STRICT;
CREATE INDEX decisions_waiting ON decisions (account, id) WHERE done = 0;

-- Acts outside: planned before, settled after.
CREATE TABLE intents (
  id      INTEGER PRIMARY KEY,
  account TEXT    NOT NULL,
  job     INTEGER NOT NULL,
  version INTEGER NOT NULL,
  kind    TEXT    NOT NULL,
  words   TEXT    NOT NULL,
  state   TEXT    NOT NULL CHECK (state IN ('planned', 'trying', 'unsure', 'done', 'failed', 'dropped')),
  tries   INTEGER NOT NULL,
  due     INTEGER NOT NULL,
  outcome TEXT    NOT NULL,
  made    INTEGER NOT NULL,
  settled INTEGER NOT NULL
) STRICT;
CREATE INDEX intents_waiting ON intents (account, id) WHERE state IN ('planned', 'trying', 'unsure');
