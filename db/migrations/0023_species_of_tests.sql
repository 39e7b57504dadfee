DROP INDEX "surveillance"."test_resistant";--> statement-breakpoint
ALTER TABLE "surveillance"."test" ADD COLUMN "species" text;
--> statement-breakpoint
UPDATE surveillance.test t SET species = p.species FROM surveillance.population p WHERE p.id = t.population_id;
--> statement-breakpoint
ALTER TABLE "surveillance"."test" ALTER COLUMN "species" SET NOT NULL;
--> statement-breakpoint
-- What it includes spares counting the populations of a pair a look at the table.
CREATE INDEX "test_of_pair" ON "surveillance"."test" USING btree ("species","group_number","population_id") INCLUDE ("assay","kind","result");
--> statement-breakpoint
CREATE INDEX "test_of_result" ON "surveillance"."test" USING btree ((coalesce("result", "kind")),"species","group_number","population_id") WHERE coalesce("result", "kind") <> 'susceptible';
--> statement-breakpoint
-- A weed is screened with few of the groups: how often each pair and result comes cannot be told from how often each part does.
CREATE STATISTICS surveillance.test_pairs (mcv) ON species, group_number, (coalesce(result, kind)) FROM surveillance.test;
--> statement-breakpoint
CREATE OR REPLACE FUNCTION surveillance.refuse_tests_without_population() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
	IF EXISTS (SELECT FROM new_rows n WHERE NOT EXISTS (
		SELECT FROM surveillance.population p WHERE p.id = n.population_id AND p.species = n.species)) THEN
		RAISE EXCEPTION 'A test belongs to a population of its species that is there: % on surveillance.test was refused.', lower(TG_OP)
			USING ERRCODE = 'foreign_key_violation';
	END IF;
	RETURN NULL;
END $$;
--> statement-breakpoint
CREATE FUNCTION surveillance.refuse_to_change_species() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
	RAISE EXCEPTION 'A population of another species is another population: update on surveillance.population was refused.'
		USING ERRCODE = 'foreign_key_violation';
END $$;
--> statement-breakpoint
CREATE TRIGGER species_stays BEFORE UPDATE OF species ON surveillance.population FOR EACH STATEMENT EXECUTE FUNCTION surveillance.refuse_to_change_species();
--> statement-breakpoint
-- The server renews what the planner knows of a table a minute or more after many rows came, and until then a question may
-- take minutes. Only the owner may say ANALYZE (before PostgreSQL 17 nobody else could be allowed to), so it lends it out.
CREATE FUNCTION intake.renew_statistics() RETURNS void LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, pg_temp AS $$
BEGIN
	ANALYZE intake.record, intake.question, surveillance.population, surveillance.test;
END $$;
--> statement-breakpoint
REVOKE ALL ON FUNCTION intake.renew_statistics() FROM PUBLIC;
--> statement-breakpoint
GRANT EXECUTE ON FUNCTION intake.renew_statistics() TO fencerow_staff;
