CREATE TABLE "intake"."amendment" (
	"id" bigint PRIMARY KEY GENERATED ALWAYS AS IDENTITY (sequence name "intake"."amendment_id_seq" INCREMENT BY 1 MINVALUE 1 MAXVALUE 9223372036854775807 START WITH 1 CACHE 1),
	"sheet_id" integer NOT NULL,
	"record" integer NOT NULL,
	"answer" jsonb NOT NULL
);
--> statement-breakpoint
CREATE TABLE "intake"."history" (
	"id" bigint PRIMARY KEY GENERATED ALWAYS AS IDENTITY (sequence name "intake"."history_id_seq" INCREMENT BY 1 MINVALUE 1 MAXVALUE 9223372036854775807 START WITH 1 CACHE 1),
	"at" timestamp with time zone DEFAULT now() NOT NULL,
	"done_by" text NOT NULL,
	"what" text NOT NULL,
	"sheet_id" integer,
	"record" integer,
	"why" text DEFAULT '' NOT NULL,
	"before" jsonb,
	"after" jsonb
);
--> statement-breakpoint
CREATE TABLE "intake"."laboratory" (
	"name" text PRIMARY KEY NOT NULL,
	"headings" jsonb DEFAULT '{}'::jsonb NOT NULL,
	"lacking" jsonb DEFAULT '{}'::jsonb NOT NULL
);
--> statement-breakpoint
CREATE TABLE "intake"."question" (
	"id" bigint PRIMARY KEY GENERATED ALWAYS AS IDENTITY (sequence name "intake"."question_id_seq" INCREMENT BY 1 MINVALUE 1 MAXVALUE 9223372036854775807 START WITH 1 CACHE 1),
	"sheet_id" integer NOT NULL,
	"record" integer NOT NULL,
	"reason" jsonb NOT NULL,
	"asked_at" timestamp with time zone DEFAULT now() NOT NULL,
	"closed_at" timestamp with time zone,
	"answered_by" text,
	"answer" jsonb
);
--> statement-breakpoint
CREATE TABLE "intake"."reading" (
	"laboratory" text NOT NULL,
	"column_name" text NOT NULL,
	"text" text NOT NULL,
	"read_as" text NOT NULL,
	CONSTRAINT "reading_laboratory_column_name_text_pk" PRIMARY KEY("laboratory","column_name","text")
);
--> statement-breakpoint
CREATE TABLE "surveillance"."case_definition" (
	"version" text PRIMARY KEY NOT NULL,
	"definition" jsonb NOT NULL
);
--> statement-breakpoint
CREATE TABLE "surveillance"."earlier_find" (
	"id" integer PRIMARY KEY GENERATED ALWAYS AS IDENTITY (sequence name "surveillance"."earlier_find_id_seq" INCREMENT BY 1 MINVALUE 1 MAXVALUE 2147483647 START WITH 1 CACHE 1),
	"species" text NOT NULL,
	"group_number" integer NOT NULL,
	"active" text DEFAULT '' NOT NULL,
	"season" integer NOT NULL,
	"county" text NOT NULL,
	"source" text NOT NULL,
	CONSTRAINT "earlier_find_once" UNIQUE("species","group_number","active","season","county"),
	CONSTRAINT "earlier_find_county" CHECK ("surveillance"."earlier_find"."county" ~ '^[0-9]{5}$'),
	CONSTRAINT "earlier_find_source" CHECK ("surveillance"."earlier_find"."source" <> '')
);
--> statement-breakpoint
CREATE TABLE "surveillance"."first_find" (
	"id" integer PRIMARY KEY GENERATED ALWAYS AS IDENTITY (sequence name "surveillance"."first_find_id_seq" INCREMENT BY 1 MINVALUE 1 MAXVALUE 2147483647 START WITH 1 CACHE 1),
	"state_fips" text NOT NULL,
	"species" text NOT NULL,
	"group_number" integer NOT NULL,
	"active" text NOT NULL,
	"test_key" uuid NOT NULL,
	"found_at" timestamp with time zone DEFAULT now() NOT NULL,
	"confirmed_at" timestamp with time zone,
	"confirmed_by" text,
	"note" text,
	CONSTRAINT "first_find_once" UNIQUE("state_fips","species","group_number","active"),
	CONSTRAINT "first_find_confirmed" CHECK (("surveillance"."first_find"."confirmed_at" is null) = ("surveillance"."first_find"."confirmed_by" is null))
);
--> statement-breakpoint
CREATE TABLE "surveillance"."release_sheet" (
	"release" integer NOT NULL,
	"sheet_id" integer NOT NULL,
	CONSTRAINT "release_sheet_release_sheet_id_pk" PRIMARY KEY("release","sheet_id")
);
--> statement-breakpoint
CREATE TABLE "surveillance"."run" (
	"laboratory" text NOT NULL,
	"name" text NOT NULL,
	"valid" boolean NOT NULL,
	"why" text NOT NULL,
	CONSTRAINT "run_laboratory_name_pk" PRIMARY KEY("laboratory","name")
);
--> statement-breakpoint
CREATE TABLE "surveillance"."vocabulary_addition" (
	"id" integer PRIMARY KEY GENERATED ALWAYS AS IDENTITY (sequence name "surveillance"."vocabulary_addition_id_seq" INCREMENT BY 1 MINVALUE 1 MAXVALUE 2147483647 START WITH 1 CACHE 1),
	"additions" jsonb NOT NULL
);
--> statement-breakpoint
ALTER TABLE "intake"."record" ALTER COLUMN "raw" SET DATA TYPE json;--> statement-breakpoint
ALTER TABLE "surveillance"."population" DROP CONSTRAINT "population_sheet_id_record_record_sheet_id_record_fk";--> statement-breakpoint
ALTER TABLE "surveillance"."test" DROP CONSTRAINT "test_sheet_id_record_record_sheet_id_record_fk";--> statement-breakpoint
ALTER TABLE "intake"."sheet" DROP CONSTRAINT "sheet_sha256_key";--> statement-breakpoint
ALTER TABLE "surveillance"."population" DROP CONSTRAINT "population_once";--> statement-breakpoint
ALTER TABLE "surveillance"."test" DROP CONSTRAINT "test_once";--> statement-breakpoint
ALTER TABLE "intake"."record" DROP CONSTRAINT "record_kind";--> statement-breakpoint
ALTER TABLE "intake"."record" DROP CONSTRAINT "record_accepted_is_complete";--> statement-breakpoint
ALTER TABLE "intake"."record" DROP CONSTRAINT "record_counted_is_placed";--> statement-breakpoint
DROP INDEX "intake"."record_accepted_once";--> statement-breakpoint
ALTER TABLE "intake"."record" ALTER COLUMN "content_hash" SET DATA TYPE uuid USING "content_hash"::uuid;--> statement-breakpoint
ALTER TABLE "intake"."record" ADD COLUMN "standing" boolean DEFAULT true NOT NULL;--> statement-breakpoint
ALTER TABLE "intake"."record" ADD COLUMN "certainty" text;--> statement-breakpoint
ALTER TABLE "intake"."record" ADD COLUMN "lat" double precision;--> statement-breakpoint
ALTER TABLE "intake"."record" ADD COLUMN "lon" double precision;--> statement-breakpoint
ALTER TABLE "intake"."record" ADD COLUMN "run" text;--> statement-breakpoint
ALTER TABLE "intake"."record" ADD COLUMN "replicate" text;--> statement-breakpoint
ALTER TABLE "intake"."record" ADD COLUMN "bag" text;--> statement-breakpoint
ALTER TABLE "intake"."record" ADD COLUMN "details" jsonb DEFAULT '{}'::jsonb NOT NULL;--> statement-breakpoint
ALTER TABLE "intake"."record" ADD COLUMN "population_key" uuid;--> statement-breakpoint
ALTER TABLE "intake"."record" ADD COLUMN "test_key" uuid;--> statement-breakpoint
ALTER TABLE "intake"."sheet" ADD COLUMN "imported_by" text DEFAULT '' NOT NULL;--> statement-breakpoint
ALTER TABLE "intake"."sheet" ADD COLUMN "columns" jsonb DEFAULT '{}'::jsonb NOT NULL;--> statement-breakpoint
ALTER TABLE "intake"."sheet" ADD COLUMN "lacking" jsonb DEFAULT '{}'::jsonb NOT NULL;--> statement-breakpoint
ALTER TABLE "intake"."sheet" ADD COLUMN "undone_at" timestamp with time zone;--> statement-breakpoint
ALTER TABLE "surveillance"."population" ADD COLUMN "key" uuid;--> statement-breakpoint
ALTER TABLE "surveillance"."population" ADD COLUMN "reported" date;--> statement-breakpoint
ALTER TABLE "surveillance"."programme" ADD COLUMN "case_definition" text;--> statement-breakpoint
ALTER TABLE "surveillance"."test" ADD COLUMN "key" uuid;--> statement-breakpoint
ALTER TABLE "surveillance"."test" ADD COLUMN "contradictory" boolean DEFAULT false NOT NULL;--> statement-breakpoint
-- The keys of db/repositories/keys.ts for what is stored already.
UPDATE surveillance.population SET key = md5(concat_ws(E'\x1f', laboratory, upper(sample), season, species))::uuid;
--> statement-breakpoint
DELETE FROM surveillance.test t USING surveillance.test o
WHERE o.population_id = t.population_id AND o.group_number = t.group_number AND o.assay = t.assay AND o.actives = t.actives
	AND o.rate_multiple IS NOT DISTINCT FROM t.rate_multiple
	AND (o.kind = 'tested' AND t.kind <> 'tested' OR o.kind = 'void run' AND t.kind = 'not testable');
--> statement-breakpoint
UPDATE surveillance.test t SET key = md5(concat_ws(E'\x1f', p.laboratory, upper(p.sample), p.season, p.species, t.group_number,
	array_to_string(t.actives, '+'), t.assay, coalesce(t.rate_multiple::text, '')))::uuid
FROM surveillance.population p WHERE p.id = t.population_id;
--> statement-breakpoint
UPDATE intake.record r SET population_key = md5(concat_ws(E'\x1f', s.laboratory, upper(r.sample), r.season, r.species))::uuid,
	test_key = CASE WHEN r.group_number IS NOT NULL THEN md5(concat_ws(E'\x1f', s.laboratory, upper(r.sample), r.season, r.species,
		r.group_number, array_to_string(r.actives, '+'), r.assay, coalesce(r.rate_multiple::text, '')))::uuid END
FROM intake.sheet s WHERE s.id = r.sheet_id AND r.kind IS NOT NULL;
--> statement-breakpoint
ALTER TABLE "surveillance"."population" ALTER COLUMN "key" SET NOT NULL;--> statement-breakpoint
ALTER TABLE "surveillance"."test" ALTER COLUMN "key" SET NOT NULL;--> statement-breakpoint
INSERT INTO intake.laboratory (name) SELECT DISTINCT laboratory FROM intake.sheet;
--> statement-breakpoint
INSERT INTO intake.question (sheet_id, record, reason)
SELECT r.sheet_id, r.record, e.value FROM intake.record r, jsonb_array_elements(r.reasons) e WHERE r.outcome = 'in question';
--> statement-breakpoint
INSERT INTO surveillance.release_sheet (release, sheet_id) SELECT r.number, s.id FROM release.release r, intake.sheet s;
--> statement-breakpoint
ALTER TABLE "intake"."amendment" ADD CONSTRAINT "amendment_sheet_id_record_record_sheet_id_record_fk" FOREIGN KEY ("sheet_id","record") REFERENCES "intake"."record"("sheet_id","record") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "intake"."history" ADD CONSTRAINT "history_sheet_id_sheet_id_fk" FOREIGN KEY ("sheet_id") REFERENCES "intake"."sheet"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "intake"."question" ADD CONSTRAINT "question_sheet_id_record_record_sheet_id_record_fk" FOREIGN KEY ("sheet_id","record") REFERENCES "intake"."record"("sheet_id","record") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "intake"."reading" ADD CONSTRAINT "reading_laboratory_laboratory_name_fk" FOREIGN KEY ("laboratory") REFERENCES "intake"."laboratory"("name") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "surveillance"."release_sheet" ADD CONSTRAINT "release_sheet_sheet_id_sheet_id_fk" FOREIGN KEY ("sheet_id") REFERENCES "intake"."sheet"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "amendment_of_record" ON "intake"."amendment" USING btree ("sheet_id","record");--> statement-breakpoint
CREATE INDEX "history_of_record" ON "intake"."history" USING btree ("sheet_id","record");--> statement-breakpoint
CREATE INDEX "question_of_record" ON "intake"."question" USING btree ("sheet_id","record");--> statement-breakpoint
CREATE INDEX "question_open" ON "intake"."question" USING btree ("id") WHERE "intake"."question"."closed_at" is null;--> statement-breakpoint
ALTER TABLE "intake"."sheet" ADD CONSTRAINT "sheet_laboratory_laboratory_name_fk" FOREIGN KEY ("laboratory") REFERENCES "intake"."laboratory"("name") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "record_of_test" ON "intake"."record" USING btree ("test_key") WHERE "intake"."record"."standing" and "intake"."record"."kind" is not null;--> statement-breakpoint
CREATE INDEX "record_of_population" ON "intake"."record" USING btree ("population_key") WHERE "intake"."record"."standing" and "intake"."record"."kind" is not null;--> statement-breakpoint
CREATE INDEX "record_near" ON "intake"."record" USING btree ("operation","season","sheet_id") WHERE "intake"."record"."standing" and "intake"."record"."kind" = 'tested' and "intake"."record"."lat" is not null;--> statement-breakpoint
CREATE INDEX "record_of_bag" ON "intake"."record" USING btree ("bag","season") WHERE "intake"."record"."standing" and "intake"."record"."kind" is not null and "intake"."record"."bag" is not null;--> statement-breakpoint
CREATE UNIQUE INDEX "sheet_stands_once" ON "intake"."sheet" USING btree ("sha256") WHERE "intake"."sheet"."undone_at" is null;--> statement-breakpoint
CREATE INDEX "population_of_season" ON "surveillance"."population" USING btree ("season") WHERE "surveillance"."population"."reported" is null;--> statement-breakpoint
CREATE INDEX "test_of_population" ON "surveillance"."test" USING btree ("population_id");--> statement-breakpoint
CREATE INDEX "test_resistant" ON "surveillance"."test" USING btree ("group_number") WHERE "surveillance"."test"."result" = 'resistant';--> statement-breakpoint
ALTER TABLE "intake"."record" DROP COLUMN "content_key";--> statement-breakpoint
ALTER TABLE "surveillance"."population" ADD CONSTRAINT "population_key_once" UNIQUE("key");--> statement-breakpoint
ALTER TABLE "surveillance"."test" ADD CONSTRAINT "test_key_once" UNIQUE("key");--> statement-breakpoint
ALTER TABLE "intake"."record" ADD CONSTRAINT "record_kind" CHECK ("intake"."record"."kind" in ('tested', 'not testable', 'void run', 'check'));--> statement-breakpoint
ALTER TABLE "intake"."record" ADD CONSTRAINT "record_accepted_is_complete" CHECK ("intake"."record"."outcome" <> 'accepted' or "intake"."record"."kind" is not distinct from 'check' or ("intake"."record"."kind" is not distinct from 'tested' and "intake"."record"."group_number" is not null and "intake"."record"."result" is not null and "intake"."record"."test_key" is not null and "intake"."record"."content_hash" is not null));--> statement-breakpoint
ALTER TABLE "intake"."record" ADD CONSTRAINT "record_counted_is_placed" CHECK ("intake"."record"."kind" is null or "intake"."record"."kind" = 'check' or ("intake"."record"."sample" is not null and "intake"."record"."season" is not null and "intake"."record"."species" is not null and "intake"."record"."county" is not null and "intake"."record"."design" is not null and "intake"."record"."assay" is not null and "intake"."record"."population_key" is not null));