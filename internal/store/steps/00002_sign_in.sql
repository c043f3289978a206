-- +goose Up
-- The passphrase, if there is one, as a hash that names its own measures.
CREATE TABLE secret (
    id   INTEGER PRIMARY KEY CHECK (id = 1),
    hash TEXT NOT NULL
) STRICT;

-- Who has signed in. The token itself is in the browser alone.
CREATE TABLE sessions (
    token BLOB PRIMARY KEY CHECK (length(token) = 32), -- its SHA-256
    until INTEGER NOT NULL
) STRICT;
