CREATE TABLE "surveillance"."job" (
	"id" uuid PRIMARY KEY NOT NULL,
	"kind" text NOT NULL,
	"request" jsonb NOT NULL,
	"state" text DEFAULT 'waiting' NOT NULL,
	"alone" boolean DEFAULT false NOT NULL,
	"requested_by" text NOT NULL,
	"person_id" text,
	"requested_at" timestamp with time zone DEFAULT now() NOT NULL,
	"started_at" timestamp with time zone,
	"finished_at" timestamp with time zone,
	"attempts" integer DEFAULT 0 NOT NULL,
	"stage" text DEFAULT '' NOT NULL,
	"done" integer,
	"whole" integer,
	"cancelled_by" text,
	"outcome" jsonb,
	"message" text DEFAULT '' NOT NULL,
	CONSTRAINT "job_state" CHECK ("surveillance"."job"."state" in ('waiting', 'running', 'done', 'failed', 'cancelled')),
	CONSTRAINT "job_finished" CHECK (("surveillance"."job"."finished_at" is not null) = ("surveillance"."job"."state" in ('done', 'failed', 'cancelled')))
);
--> statement-breakpoint
CREATE UNIQUE INDEX "job_alone" ON "surveillance"."job" USING btree ("kind") WHERE "surveillance"."job"."alone" and "surveillance"."job"."finished_at" is null;--> statement-breakpoint
CREATE INDEX "job_requested" ON "surveillance"."job" USING btree ("requested_at");