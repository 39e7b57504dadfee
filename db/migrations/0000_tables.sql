CREATE SCHEMA "intake";
--> statement-breakpoint
CREATE SCHEMA "surveillance";
--> statement-breakpoint
CREATE SCHEMA "release";
--> statement-breakpoint
CREATE TABLE "intake"."record" (
	"sheet_id" integer NOT NULL,
	"record" integer NOT NULL,
	"line" integer NOT NULL,
	"raw" jsonb NOT NULL,
	"outcome" text NOT NULL,
	"reasons" jsonb NOT NULL,
	"flags" text[] NOT NULL,
	"kind" text,
	"sample" text,
	"season" integer,
	"species" text,
	"county" text,
	"located_by" text,
	"group_number" integer,
	"actives" text[] NOT NULL,
	"assay" text,
	"rate_multiple" double precision,
	"treated" integer,
	"alive" integer,
	"result" text,
	"design" text,
	"crop" text,
	"funder" text,
	"sender" text,
	"operation" text,
	"public_share" boolean NOT NULL,
	"collected" text,
	"date_precision" text,
	"received" text,
	"content_key" text,
	"content_hash" text,
	CONSTRAINT "record_sheet_id_record_pk" PRIMARY KEY("sheet_id","record"),
	CONSTRAINT "record_outcome" CHECK ("intake"."record"."outcome" in ('accepted', 'in question', 'refused')),
	CONSTRAINT "record_kind" CHECK ("intake"."record"."kind" in ('tested', 'not testable', 'void run')),
	CONSTRAINT "record_accepted_is_complete" CHECK ("intake"."record"."outcome" <> 'accepted' or ("intake"."record"."kind" is not distinct from 'tested' and "intake"."record"."group_number" is not null and "intake"."record"."result" is not null and "intake"."record"."content_key" is not null and "intake"."record"."content_hash" is not null)),
	CONSTRAINT "record_in_question_waits" CHECK ("intake"."record"."outcome" <> 'in question' or "intake"."record"."kind" is null),
	CONSTRAINT "record_counted_is_placed" CHECK ("intake"."record"."kind" is null or ("intake"."record"."sample" is not null and "intake"."record"."season" is not null and "intake"."record"."species" is not null and "intake"."record"."county" is not null and "intake"."record"."design" is not null and "intake"."record"."assay" is not null))
);
--> statement-breakpoint
CREATE TABLE "intake"."sheet" (
	"id" integer PRIMARY KEY GENERATED ALWAYS AS IDENTITY (sequence name "intake"."sheet_id_seq" INCREMENT BY 1 MINVALUE 1 MAXVALUE 2147483647 START WITH 1 CACHE 1),
	"file_name" text NOT NULL,
	"sha256" text NOT NULL,
	"laboratory" text NOT NULL,
	"imported_at" timestamp with time zone DEFAULT now() NOT NULL,
	"as_of" date NOT NULL,
	"case_definition" text NOT NULL,
	"accepted" integer DEFAULT 0 NOT NULL,
	"in_question" integer DEFAULT 0 NOT NULL,
	"refused" integer DEFAULT 0 NOT NULL,
	CONSTRAINT "sheet_sha256_key" UNIQUE("sha256"),
	CONSTRAINT "sheet_sha256" CHECK ("intake"."sheet"."sha256" ~ '^[0-9a-f]{64}$')
);
--> statement-breakpoint
CREATE TABLE "surveillance"."population" (
	"id" integer PRIMARY KEY GENERATED ALWAYS AS IDENTITY (sequence name "surveillance"."population_id_seq" INCREMENT BY 1 MINVALUE 1 MAXVALUE 2147483647 START WITH 1 CACHE 1),
	"laboratory" text NOT NULL,
	"sample" text NOT NULL,
	"season" integer NOT NULL,
	"species" text NOT NULL,
	"county" text NOT NULL,
	"located_by" text,
	"operation" text,
	"sender" text,
	"design" text NOT NULL,
	"crop" text,
	"funder" text,
	"collected" text,
	"date_precision" text,
	"received" text,
	"public_share" boolean NOT NULL,
	"sheet_id" integer NOT NULL,
	"record" integer NOT NULL,
	CONSTRAINT "population_once" UNIQUE("laboratory","sample","season","species"),
	CONSTRAINT "population_county" CHECK ("surveillance"."population"."county" ~ '^[0-9]{5}$'),
	CONSTRAINT "population_design" CHECK ("surveillance"."population"."design" in ('submitted', 'random', 'follow-up', 'roadside'))
);
--> statement-breakpoint
CREATE TABLE "surveillance"."programme" (
	"only" boolean PRIMARY KEY DEFAULT true NOT NULL,
	"name" text NOT NULL,
	"region_name" text NOT NULL,
	"states" text[] NOT NULL,
	"simulated" boolean NOT NULL,
	"laboratory" text NOT NULL,
	"created_at" timestamp with time zone DEFAULT now() NOT NULL,
	CONSTRAINT "programme_is_one" CHECK ("surveillance"."programme"."only")
);
--> statement-breakpoint
CREATE TABLE "surveillance"."release_audit" (
	"release" integer PRIMARY KEY NOT NULL,
	"report" jsonb NOT NULL
);
--> statement-breakpoint
CREATE TABLE "surveillance"."season" (
	"year" integer PRIMARY KEY NOT NULL,
	"closed_at" timestamp with time zone
);
--> statement-breakpoint
CREATE TABLE "surveillance"."test" (
	"id" integer PRIMARY KEY GENERATED ALWAYS AS IDENTITY (sequence name "surveillance"."test_id_seq" INCREMENT BY 1 MINVALUE 1 MAXVALUE 2147483647 START WITH 1 CACHE 1),
	"population_id" integer NOT NULL,
	"group_number" integer NOT NULL,
	"actives" text[] NOT NULL,
	"assay" text NOT NULL,
	"rate_multiple" double precision,
	"treated" integer,
	"alive" integer,
	"kind" text NOT NULL,
	"result" text,
	"case_definition" text NOT NULL,
	"sheet_id" integer NOT NULL,
	"record" integer NOT NULL,
	CONSTRAINT "test_once" UNIQUE NULLS NOT DISTINCT("population_id","group_number","assay","actives","rate_multiple","kind"),
	CONSTRAINT "test_assay" CHECK ("surveillance"."test"."assay" in ('whole plant', 'soil-applied', 'molecular')),
	CONSTRAINT "test_kind" CHECK ("surveillance"."test"."kind" in ('tested', 'not testable', 'void run')),
	CONSTRAINT "test_result" CHECK ("surveillance"."test"."result" in ('resistant', 'some survivors', 'susceptible', 'inconclusive')),
	CONSTRAINT "test_result_when_tested" CHECK (("surveillance"."test"."kind" = 'tested') = ("surveillance"."test"."result" is not null)),
	CONSTRAINT "test_counts" CHECK ("surveillance"."test"."alive" between 0 and "surveillance"."test"."treated")
);
--> statement-breakpoint
CREATE TABLE "release"."cell" (
	"release" integer NOT NULL,
	"species" text NOT NULL,
	"group_number" integer NOT NULL,
	"assay" text NOT NULL,
	"design" text,
	"place_kind" text NOT NULL,
	"place" text NOT NULL,
	"period_first" integer NOT NULL,
	"period_last" integer NOT NULL,
	"status" text NOT NULL,
	"tested" integer,
	"resistant" integer,
	"some_survivors" integer,
	"received" integer,
	"testable" integer,
	"inconclusive" integer,
	"actives" text[] NOT NULL,
	"unfinished" boolean NOT NULL,
	CONSTRAINT "cell_once" UNIQUE NULLS NOT DISTINCT("release","species","group_number","assay","place_kind","place","period_first","period_last","design"),
	CONSTRAINT "cell_place_kind" CHECK ("release"."cell"."place_kind" in ('region', 'state', 'district', 'county')),
	CONSTRAINT "cell_period" CHECK ("release"."cell"."period_first" <= "release"."cell"."period_last"),
	CONSTRAINT "cell_status" CHECK ("release"."cell"."status" in ('published', 'withheld')),
	CONSTRAINT "cell_withheld_shows_nothing" CHECK ("release"."cell"."status" <> 'withheld' or (num_nonnulls("release"."cell"."tested", "release"."cell"."resistant", "release"."cell"."some_survivors", "release"."cell"."received", "release"."cell"."testable", "release"."cell"."inconclusive") = 0 and cardinality("release"."cell"."actives") = 0)),
	CONSTRAINT "cell_published_counts" CHECK ("release"."cell"."status" <> 'published' or (num_nulls("release"."cell"."tested", "release"."cell"."resistant", "release"."cell"."some_survivors") = 0 and "release"."cell"."resistant" >= 0 and "release"."cell"."some_survivors" >= 0 and "release"."cell"."resistant" + "release"."cell"."some_survivors" <= "release"."cell"."tested")),
	CONSTRAINT "cell_receipt" CHECK (num_nonnulls("release"."cell"."received", "release"."cell"."testable", "release"."cell"."inconclusive") = 0 or (num_nulls("release"."cell"."received", "release"."cell"."testable", "release"."cell"."inconclusive") = 0 and "release"."cell"."place_kind" in ('region', 'state') and "release"."cell"."received" >= "release"."cell"."testable" and "release"."cell"."testable" >= "release"."cell"."tested" and "release"."cell"."inconclusive" >= 0))
);
--> statement-breakpoint
CREATE TABLE "release"."file" (
	"release" integer NOT NULL,
	"name" text NOT NULL,
	"media_type" text NOT NULL,
	"sha256" text NOT NULL,
	"bytes" "bytea" NOT NULL,
	"brotli" "bytea" NOT NULL,
	CONSTRAINT "file_release_name_pk" PRIMARY KEY("release","name"),
	CONSTRAINT "file_sha256" CHECK ("release"."file"."sha256" = encode(sha256("release"."file"."bytes"), 'hex'))
);
--> statement-breakpoint
CREATE TABLE "release"."finding" (
	"release" integer NOT NULL,
	"species" text NOT NULL,
	"group_number" integer NOT NULL,
	"position" integer NOT NULL,
	"kind" text NOT NULL,
	"body" jsonb NOT NULL,
	CONSTRAINT "finding_release_species_group_number_position_pk" PRIMARY KEY("release","species","group_number","position")
);
--> statement-breakpoint
CREATE TABLE "release"."release" (
	"number" integer PRIMARY KEY NOT NULL,
	"date" date NOT NULL,
	"head" jsonb NOT NULL,
	"created_at" timestamp with time zone DEFAULT now() NOT NULL,
	"withdrawn_at" timestamp with time zone,
	"withdrawal_note" text,
	CONSTRAINT "release_number" CHECK ("release"."release"."number" > 0),
	CONSTRAINT "release_withdrawal" CHECK (("release"."release"."withdrawn_at" is null) = ("release"."release"."withdrawal_note" is null))
);
--> statement-breakpoint
CREATE TABLE "release"."status" (
	"release" integer NOT NULL,
	"species" text NOT NULL,
	"group_number" integer NOT NULL,
	"place_kind" text NOT NULL,
	"place" text NOT NULL,
	"status" text NOT NULL,
	CONSTRAINT "status_release_species_group_number_place_kind_place_pk" PRIMARY KEY("release","species","group_number","place_kind","place"),
	CONSTRAINT "status_look" CHECK ("release"."status"."status" in ('confirmed', 'none confirmed', 'no public information', 'not screened'))
);
--> statement-breakpoint
ALTER TABLE "intake"."record" ADD CONSTRAINT "record_sheet_id_sheet_id_fk" FOREIGN KEY ("sheet_id") REFERENCES "intake"."sheet"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "surveillance"."population" ADD CONSTRAINT "population_season_season_year_fk" FOREIGN KEY ("season") REFERENCES "surveillance"."season"("year") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "surveillance"."population" ADD CONSTRAINT "population_sheet_id_record_record_sheet_id_record_fk" FOREIGN KEY ("sheet_id","record") REFERENCES "intake"."record"("sheet_id","record") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "surveillance"."test" ADD CONSTRAINT "test_population_id_population_id_fk" FOREIGN KEY ("population_id") REFERENCES "surveillance"."population"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "surveillance"."test" ADD CONSTRAINT "test_sheet_id_record_record_sheet_id_record_fk" FOREIGN KEY ("sheet_id","record") REFERENCES "intake"."record"("sheet_id","record") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "release"."cell" ADD CONSTRAINT "cell_release_release_number_fk" FOREIGN KEY ("release") REFERENCES "release"."release"("number") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "release"."file" ADD CONSTRAINT "file_release_release_number_fk" FOREIGN KEY ("release") REFERENCES "release"."release"("number") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "release"."finding" ADD CONSTRAINT "finding_release_release_number_fk" FOREIGN KEY ("release") REFERENCES "release"."release"("number") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "release"."status" ADD CONSTRAINT "status_release_release_number_fk" FOREIGN KEY ("release") REFERENCES "release"."release"("number") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE UNIQUE INDEX "record_accepted_once" ON "intake"."record" USING btree ("content_key") WHERE "intake"."record"."outcome" = 'accepted';