-- What a job's cover is made of, and what came of it.
CREATE TABLE covers (
  account TEXT    NOT NULL,
  job     INTEGER NOT NULL,
  cloth   TEXT    NOT NULL, -- name in the settings, '' when not set
  colour  TEXT    NOT NULL,
  cut     INTEGER NOT NULL, -- number of the sheet that was cut, 0 for none
  fit     TEXT    NOT NULL, -- how the cover fitted, as said; '' when not known
  heeded  TEXT    NOT NULL, -- hash of what the shop was last told a sheet, or none, for
  PRIMARY KEY (account, job),
  FOREIGN KEY (account, job) REFERENCES jobs (account, id)
) STRICT, WITHOUT ROWID;

-- Every cut sheet of a job. It can be made again from what is kept of it.
CREATE TABLE sheets (
  account  TEXT    NOT NULL,
  job      INTEGER NOT NULL,
  number   INTEGER NOT NULL, -- from 1
  replaces INTEGER NOT NULL, -- number of the sheet that it made void, 0 for none
  survey   INTEGER NOT NULL, -- version of the survey
  cloth    TEXT    NOT NULL, -- JSON, with the colour, as the settings were
  void     TEXT    NOT NULL, -- why it does not hold, '' when it does
  made     INTEGER NOT NULL,
  PRIMARY KEY (account, job, number),
  FOREIGN KEY (account, job) REFERENCES jobs (account, id)
) STRICT, WITHOUT ROWID;
