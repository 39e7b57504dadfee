ALTER TABLE "release"."file" ALTER COLUMN "brotli" DROP NOT NULL;--> statement-breakpoint
ALTER TABLE "release"."file" ADD COLUMN "gzip" "bytea";