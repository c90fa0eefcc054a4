-- What was meant for a letter is asked for at each new letter, and in Drafts.
CREATE INDEX intents_by_letter ON intents (account, job, version);
