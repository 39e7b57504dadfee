ALTER TABLE "surveillance"."test" DROP CONSTRAINT "test_key_once";--> statement-breakpoint
ALTER TABLE "surveillance"."population" DROP CONSTRAINT "population_season_season_year_fk";
--> statement-breakpoint
DROP INDEX "intake"."record_of_population";--> statement-breakpoint
ALTER TABLE "surveillance"."test" DROP COLUMN "id";--> statement-breakpoint
ALTER TABLE "surveillance"."test" ADD PRIMARY KEY ("key");--> statement-breakpoint
CREATE INDEX "record_of_population" ON "intake"."record" USING hash ("population_key") WHERE "intake"."record"."standing" and "intake"."record"."kind" is not null;
--> statement-breakpoint
-- As in `lighter_rows`: once for each statement what a foreign key would ask for each row.

CREATE FUNCTION surveillance.refuse_populations_without_season() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
	IF EXISTS (SELECT FROM new_rows n WHERE NOT EXISTS (SELECT FROM surveillance.season s WHERE s.year = n.season)) THEN
		RAISE EXCEPTION 'A population belongs to a season that is there: % on surveillance.population was refused.', lower(TG_OP)
			USING ERRCODE = 'foreign_key_violation';
	END IF;
	RETURN NULL;
END $$;
--> statement-breakpoint
CREATE FUNCTION surveillance.refuse_to_orphan_populations() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
	IF EXISTS (SELECT FROM surveillance.population p WHERE NOT EXISTS (SELECT FROM surveillance.season s WHERE s.year = p.season)) THEN
		RAISE EXCEPTION 'A season stays while it has populations: % on surveillance.season was refused.', lower(TG_OP)
			USING ERRCODE = 'foreign_key_violation';
	END IF;
	RETURN NULL;
END $$;
--> statement-breakpoint
CREATE TRIGGER inserted_with_season AFTER INSERT ON surveillance.population REFERENCING NEW TABLE AS new_rows FOR EACH STATEMENT EXECUTE FUNCTION surveillance.refuse_populations_without_season();
--> statement-breakpoint
CREATE TRIGGER updated_with_season AFTER UPDATE ON surveillance.population REFERENCING NEW TABLE AS new_rows FOR EACH STATEMENT EXECUTE FUNCTION surveillance.refuse_populations_without_season();
--> statement-breakpoint
CREATE TRIGGER deleted_without_populations AFTER DELETE ON surveillance.season FOR EACH STATEMENT EXECUTE FUNCTION surveillance.refuse_to_orphan_populations();
