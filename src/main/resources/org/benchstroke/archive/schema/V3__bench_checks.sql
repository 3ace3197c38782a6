-- The checks of benches by references of their own, as the files beside the records hold them.

CREATE TABLE bench_check (
  -- SHA-256 of the line of the file.
  digest TEXT NOT NULL PRIMARY KEY,
  folder TEXT NOT NULL,
  bench TEXT NOT NULL,
  simulated BOOLEAN NOT NULL,
  at TEXT NOT NULL,
  person TEXT NOT NULL,
  source TEXT NOT NULL,
  note BOOLEAN NOT NULL,
  new_baseline BOOLEAN NOT NULL,
  -- Of an amendment: the line that it amends.
  amends TEXT,
  line TEXT NOT NULL
);

CREATE INDEX bench_check_by_bench ON bench_check (bench, at);

CREATE TABLE bench_reading (
  digest TEXT NOT NULL REFERENCES bench_check (digest) ON DELETE CASCADE,
  reference TEXT NOT NULL,
  value DOUBLE PRECISION NOT NULL,
  PRIMARY KEY (digest, reference)
);
