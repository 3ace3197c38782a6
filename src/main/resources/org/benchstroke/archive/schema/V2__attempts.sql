-- Which runs a unit and an order had, in one table that is not cut into months: whoever looks for
-- the runs of a unit, or for those before one, need not look into every month.

CREATE TABLE attempt (
  serial TEXT NOT NULL,
  order_no TEXT NOT NULL,
  simulated BOOLEAN NOT NULL,
  id ${id} NOT NULL,
  whole BOOLEAN NOT NULL,
  PRIMARY KEY (serial, order_no, simulated, id)
) ${attempts};

INSERT INTO attempt SELECT serial, order_no, simulated, id, whole FROM run;

CREATE INDEX attempt_by_order ON attempt (order_no, serial, id);

DROP INDEX IF EXISTS run_by_serial;
DROP INDEX IF EXISTS run_by_order;
