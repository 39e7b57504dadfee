CREATE TABLE "intake"."upload" (
	"id" uuid PRIMARY KEY NOT NULL,
	"file_name" text NOT NULL,
	"bytes" bigint NOT NULL,
	"sha256" text NOT NULL,
	"laboratory" text NOT NULL,
	"mapping" jsonb DEFAULT '{"headings":{},"lacking":{}}'::jsonb NOT NULL,
	"handed_in_at" timestamp with time zone DEFAULT now() NOT NULL,
	"handed_in_by" text NOT NULL,
	"trial_job" uuid,
	"import_job" uuid,
	"sheet_id" integer,
	"put_away_at" timestamp with time zone
);
--> statement-breakpoint
CREATE TABLE "access"."saved_view" (
	"id" integer PRIMARY KEY GENERATED ALWAYS AS IDENTITY (sequence name "access"."saved_view_id_seq" INCREMENT BY 1 MINVALUE 1 MAXVALUE 2147483647 START WITH 1 CACHE 1),
	"person_id" text NOT NULL,
	"name" text NOT NULL,
	"query" text NOT NULL,
	"saved_at" timestamp with time zone DEFAULT now() NOT NULL,
	CONSTRAINT "saved_view_once" UNIQUE("person_id","name"),
	CONSTRAINT "saved_view_name" CHECK ("access"."saved_view"."name" <> '')
);
--> statement-breakpoint
DROP INDEX "surveillance"."population_of_season";--> statement-breakpoint
DROP INDEX "surveillance"."test_of_population";--> statement-breakpoint
ALTER TABLE "intake"."upload" ADD CONSTRAINT "upload_sheet_id_sheet_id_fk" FOREIGN KEY ("sheet_id") REFERENCES "intake"."sheet"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "access"."saved_view" ADD CONSTRAINT "saved_view_person_id_person_id_fk" FOREIGN KEY ("person_id") REFERENCES "access"."person"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "population_of_county" ON "surveillance"."population" USING btree ("county","id");--> statement-breakpoint
CREATE INDEX "population_of_sample" ON "surveillance"."population" USING btree ((upper("sample") collate "C"),"id");--> statement-breakpoint
CREATE INDEX "population_of_season" ON "surveillance"."population" USING btree ("season","id");--> statement-breakpoint
CREATE INDEX "test_of_population" ON "surveillance"."test" USING btree ("population_id","group_number");