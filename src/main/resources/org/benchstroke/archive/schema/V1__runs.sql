-- The archive of runs, for SQLite and PostgreSQL alike: the words that differ are filled in.
-- Every row can be made again from the records; none holds what no record does.

CREATE TABLE run (
  -- Milliseconds of the begin since 1970, times 65536, and 16 bits of the record's digest.
  id ${id} NOT NULL PRIMARY KEY,
  digest TEXT NOT NULL,
  file TEXT NOT NULL,
  folder TEXT NOT NULL,
  bytes BIGINT NOT NULL,
  amendments INTEGER NOT NULL,
  seal TEXT NOT NULL,
  seal_key TEXT,
  flaws INTEGER NOT NULL,
  judged_from TEXT NOT NULL,
  serial TEXT NOT NULL,
  order_no TEXT NOT NULL,
  customer TEXT NOT NULL,
  operator TEXT NOT NULL,
  tag TEXT,
  bench TEXT NOT NULL,
  place TEXT NOT NULL,
  unit_type TEXT NOT NULL,
  procedure TEXT NOT NULL,
  procedure_version TEXT NOT NULL,
  program TEXT NOT NULL,
  begun TEXT NOT NULL,
  ended TEXT NOT NULL,
  ending TEXT NOT NULL,
  simulated BOOLEAN NOT NULL,
  imported BOOLEAN NOT NULL,
  whole BOOLEAN NOT NULL,
  passed BOOLEAN NOT NULL,
  verdict TEXT NOT NULL,
  reason TEXT NOT NULL,
  worst_margin DOUBLE PRECISION,
  worst_kind TEXT,
  worst_place TEXT
) ${runs};

CREATE INDEX run_by_serial ON run (serial, id);
CREATE INDEX run_by_order ON run (order_no, serial, id);
CREATE INDEX run_by_type ON run (unit_type, id);
CREATE INDEX run_by_file ON run (folder, file);
CREATE INDEX run_by_digest ON run (digest);

CREATE TABLE measure (
  run ${id} NOT NULL REFERENCES run (id) ON DELETE CASCADE,
  number INTEGER NOT NULL,
  kind TEXT NOT NULL,
  place TEXT NOT NULL,
  setpoint_pct DOUBLE PRECISION,
  truth TEXT NOT NULL,
  value DOUBLE PRECISION,
  u DOUBLE PRECISION,
  unit TEXT NOT NULL,
  limit_low DOUBLE PRECISION,
  limit_high DOUBLE PRECISION,
  word TEXT,
  PRIMARY KEY (run, number)
) ${parts};

CREATE TABLE cause (
  run ${id} NOT NULL REFERENCES run (id) ON DELETE CASCADE,
  number INTEGER NOT NULL,
  cause TEXT NOT NULL,
  probability DOUBLE PRECISION NOT NULL,
  named BOOLEAN NOT NULL,
  PRIMARY KEY (run, number)
) ${parts};

CREATE TABLE instrument (
  run ${id} NOT NULL REFERENCES run (id) ON DELETE CASCADE,
  number INTEGER NOT NULL,
  role TEXT NOT NULL,
  name TEXT NOT NULL,
  maker TEXT NOT NULL,
  model TEXT NOT NULL,
  serial TEXT NOT NULL,
  certificate TEXT NOT NULL,
  due TEXT NOT NULL,
  PRIMARY KEY (run, number)
) ${parts};

CREATE INDEX instrument_by_serial ON instrument (serial, run);

CREATE TABLE bench_key (
  fingerprint TEXT NOT NULL PRIMARY KEY,
  bench TEXT NOT NULL,
  public_half TEXT NOT NULL
);
