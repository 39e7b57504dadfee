ALTER TABLE "intake"."record" DROP CONSTRAINT "record_sheet_id_sheet_id_fk";
--> statement-breakpoint
ALTER TABLE "surveillance"."test" DROP CONSTRAINT "test_population_id_population_id_fk";
--> statement-breakpoint
DROP INDEX "intake"."record_of_test";--> statement-breakpoint
ALTER TABLE "intake"."sheet" ADD COLUMN "headings" text[] DEFAULT '{}' NOT NULL;
--> statement-breakpoint
-- A foreign key asks once for each row, which took a fourteenth of an import; these ask once for each statement.
-- They hold against mistakes, not against two transactions at once: all that writes here waits for one lock (db/repositories/lock.ts).

CREATE FUNCTION surveillance.refuse_tests_without_population() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
	IF EXISTS (SELECT FROM new_rows n WHERE NOT EXISTS (SELECT FROM surveillance.population p WHERE p.id = n.population_id)) THEN
		RAISE EXCEPTION 'A test belongs to a population that is there: % on surveillance.test was refused.', lower(TG_OP)
			USING ERRCODE = 'foreign_key_violation';
	END IF;
	RETURN NULL;
END $$;
--> statement-breakpoint
CREATE FUNCTION surveillance.refuse_to_orphan_tests() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
	IF EXISTS (SELECT FROM old_rows o JOIN surveillance.test t ON t.population_id = o.id
		WHERE NOT EXISTS (SELECT FROM surveillance.population p WHERE p.id = o.id)) THEN
		RAISE EXCEPTION 'A population stays while it has tests: % on surveillance.population was refused.', lower(TG_OP)
			USING ERRCODE = 'foreign_key_violation';
	END IF;
	RETURN NULL;
END $$;
--> statement-breakpoint
CREATE FUNCTION intake.refuse_to_orphan_records() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
	IF EXISTS (SELECT FROM old_rows o JOIN intake.record r ON r.sheet_id = o.id
		WHERE NOT EXISTS (SELECT FROM intake.sheet s WHERE s.id = o.id)) THEN
		RAISE EXCEPTION 'A sheet stays while it has rows: % on intake.sheet was refused.', lower(TG_OP)
			USING ERRCODE = 'foreign_key_violation';
	END IF;
	RETURN NULL;
END $$;
--> statement-breakpoint
CREATE TRIGGER inserted_with_population AFTER INSERT ON surveillance.test REFERENCING NEW TABLE AS new_rows FOR EACH STATEMENT EXECUTE FUNCTION surveillance.refuse_tests_without_population();
--> statement-breakpoint
CREATE TRIGGER updated_with_population AFTER UPDATE ON surveillance.test REFERENCING NEW TABLE AS new_rows FOR EACH STATEMENT EXECUTE FUNCTION surveillance.refuse_tests_without_population();
--> statement-breakpoint
CREATE TRIGGER deleted_without_tests AFTER DELETE ON surveillance.population REFERENCING OLD TABLE AS old_rows FOR EACH STATEMENT EXECUTE FUNCTION surveillance.refuse_to_orphan_tests();
--> statement-breakpoint
CREATE TRIGGER deleted_without_records AFTER DELETE ON intake.sheet REFERENCING OLD TABLE AS old_rows FOR EACH STATEMENT EXECUTE FUNCTION intake.refuse_to_orphan_records();
--> statement-breakpoint
DROP TABLE intake.incoming;
