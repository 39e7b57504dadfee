CREATE TABLE "release"."erratum" (
	"release" integer NOT NULL,
	"number" integer NOT NULL,
	"date" date NOT NULL,
	"text" text NOT NULL,
	"file" text NOT NULL,
	"sha256" text NOT NULL,
	"bytes" "bytea" NOT NULL,
	CONSTRAINT "erratum_release_number_pk" PRIMARY KEY("release","number"),
	CONSTRAINT "erratum_number" CHECK ("release"."erratum"."number" > 0),
	CONSTRAINT "erratum_text" CHECK ("release"."erratum"."text" <> ''),
	CONSTRAINT "erratum_sha256" CHECK ("release"."erratum"."sha256" = encode(sha256("release"."erratum"."bytes"), 'hex'))
);
--> statement-breakpoint
ALTER TABLE "release"."erratum" ADD CONSTRAINT "erratum_release_release_number_fk" FOREIGN KEY ("release") REFERENCES "release"."release"("number") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE TRIGGER refuse_change BEFORE UPDATE OR DELETE OR TRUNCATE ON release.erratum FOR EACH STATEMENT EXECUTE FUNCTION release.refuse_change();
