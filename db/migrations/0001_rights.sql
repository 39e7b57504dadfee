-- Who may do what. The three roles belong to the whole server and exist already (db/roles.ts); this is their part in this database.

DO $$ BEGIN
	EXECUTE format('REVOKE ALL ON DATABASE %I FROM PUBLIC', current_database());
	EXECUTE format('GRANT CONNECT ON DATABASE %I TO fencerow_staff, fencerow_public', current_database());
END $$;
--> statement-breakpoint
REVOKE ALL ON SCHEMA public FROM PUBLIC;
--> statement-breakpoint
REVOKE ALL ON SCHEMA intake, surveillance, release FROM PUBLIC;
--> statement-breakpoint
GRANT USAGE ON SCHEMA intake, surveillance, release TO fencerow_staff;
--> statement-breakpoint
GRANT SELECT, INSERT, UPDATE, DELETE ON ALL TABLES IN SCHEMA intake, surveillance TO fencerow_staff;
--> statement-breakpoint
ALTER DEFAULT PRIVILEGES IN SCHEMA intake, surveillance GRANT SELECT, INSERT, UPDATE, DELETE ON TABLES TO fencerow_staff;
--> statement-breakpoint
GRANT SELECT, INSERT ON ALL TABLES IN SCHEMA release TO fencerow_staff;
--> statement-breakpoint
GRANT UPDATE (withdrawn_at, withdrawal_note) ON release.release TO fencerow_staff;
--> statement-breakpoint
ALTER DEFAULT PRIVILEGES IN SCHEMA release GRANT SELECT, INSERT ON TABLES TO fencerow_staff;
--> statement-breakpoint
GRANT USAGE ON SCHEMA release TO fencerow_public;
--> statement-breakpoint
GRANT SELECT ON ALL TABLES IN SCHEMA release TO fencerow_public;
--> statement-breakpoint
ALTER DEFAULT PRIVILEGES IN SCHEMA release GRANT SELECT ON TABLES TO fencerow_public;
