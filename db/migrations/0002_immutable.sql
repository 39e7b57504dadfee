-- A release never changes: it is written in one transaction, and afterwards nothing of it can be added, altered or removed.
-- The one exception is its withdrawal, once.

CREATE FUNCTION release.refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
	RAISE EXCEPTION 'A release never changes: % on release.% was refused.', lower(TG_OP), TG_TABLE_NAME
		USING ERRCODE = 'restrict_violation', HINT = 'Publish a new release, or withdraw this one.';
END $$;
--> statement-breakpoint
CREATE FUNCTION release.stamp() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
	NEW.created_at := transaction_timestamp();
	RETURN NEW;
END $$;
--> statement-breakpoint
CREATE FUNCTION release.refuse_late_rows() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
	IF EXISTS (
		SELECT FROM release.release r
		WHERE r.number IN (SELECT DISTINCT n.release FROM new_rows n) AND r.created_at <> transaction_timestamp()
	) THEN
		RAISE EXCEPTION 'A release never changes: rows were added to release.% after it was made.', TG_TABLE_NAME
			USING ERRCODE = 'restrict_violation', HINT = 'Publish a new release.';
	END IF;
	RETURN NULL;
END $$;
--> statement-breakpoint
CREATE FUNCTION release.allow_withdrawal_only() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
	IF OLD.withdrawn_at IS NULL AND NEW.withdrawn_at IS NOT NULL
		AND (NEW.number, NEW.date, NEW.head, NEW.created_at) IS NOT DISTINCT FROM (OLD.number, OLD.date, OLD.head, OLD.created_at)
	THEN
		RETURN NEW;
	END IF;
	RAISE EXCEPTION 'A release never changes: only its withdrawal can be noted, once.'
		USING ERRCODE = 'restrict_violation', HINT = 'Publish a new release.';
END $$;
--> statement-breakpoint
CREATE TRIGGER stamp BEFORE INSERT ON release.release FOR EACH ROW EXECUTE FUNCTION release.stamp();
--> statement-breakpoint
CREATE TRIGGER allow_withdrawal_only BEFORE UPDATE ON release.release FOR EACH ROW EXECUTE FUNCTION release.allow_withdrawal_only();
--> statement-breakpoint
CREATE TRIGGER refuse_change BEFORE DELETE OR TRUNCATE ON release.release FOR EACH STATEMENT EXECUTE FUNCTION release.refuse_change();
--> statement-breakpoint
CREATE TRIGGER refuse_change BEFORE UPDATE OR DELETE OR TRUNCATE ON release.cell FOR EACH STATEMENT EXECUTE FUNCTION release.refuse_change();
--> statement-breakpoint
CREATE TRIGGER refuse_change BEFORE UPDATE OR DELETE OR TRUNCATE ON release.status FOR EACH STATEMENT EXECUTE FUNCTION release.refuse_change();
--> statement-breakpoint
CREATE TRIGGER refuse_change BEFORE UPDATE OR DELETE OR TRUNCATE ON release.finding FOR EACH STATEMENT EXECUTE FUNCTION release.refuse_change();
--> statement-breakpoint
CREATE TRIGGER refuse_change BEFORE UPDATE OR DELETE OR TRUNCATE ON release.file FOR EACH STATEMENT EXECUTE FUNCTION release.refuse_change();
--> statement-breakpoint
CREATE TRIGGER refuse_late_rows AFTER INSERT ON release.cell REFERENCING NEW TABLE AS new_rows FOR EACH STATEMENT EXECUTE FUNCTION release.refuse_late_rows();
--> statement-breakpoint
CREATE TRIGGER refuse_late_rows AFTER INSERT ON release.status REFERENCING NEW TABLE AS new_rows FOR EACH STATEMENT EXECUTE FUNCTION release.refuse_late_rows();
--> statement-breakpoint
CREATE TRIGGER refuse_late_rows AFTER INSERT ON release.finding REFERENCING NEW TABLE AS new_rows FOR EACH STATEMENT EXECUTE FUNCTION release.refuse_late_rows();
--> statement-breakpoint
CREATE TRIGGER refuse_late_rows AFTER INSERT ON release.file REFERENCING NEW TABLE AS new_rows FOR EACH STATEMENT EXECUTE FUNCTION release.refuse_late_rows();
