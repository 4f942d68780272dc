-- needs Siltwright 0.1.0
-- Every row of a table with made_by is written once and never changed: an edit ends it and makes
-- another, an undo ends what an action made and makes again what it ended.

CREATE TABLE action (
  id ${identity},
  at_ms BIGINT NOT NULL,
  who TEXT NOT NULL,
  verb TEXT NOT NULL,
  detail TEXT NOT NULL,
  made BIGINT NOT NULL DEFAULT 0,
  ended BIGINT NOT NULL DEFAULT 0,
  undoes BIGINT UNIQUE REFERENCES action (id)
);

CREATE TABLE site (
  id ${identity},
  code TEXT NOT NULL UNIQUE
);

CREATE TABLE site_state (
  id ${identity},
  site_id BIGINT NOT NULL REFERENCES site (id),
  name TEXT,
  zone TEXT,
  made_by BIGINT NOT NULL REFERENCES action (id),
  ended_by BIGINT REFERENCES action (id)
);
CREATE UNIQUE INDEX site_state_live ON site_state (site_id) WHERE ended_by IS NULL;

CREATE TABLE machine (
  id ${identity},
  code TEXT NOT NULL UNIQUE
);

CREATE TABLE machine_state (
  id ${identity},
  machine_id BIGINT NOT NULL REFERENCES machine (id),
  serial TEXT,
  name TEXT,
  machine_class TEXT,
  site_id BIGINT REFERENCES site (id),
  made_by BIGINT NOT NULL REFERENCES action (id),
  ended_by BIGINT REFERENCES action (id)
);
CREATE UNIQUE INDEX machine_state_live ON machine_state (machine_id) WHERE ended_by IS NULL;
CREATE UNIQUE INDEX machine_state_serial ON machine_state (serial) WHERE ended_by IS NULL;

CREATE TABLE mapping (
  id ${identity},
  name TEXT NOT NULL,
  body TEXT NOT NULL,
  made_by BIGINT NOT NULL REFERENCES action (id),
  ended_by BIGINT REFERENCES action (id)
);
CREATE UNIQUE INDEX mapping_live ON mapping (name) WHERE ended_by IS NULL;

CREATE TABLE import_batch (
  id ${identity},
  action_id BIGINT NOT NULL REFERENCES action (id),
  file TEXT NOT NULL,
  sha256 TEXT NOT NULL,
  mapping TEXT NOT NULL,
  rows_read BIGINT NOT NULL,
  rows_added BIGINT NOT NULL,
  rows_known BIGINT NOT NULL,
  rows_refused BIGINT NOT NULL
);

CREATE TABLE meter_reading (
  id ${identity},
  machine_id BIGINT NOT NULL REFERENCES machine (id),
  at_ms BIGINT NOT NULL,
  whole_day INTEGER NOT NULL,
  meter_h DOUBLE PRECISION,
  source TEXT,
  made_by BIGINT NOT NULL REFERENCES action (id),
  ended_by BIGINT REFERENCES action (id)
);
CREATE UNIQUE INDEX meter_reading_live ON meter_reading (machine_id, at_ms) WHERE ended_by IS NULL;

CREATE TABLE element_change (
  id ${identity},
  machine_id BIGINT NOT NULL REFERENCES machine (id),
  at_ms BIGINT NOT NULL,
  whole_day INTEGER NOT NULL,
  meter_h DOUBLE PRECISION,
  filter TEXT NOT NULL DEFAULT '',
  element TEXT,
  procedure TEXT,
  reason TEXT,
  person TEXT,
  drop_kpa DOUBLE PRECISION,
  note TEXT,
  made_by BIGINT NOT NULL REFERENCES action (id),
  ended_by BIGINT REFERENCES action (id)
);
CREATE UNIQUE INDEX element_change_live ON element_change (machine_id, at_ms, filter) WHERE ended_by IS NULL;

CREATE TABLE oil_sample (
  id ${identity},
  machine_id BIGINT NOT NULL REFERENCES machine (id),
  at_ms BIGINT NOT NULL,
  whole_day INTEGER NOT NULL,
  meter_h DOUBLE PRECISION,
  sample_no TEXT NOT NULL DEFAULT '',
  point TEXT,
  oil_h DOUBLE PRECISION,
  count4_per_ml DOUBLE PRECISION,
  count6_per_ml DOUBLE PRECISION,
  count14_per_ml DOUBLE PRECISION,
  count21_per_ml DOUBLE PRECISION,
  count38_per_ml DOUBLE PRECISION,
  count70_per_ml DOUBLE PRECISION,
  code TEXT,
  water_ppm DOUBLE PRECISION,
  viscosity40_mm2_per_s DOUBLE PRECISION,
  iron_ppm DOUBLE PRECISION,
  silicon_ppm DOUBLE PRECISION,
  note TEXT,
  made_by BIGINT NOT NULL REFERENCES action (id),
  ended_by BIGINT REFERENCES action (id)
);
CREATE UNIQUE INDEX oil_sample_live ON oil_sample (machine_id, at_ms, sample_no) WHERE ended_by IS NULL;

CREATE TABLE drop_reading (
  id ${identity},
  machine_id BIGINT NOT NULL REFERENCES machine (id),
  at_ms BIGINT NOT NULL,
  whole_day INTEGER NOT NULL,
  meter_h DOUBLE PRECISION,
  drop_kpa DOUBLE PRECISION NOT NULL,
  oil_degc DOUBLE PRECISION,
  flow_l_per_min DOUBLE PRECISION,
  indicator TEXT,
  made_by BIGINT NOT NULL REFERENCES action (id),
  ended_by BIGINT REFERENCES action (id)
);
CREATE UNIQUE INDEX drop_reading_live ON drop_reading (machine_id, at_ms) WHERE ended_by IS NULL;

CREATE TABLE component_replacement (
  id ${identity},
  machine_id BIGINT NOT NULL REFERENCES machine (id),
  at_ms BIGINT NOT NULL,
  whole_day INTEGER NOT NULL,
  meter_h DOUBLE PRECISION,
  component TEXT NOT NULL DEFAULT '',
  cause TEXT,
  part_no TEXT,
  note TEXT,
  made_by BIGINT NOT NULL REFERENCES action (id),
  ended_by BIGINT REFERENCES action (id)
);
CREATE UNIQUE INDEX component_replacement_live ON component_replacement (machine_id, at_ms, component) WHERE ended_by IS NULL;

CREATE TABLE fault_report (
  id ${identity},
  machine_id BIGINT NOT NULL REFERENCES machine (id),
  at_ms BIGINT NOT NULL,
  whole_day INTEGER NOT NULL,
  meter_h DOUBLE PRECISION,
  fault_code TEXT NOT NULL DEFAULT '',
  severity TEXT,
  origin TEXT,
  description TEXT,
  made_by BIGINT NOT NULL REFERENCES action (id),
  ended_by BIGINT REFERENCES action (id)
);
CREATE UNIQUE INDEX fault_report_live ON fault_report (machine_id, at_ms, fault_code) WHERE ended_by IS NULL;
