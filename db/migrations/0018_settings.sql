CREATE TABLE "surveillance"."district" (
	"county" text PRIMARY KEY NOT NULL,
	"code" text NOT NULL,
	"name" text NOT NULL,
	CONSTRAINT "district_county" CHECK ("surveillance"."district"."county" ~ '^[0-9]{5}$'),
	CONSTRAINT "district_code" CHECK ("surveillance"."district"."code" <> '' and "surveillance"."district"."name" <> '')
);
--> statement-breakpoint
CREATE TABLE "surveillance"."policy" (
	"id" integer PRIMARY KEY GENERATED ALWAYS AS IDENTITY (sequence name "surveillance"."policy_id_seq" INCREMENT BY 1 MINVALUE 1 MAXVALUE 2147483647 START WITH 1 CACHE 1),
	"policy" jsonb NOT NULL,
	"chosen_at" timestamp with time zone DEFAULT now() NOT NULL,
	"chosen_by" text NOT NULL,
	"why" text NOT NULL
);
--> statement-breakpoint
ALTER TABLE "surveillance"."programme" ADD COLUMN "contact" text DEFAULT '' NOT NULL;--> statement-breakpoint
ALTER TABLE "surveillance"."programme" ADD COLUMN "samples_to" text DEFAULT '' NOT NULL;--> statement-breakpoint
ALTER TABLE "surveillance"."programme" ADD COLUMN "regulated_notice" text DEFAULT '' NOT NULL;--> statement-breakpoint
ALTER TABLE "surveillance"."programme" ADD COLUMN "two_publishers" boolean DEFAULT false NOT NULL;