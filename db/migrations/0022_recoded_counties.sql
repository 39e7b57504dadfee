CREATE TABLE "surveillance"."recoded_county" (
	"before" text PRIMARY KEY NOT NULL,
	"after" text NOT NULL,
	"why" text NOT NULL,
	"recorded_by" text NOT NULL,
	"recorded_at" timestamp with time zone DEFAULT now() NOT NULL,
	CONSTRAINT "recoded_county_after_unique" UNIQUE("after"),
	CONSTRAINT "recoded_county_codes" CHECK ("surveillance"."recoded_county"."before" <> "surveillance"."recoded_county"."after" and "surveillance"."recoded_county"."why" <> '')
);
--> statement-breakpoint
CREATE TRIGGER refuse_to_rewrite BEFORE UPDATE OR DELETE OR TRUNCATE ON surveillance.recoded_county FOR EACH STATEMENT EXECUTE FUNCTION surveillance.refuse_to_rewrite_ledger();
