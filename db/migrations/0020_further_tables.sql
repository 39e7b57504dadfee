CREATE TABLE "release"."multiple_cell" (
	"release" integer NOT NULL,
	"species" text NOT NULL,
	"place_kind" text NOT NULL,
	"place" text NOT NULL,
	"period_first" integer NOT NULL,
	"period_last" integer NOT NULL,
	"status" text NOT NULL,
	"tested" integer,
	"resistant_to_one" integer,
	"resistant_to_several" integer,
	CONSTRAINT "multiple_cell_pk" PRIMARY KEY("release","species","place_kind","place","period_first","period_last"),
	CONSTRAINT "multiple_cell_place" CHECK ("release"."multiple_cell"."place_kind" in ('region', 'state') and "release"."multiple_cell"."period_first" <= "release"."multiple_cell"."period_last"),
	CONSTRAINT "multiple_cell_counts" CHECK (case "release"."multiple_cell"."status" when 'withheld' then num_nonnulls("release"."multiple_cell"."tested", "release"."multiple_cell"."resistant_to_one", "release"."multiple_cell"."resistant_to_several") = 0 when 'published' then num_nulls("release"."multiple_cell"."tested", "release"."multiple_cell"."resistant_to_one", "release"."multiple_cell"."resistant_to_several") = 0 and "release"."multiple_cell"."resistant_to_one" >= 0 and "release"."multiple_cell"."resistant_to_several" >= 0 and "release"."multiple_cell"."resistant_to_one" + "release"."multiple_cell"."resistant_to_several" <= "release"."multiple_cell"."tested" else false end)
);
--> statement-breakpoint
CREATE TABLE "release"."part_cell" (
	"release" integer NOT NULL,
	"species" text NOT NULL,
	"group_number" integer NOT NULL,
	"of" text NOT NULL,
	"part" text NOT NULL,
	"place_kind" text NOT NULL,
	"place" text NOT NULL,
	"period_first" integer NOT NULL,
	"period_last" integer NOT NULL,
	"status" text NOT NULL,
	"tested" integer,
	"resistant" integer,
	"some_survivors" integer,
	CONSTRAINT "part_cell_pk" PRIMARY KEY("release","species","group_number","of","part","place_kind","place","period_first","period_last"),
	CONSTRAINT "part_cell_place" CHECK (("release"."part_cell"."of" = 'crop' and "release"."part_cell"."place_kind" = 'state' and "release"."part_cell"."period_first" = "release"."part_cell"."period_last") or ("release"."part_cell"."of" = 'active' and "release"."part_cell"."place_kind" = 'district' and "release"."part_cell"."period_first" <= "release"."part_cell"."period_last")),
	CONSTRAINT "part_cell_counts" CHECK (case "release"."part_cell"."status" when 'withheld' then num_nonnulls("release"."part_cell"."tested", "release"."part_cell"."resistant", "release"."part_cell"."some_survivors") = 0 when 'published' then num_nulls("release"."part_cell"."tested", "release"."part_cell"."resistant", "release"."part_cell"."some_survivors") = 0 and "release"."part_cell"."resistant" >= 0 and "release"."part_cell"."some_survivors" >= 0 and "release"."part_cell"."resistant" + "release"."part_cell"."some_survivors" <= "release"."part_cell"."tested" else false end)
);
--> statement-breakpoint
ALTER TABLE "surveillance"."released_fact" ADD COLUMN "crop" text;--> statement-breakpoint
ALTER TABLE "surveillance"."released_fact" ADD COLUMN "by_active" jsonb;--> statement-breakpoint
ALTER TABLE "release"."multiple_cell" ADD CONSTRAINT "multiple_cell_release_release_number_fk" FOREIGN KEY ("release") REFERENCES "release"."release"("number") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "release"."part_cell" ADD CONSTRAINT "part_cell_release_release_number_fk" FOREIGN KEY ("release") REFERENCES "release"."release"("number") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE TRIGGER refuse_change BEFORE UPDATE OR DELETE OR TRUNCATE ON release.part_cell FOR EACH STATEMENT EXECUTE FUNCTION release.refuse_change();
--> statement-breakpoint
CREATE TRIGGER refuse_change BEFORE UPDATE OR DELETE OR TRUNCATE ON release.multiple_cell FOR EACH STATEMENT EXECUTE FUNCTION release.refuse_change();
--> statement-breakpoint
CREATE TRIGGER refuse_late_rows AFTER INSERT ON release.part_cell REFERENCING NEW TABLE AS new_rows FOR EACH STATEMENT EXECUTE FUNCTION release.refuse_late_rows();
--> statement-breakpoint
CREATE TRIGGER refuse_late_rows AFTER INSERT ON release.multiple_cell REFERENCING NEW TABLE AS new_rows FOR EACH STATEMENT EXECUTE FUNCTION release.refuse_late_rows();
--> statement-breakpoint
-- Releases from before crops were kept: that of the population as it stands, so that it is no change.
UPDATE surveillance.released_fact f SET crop = p.crop FROM surveillance.population p WHERE p.key = f.population AND p.crop IS NOT NULL;
--> statement-breakpoint
-- What a release was made of stays for ever: a row is closed once, by the release without it, and nothing else changes.
CREATE FUNCTION surveillance.refuse_to_rewrite_ledger() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
	RAISE EXCEPTION 'What releases were made of is kept for ever: % on surveillance.% was refused.', lower(TG_OP), TG_TABLE_NAME
		USING ERRCODE = 'restrict_violation', HINT = 'Correct the records and make a new release.';
END $$;
--> statement-breakpoint
CREATE FUNCTION surveillance.allow_leaving_only() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
	IF OLD."left" IS NULL AND NEW."left" = (SELECT max(release) FROM surveillance.release_basis)
		AND to_jsonb(NEW) - 'left' = to_jsonb(OLD) - 'left'
	THEN
		RETURN NEW;
	END IF;
	RAISE EXCEPTION 'What releases were made of is kept for ever: a row can only be closed, once, by the release without it.'
		USING ERRCODE = 'restrict_violation', HINT = 'Correct the records and make a new release.';
END $$;
--> statement-breakpoint
CREATE FUNCTION surveillance.refuse_late_facts() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
	IF EXISTS (
		SELECT FROM release.release r
		WHERE r.number IN (SELECT DISTINCT n.entered FROM new_rows n) AND r.created_at <> transaction_timestamp()
	) THEN
		RAISE EXCEPTION 'What releases were made of is kept for ever: rows were added to surveillance.% after the release was made.', TG_TABLE_NAME
			USING ERRCODE = 'restrict_violation', HINT = 'Make a new release.';
	END IF;
	RETURN NULL;
END $$;
--> statement-breakpoint
CREATE TRIGGER allow_leaving_only BEFORE UPDATE ON surveillance.released_fact FOR EACH ROW EXECUTE FUNCTION surveillance.allow_leaving_only();
--> statement-breakpoint
CREATE TRIGGER refuse_to_rewrite BEFORE DELETE OR TRUNCATE ON surveillance.released_fact FOR EACH STATEMENT EXECUTE FUNCTION surveillance.refuse_to_rewrite_ledger();
--> statement-breakpoint
CREATE TRIGGER refuse_to_rewrite BEFORE UPDATE OR DELETE OR TRUNCATE ON surveillance.release_basis FOR EACH STATEMENT EXECUTE FUNCTION surveillance.refuse_to_rewrite_ledger();
--> statement-breakpoint
CREATE TRIGGER refuse_to_rewrite BEFORE UPDATE OR DELETE OR TRUNCATE ON surveillance.release_audit FOR EACH STATEMENT EXECUTE FUNCTION surveillance.refuse_to_rewrite_ledger();
--> statement-breakpoint
CREATE TRIGGER refuse_late_rows AFTER INSERT ON surveillance.released_fact REFERENCING NEW TABLE AS new_rows FOR EACH STATEMENT EXECUTE FUNCTION surveillance.refuse_late_facts();
