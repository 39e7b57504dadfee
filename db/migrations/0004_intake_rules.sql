-- What was done stays written: the history only grows.

CREATE FUNCTION intake.refuse_rewriting() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
	RAISE EXCEPTION 'The history only grows: % on intake.% was refused.', lower(TG_OP), TG_TABLE_NAME
		USING ERRCODE = 'restrict_violation';
END $$;
--> statement-breakpoint
CREATE TRIGGER refuse_rewriting BEFORE UPDATE OR DELETE OR TRUNCATE ON intake.history FOR EACH STATEMENT EXECUTE FUNCTION intake.refuse_rewriting();
--> statement-breakpoint

-- Rows on their way in: written by COPY, which must meet no constraint (the driver loses the server's refusal of one), then
-- moved to intake.record by a statement that meets them all. Empty between imports.

CREATE UNLOGGED TABLE intake.incoming AS SELECT * FROM intake.record WHERE false;
--> statement-breakpoint
CREATE INDEX incoming_record ON intake.incoming (record);
--> statement-breakpoint
GRANT SELECT, INSERT, UPDATE, DELETE, TRUNCATE ON intake.incoming TO fencerow_staff;
