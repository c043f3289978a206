-- +goose Up
-- What stands in the file's header, so that a store is known from any other
-- SQLite file: "Bwrt".
PRAGMA application_id = 1115124340;

CREATE TABLE jobs (
    id    TEXT PRIMARY KEY,
    head  INTEGER NOT NULL CHECK (head >= 1),
    state TEXT NOT NULL,
    away  INTEGER NOT NULL DEFAULT 0 CHECK (away IN (0, 1)),
    made  INTEGER NOT NULL, -- milliseconds since 1970, UTC; likewise below
    FOREIGN KEY (id, head) REFERENCES revisions (job, number) DEFERRABLE INITIALLY DEFERRED
) STRICT;

-- A row is never changed.
CREATE TABLE revisions (
    job    TEXT NOT NULL REFERENCES jobs (id) DEFERRABLE INITIALLY DEFERRED,
    number INTEGER NOT NULL CHECK (number >= 1),
    parent INTEGER CHECK (parent < number), -- NULL for the first
    text   BLOB NOT NULL,
    say    TEXT NOT NULL,
    window TEXT NOT NULL,
    at     INTEGER NOT NULL,
    PRIMARY KEY (job, number),
    FOREIGN KEY (job, parent) REFERENCES revisions (job, number)
) STRICT;

CREATE INDEX revisions_by_parent ON revisions (job, parent);
