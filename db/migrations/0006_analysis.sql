CREATE TABLE "surveillance"."analysis" (
	"id" integer PRIMARY KEY GENERATED ALWAYS AS IDENTITY (sequence name "surveillance"."analysis_id_seq" INCREMENT BY 1 MINVALUE 1 MAXVALUE 2147483647 START WITH 1 CACHE 1),
	"version" text NOT NULL,
	"seed" bigint NOT NULL,
	"digest" text NOT NULL,
	"maps" integer NOT NULL,
	"started_at" timestamp with time zone DEFAULT now() NOT NULL,
	"started_by" text NOT NULL,
	"finished_at" timestamp with time zone
);
--> statement-breakpoint
CREATE TABLE "surveillance"."map_analysis" (
	"analysis_id" integer NOT NULL,
	"species" text NOT NULL,
	"group_number" integer NOT NULL,
	"first_season" integer NOT NULL,
	"last_season" integer NOT NULL,
	"design" text NOT NULL,
	"digest" text NOT NULL,
	"verdict" text NOT NULL,
	"result" jsonb NOT NULL,
	CONSTRAINT "map_analysis_pk" PRIMARY KEY("analysis_id","species","group_number","first_season","last_season","design"),
	CONSTRAINT "map_analysis_verdict" CHECK ("surveillance"."map_analysis"."verdict" in ('lie together', 'no sign', 'too little tested'))
);
--> statement-breakpoint
ALTER TABLE "surveillance"."map_analysis" ADD CONSTRAINT "map_analysis_analysis_id_analysis_id_fk" FOREIGN KEY ("analysis_id") REFERENCES "surveillance"."analysis"("id") ON DELETE cascade ON UPDATE no action;