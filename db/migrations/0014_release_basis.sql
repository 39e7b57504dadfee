CREATE TABLE "surveillance"."release_basis" (
	"release" integer PRIMARY KEY NOT NULL,
	"places" jsonb NOT NULL,
	"waiting" jsonb NOT NULL
);
--> statement-breakpoint
CREATE TABLE "surveillance"."released_fact" (
	"population" uuid NOT NULL,
	"group_number" integer NOT NULL,
	"assay" text NOT NULL,
	"entered" integer NOT NULL,
	"left" integer,
	"county" text NOT NULL,
	"season" integer NOT NULL,
	"species" text NOT NULL,
	"design" text NOT NULL,
	"operation" text,
	"result" text NOT NULL,
	"actives" text[] NOT NULL,
	CONSTRAINT "released_fact_population_group_number_assay_entered_pk" PRIMARY KEY("population","group_number","assay","entered"),
	CONSTRAINT "released_fact_left" CHECK ("surveillance"."released_fact"."left" > "surveillance"."released_fact"."entered")
);
