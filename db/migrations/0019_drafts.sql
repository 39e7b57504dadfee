CREATE TABLE "surveillance"."release_draft" (
	"id" bigint PRIMARY KEY GENERATED ALWAYS AS IDENTITY (sequence name "surveillance"."release_draft_id_seq" INCREMENT BY 1 MINVALUE 1 MAXVALUE 9223372036854775807 START WITH 1 CACHE 1),
	"state" text DEFAULT 'open' NOT NULL,
	"number" integer NOT NULL,
	"date" date NOT NULL,
	"note" text NOT NULL,
	"made_of" text NOT NULL,
	"made_at" timestamp with time zone DEFAULT now() NOT NULL,
	"made_by" text NOT NULL,
	"person_id" text,
	"report" jsonb NOT NULL,
	"body" "bytea",
	"decided_at" timestamp with time zone,
	"decided_by" text,
	CONSTRAINT "release_draft_state" CHECK ("surveillance"."release_draft"."state" in ('open', 'published', 'dropped'))
);
--> statement-breakpoint
CREATE TABLE "surveillance"."release_draft_file" (
	"draft" bigint NOT NULL,
	"name" text NOT NULL,
	"media_type" text NOT NULL,
	"sha256" text NOT NULL,
	"bytes" "bytea" NOT NULL,
	"brotli" "bytea",
	"gzip" "bytea",
	CONSTRAINT "release_draft_file_draft_name_pk" PRIMARY KEY("draft","name")
);
--> statement-breakpoint
CREATE TABLE "surveillance"."release_practice" (
	"only" boolean PRIMARY KEY DEFAULT true NOT NULL,
	"two_persons" boolean DEFAULT false NOT NULL,
	CONSTRAINT "release_practice_is_one" CHECK ("surveillance"."release_practice"."only")
);
--> statement-breakpoint
ALTER TABLE "surveillance"."release_draft_file" ADD CONSTRAINT "release_draft_file_draft_release_draft_id_fk" FOREIGN KEY ("draft") REFERENCES "surveillance"."release_draft"("id") ON DELETE no action ON UPDATE no action;