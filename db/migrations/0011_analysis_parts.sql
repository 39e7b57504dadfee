-- What an analysis found is derived: `npm run analyse` makes it anew, by the methods of today.
DELETE FROM "surveillance"."analysis";--> statement-breakpoint
CREATE TABLE "surveillance"."analysis_part" (
	"analysis_id" integer NOT NULL,
	"kind" text NOT NULL,
	"key" text NOT NULL,
	"species" text NOT NULL,
	"group_number" integer,
	"digest" text NOT NULL,
	"result" jsonb NOT NULL,
	CONSTRAINT "analysis_part_pk" PRIMARY KEY("analysis_id","kind","key"),
	CONSTRAINT "analysis_part_kind" CHECK ("surveillance"."analysis_part"."kind" in ('map', 'spread', 'multiple'))
);
--> statement-breakpoint
DROP TABLE "surveillance"."map_analysis" CASCADE;--> statement-breakpoint
ALTER TABLE "surveillance"."analysis" ADD COLUMN "parts" integer NOT NULL;--> statement-breakpoint
ALTER TABLE "surveillance"."analysis_part" ADD CONSTRAINT "analysis_part_analysis_id_analysis_id_fk" FOREIGN KEY ("analysis_id") REFERENCES "surveillance"."analysis"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "surveillance"."analysis" DROP COLUMN "maps";