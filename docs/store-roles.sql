-- Three roles for a store on a PostgreSQL server, each with no more rights than it needs.
--
-- Whoever looks after the server runs this in the database of the store:
--   1. before the store is made: makes the roles and the schema;
--   2. after siltwright_owner has made the store (siltwright import ... by that user);
--   3. after each version of the program that changes the tables.
-- It can be run as often as one likes. Passwords are set apart from it, so that they stand in no file:
-- \password siltwright_owner in psql. People are logins of their own:
--   CREATE ROLE ann LOGIN IN ROLE siltwright_writer;
--   CREATE ROLE ben LOGIN IN ROLE siltwright_reader;

-- The owner makes and migrates the tables, and restores archives. Nobody works as the owner.
-- A writer adds records, ends them and undoes: no row can be erased, and only the columns that end a
-- row can be changed. A reader reads.
DO $$
DECLARE
  role TEXT;
BEGIN
  FOREACH role IN ARRAY ARRAY['siltwright_owner', 'siltwright_writer', 'siltwright_reader'] LOOP
    IF NOT EXISTS (SELECT FROM pg_roles WHERE rolname = role) THEN
      EXECUTE format('CREATE ROLE %I', role);
    END IF;
  END LOOP;
  EXECUTE format('REVOKE ALL ON DATABASE %I FROM PUBLIC', current_database());
  EXECUTE format(
    'GRANT CONNECT ON DATABASE %I TO siltwright_owner, siltwright_writer, siltwright_reader',
    current_database());
  -- A migration keeps the tables as they were in a schema beside.
  EXECUTE format('GRANT CREATE ON DATABASE %I TO siltwright_owner', current_database());
END
$$;

ALTER ROLE siltwright_owner LOGIN;
REVOKE CREATE ON SCHEMA public FROM PUBLIC;
CREATE SCHEMA IF NOT EXISTS siltwright AUTHORIZATION siltwright_owner;
REVOKE ALL ON SCHEMA siltwright FROM PUBLIC;
GRANT USAGE ON SCHEMA siltwright TO siltwright_writer, siltwright_reader;

REVOKE ALL ON ALL TABLES IN SCHEMA siltwright FROM PUBLIC, siltwright_writer, siltwright_reader;
GRANT SELECT ON ALL TABLES IN SCHEMA siltwright TO siltwright_writer, siltwright_reader;

DO $$
DECLARE
  t TEXT;
BEGIN
  FOR t IN
    SELECT table_name FROM information_schema.tables
    WHERE table_schema = 'siltwright' AND table_name <> 'store_version'
  LOOP
    EXECUTE format('GRANT INSERT ON siltwright.%I TO siltwright_writer', t);
  END LOOP;
  FOR t IN
    SELECT table_name FROM information_schema.columns
    WHERE table_schema = 'siltwright' AND column_name = 'ended_by'
  LOOP
    EXECUTE format('GRANT UPDATE (ended_by) ON siltwright.%I TO siltwright_writer', t);
  END LOOP;
  IF EXISTS (
    SELECT FROM information_schema.tables
    WHERE table_schema = 'siltwright' AND table_name = 'action')
  THEN
    GRANT UPDATE (made, ended, undoes) ON siltwright.action TO siltwright_writer;
  END IF;
END
$$;
