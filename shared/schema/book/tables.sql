-- The tables of `tankside review --as sqlite`, and of the register that is printed from them.
--
-- One row of `assessments` for each assessment that was read; everything else refers to it. Days are
-- texts like 2027-10-08, so that they sort and compare; times are minutes, depths metres. What a
-- dossier leaves open is NULL. Nothing confidential is here: what a rule calls discreet keeps its
-- score and its task only, an open question about something personal keeps its weight only, and
-- no table says which person something is about. The numbers are those of the assessments, as
-- they stand; nothing is assessed again.

PRAGMA application_id = 1953393523; -- "tnks": by what the program knows the file again

CREATE TABLE book (         -- one row: this review
  tankside TEXT NOT NULL,   -- the version that read
  on_day   TEXT             -- the day as of which things lapse: --on
) STRICT;

CREATE TABLE shipped_packs (  -- the packs that came with the program that read
  name TEXT PRIMARY KEY, files INTEGER NOT NULL,
  digest TEXT NOT NULL        -- SHA-256 over "FILE SHA-256-OF-IT\n" of its files in order
) STRICT;

CREATE TABLE shipped_matrices (sha256 TEXT PRIMARY KEY, file TEXT NOT NULL) STRICT;

CREATE TABLE unread (       -- what was found and could not be read as an assessment
  file TEXT NOT NULL, line INTEGER, reason TEXT NOT NULL
) STRICT;

CREATE TABLE assessments (
  id             INTEGER PRIMARY KEY,  -- in the order of `file`
  file           TEXT NOT NULL,        -- where it was found
  title TEXT, reference TEXT, jurisdiction TEXT, revision TEXT, on_day TEXT, by_whom TEXT,
  tankside       TEXT NOT NULL,        -- the version that assessed
  complete       TEXT NOT NULL,        -- yes, no: a rule failed, or rules were lacking
  stops INTEGER NOT NULL, above INTEGER NOT NULL,
  open_facts     INTEGER NOT NULL,     -- facts not known that findings rest on
  duties_not_met INTEGER NOT NULL, duties_open INTEGER NOT NULL,
  waived INTEGER NOT NULL, failed INTEGER NOT NULL,
  facts INTEGER, facts_with_evidence INTEGER,
  people INTEGER NOT NULL, minors INTEGER NOT NULL,
  ages_unknown   INTEGER NOT NULL,     -- people who may be minors: no age is stated
  matrix TEXT, matrix_file TEXT, matrix_sha256 TEXT,
  inputs_sha256  TEXT                  -- over the dossier, the rules, the matrix and what was set
) STRICT;

CREATE TABLE signatures (
  assessment INTEGER NOT NULL REFERENCES assessments(id) DEFERRABLE INITIALLY DEFERRED,
  n INTEGER NOT NULL, who TEXT, as_whom TEXT, on_day TEXT,
  state TEXT NOT NULL,  -- trusted, untrusted, expired; altered; unknown: not of tankside's form
  PRIMARY KEY (assessment, n)
) STRICT;

CREATE TABLE rule_files (
  assessment INTEGER NOT NULL REFERENCES assessments(id) DEFERRABLE INITIALLY DEFERRED,
  pack TEXT NOT NULL, file TEXT NOT NULL, sha256 TEXT NOT NULL,
  PRIMARY KEY (assessment, pack, file)
) STRICT;

CREATE TABLE packs (
  assessment INTEGER NOT NULL REFERENCES assessments(id) DEFERRABLE INITIALLY DEFERRED,
  name TEXT NOT NULL, files INTEGER NOT NULL, digest TEXT NOT NULL,  -- as in shipped_packs
  PRIMARY KEY (assessment, name)
) STRICT;

CREATE TABLE bands (        -- of its matrix
  assessment INTEGER NOT NULL REFERENCES assessments(id) DEFERRABLE INITIALLY DEFERRED,
  id TEXT NOT NULL, word TEXT, rank INTEGER NOT NULL, above TEXT NOT NULL,
  PRIMARY KEY (assessment, id)
) STRICT;

CREATE TABLE roles (        -- how many people of a role; none by name
  assessment INTEGER NOT NULL REFERENCES assessments(id) DEFERRABLE INITIALLY DEFERRED,
  role TEXT NOT NULL, people INTEGER NOT NULL,
  PRIMARY KEY (assessment, role)
) STRICT;

CREATE TABLE days (
  assessment INTEGER NOT NULL REFERENCES assessments(id) DEFERRABLE INITIALLY DEFERRED,
  path TEXT NOT NULL, day TEXT NOT NULL, site TEXT,
  PRIMARY KEY (assessment, path)
) STRICT;

CREATE TABLE tasks (
  assessment INTEGER NOT NULL REFERENCES assessments(id) DEFERRABLE INITIALLY DEFERRED,
  path TEXT NOT NULL, day TEXT NOT NULL, title TEXT, start TEXT, finish TEXT,
  PRIMARY KEY (assessment, path)
) STRICT;

CREATE TABLE immersions (   -- one person in one task; not who
  assessment INTEGER NOT NULL REFERENCES assessments(id) DEFERRABLE INITIALLY DEFERRED,
  n INTEGER NOT NULL, task TEXT,
  under_low REAL, under_high REAL,  -- minutes under water
  wet_low REAL, wet_high REAL,      -- minutes wet
  depth_low REAL, depth_high REAL,  -- metres
  PRIMARY KEY (assessment, n)
) STRICT;

CREATE TABLE findings (
  assessment INTEGER NOT NULL REFERENCES assessments(id) DEFERRABLE INITIALLY DEFERRED,
  id TEXT NOT NULL,                 -- F12
  word TEXT NOT NULL,               -- hazard, stop, note
  rule TEXT NOT NULL, title TEXT NOT NULL, pack TEXT,
  entity TEXT, task TEXT, day TEXT, site TEXT,
  discreet TEXT NOT NULL,           -- yes: rule and title are withheld
  waived TEXT NOT NULL,             -- yes, no
  state TEXT,                       -- of a stop, with what is in place: certain, possible, gone
  described INTEGER, described_band TEXT,  -- worst scores; NULL: not found
  in_place INTEGER, in_place_band TEXT, in_place_best INTEGER,
  planned INTEGER, planned_band TEXT,
  PRIMARY KEY (assessment, id)
) STRICT;

CREATE TABLE duties (
  assessment INTEGER NOT NULL REFERENCES assessments(id) DEFERRABLE INITIALLY DEFERRED,
  id TEXT NOT NULL, rule TEXT NOT NULL, title TEXT NOT NULL, pack TEXT, task TEXT,
  discreet TEXT NOT NULL,
  described TEXT NOT NULL, in_place TEXT,  -- met, not-met, open
  instrument TEXT, section TEXT,
  PRIMARY KEY (assessment, id)
) STRICT;

CREATE TABLE questions (    -- what is open, worth most first
  assessment INTEGER NOT NULL REFERENCES assessments(id) DEFERRABLE INITIALLY DEFERRED,
  n INTEGER NOT NULL, title TEXT NOT NULL, asked TEXT,  -- who usually knows
  state TEXT NOT NULL,                   -- unknown; or stated, but wide
  removes INTEGER NOT NULL,              -- what an answer could take away from the scores
  PRIMARY KEY (assessment, n)
) STRICT;

CREATE TABLE dated (        -- what holds until a day: certificates, licences, waivers, the assessment itself
  assessment INTEGER NOT NULL REFERENCES assessments(id) DEFERRABLE INITIALLY DEFERRED,
  n INTEGER NOT NULL, entity TEXT NOT NULL, what TEXT NOT NULL, until_day TEXT NOT NULL,
  PRIMARY KEY (assessment, n)
) STRICT;

CREATE TABLE evidence (     -- what is given as evidence for facts
  assessment INTEGER NOT NULL REFERENCES assessments(id) DEFERRABLE INITIALLY DEFERRED,
  n INTEGER NOT NULL, kind TEXT, on_day TEXT, has_reference TEXT NOT NULL,
  PRIMARY KEY (assessment, n)
) STRICT;

CREATE TABLE waivers (
  assessment INTEGER NOT NULL REFERENCES assessments(id) DEFERRABLE INITIALLY DEFERRED,
  n INTEGER NOT NULL, rule TEXT NOT NULL, by_whom TEXT, until_day TEXT, valid TEXT NOT NULL,
  PRIMARY KEY (assessment, n)
) STRICT;

CREATE TABLE failures (     -- rules that could not be evaluated
  assessment INTEGER NOT NULL REFERENCES assessments(id) DEFERRABLE INITIALLY DEFERRED,
  n INTEGER NOT NULL, rule TEXT NOT NULL,
  PRIMARY KEY (assessment, n)
) STRICT;
