CREATE SCHEMA "access";
--> statement-breakpoint
CREATE TABLE "access"."activity" (
	"id" bigint PRIMARY KEY GENERATED ALWAYS AS IDENTITY (sequence name "access"."activity_id_seq" INCREMENT BY 1 MINVALUE 1 MAXVALUE 9223372036854775807 START WITH 1 CACHE 1),
	"at" timestamp with time zone DEFAULT now() NOT NULL,
	"person_id" text,
	"done_by" text NOT NULL,
	"what" text NOT NULL,
	"about" text DEFAULT '' NOT NULL,
	"details" jsonb DEFAULT '{}'::jsonb NOT NULL
);
--> statement-breakpoint
CREATE TABLE "access"."credential" (
	"id" text PRIMARY KEY NOT NULL,
	"account_id" text NOT NULL,
	"provider_id" text NOT NULL,
	"person_id" text NOT NULL,
	"password" text,
	"access_token" text,
	"refresh_token" text,
	"id_token" text,
	"access_token_expires_at" timestamp with time zone,
	"refresh_token_expires_at" timestamp with time zone,
	"scope" text,
	"created_at" timestamp with time zone DEFAULT now() NOT NULL,
	"updated_at" timestamp with time zone DEFAULT now() NOT NULL
);
--> statement-breakpoint
CREATE TABLE "access"."person" (
	"id" text PRIMARY KEY NOT NULL,
	"name" text NOT NULL,
	"email" text NOT NULL,
	"email_verified" boolean DEFAULT false NOT NULL,
	"image" text,
	"two_factor_enabled" boolean DEFAULT false NOT NULL,
	"closed_at" timestamp with time zone,
	"created_at" timestamp with time zone DEFAULT now() NOT NULL,
	"updated_at" timestamp with time zone DEFAULT now() NOT NULL,
	CONSTRAINT "person_email_unique" UNIQUE("email")
);
--> statement-breakpoint
CREATE TABLE "access"."person_county" (
	"person_id" text NOT NULL,
	"county" text NOT NULL,
	CONSTRAINT "person_county_person_id_county_pk" PRIMARY KEY("person_id","county"),
	CONSTRAINT "person_county_fips" CHECK ("access"."person_county"."county" ~ '^[0-9]{5}$')
);
--> statement-breakpoint
CREATE TABLE "access"."person_role" (
	"person_id" text NOT NULL,
	"role" text NOT NULL,
	CONSTRAINT "person_role_person_id_role_pk" PRIMARY KEY("person_id","role"),
	CONSTRAINT "person_role_known" CHECK ("access"."person_role"."role" in ('educator', 'analyst', 'publisher', 'administrator'))
);
--> statement-breakpoint
CREATE TABLE "access"."second_factor" (
	"id" text PRIMARY KEY NOT NULL,
	"secret" text NOT NULL,
	"backup_codes" text NOT NULL,
	"person_id" text NOT NULL,
	"verified" boolean DEFAULT true,
	"failed_verification_count" integer DEFAULT 0,
	"locked_until" timestamp with time zone
);
--> statement-breakpoint
CREATE TABLE "access"."session" (
	"id" text PRIMARY KEY NOT NULL,
	"token" text NOT NULL,
	"person_id" text NOT NULL,
	"expires_at" timestamp with time zone NOT NULL,
	"ip_address" text,
	"user_agent" text,
	"created_at" timestamp with time zone DEFAULT now() NOT NULL,
	"updated_at" timestamp with time zone DEFAULT now() NOT NULL,
	CONSTRAINT "session_token_unique" UNIQUE("token")
);
--> statement-breakpoint
CREATE TABLE "access"."throttle" (
	"id" text PRIMARY KEY NOT NULL,
	"key" text NOT NULL,
	"count" integer NOT NULL,
	"last_request" bigint NOT NULL,
	CONSTRAINT "throttle_key_unique" UNIQUE("key")
);
--> statement-breakpoint
CREATE TABLE "access"."verification" (
	"id" text PRIMARY KEY NOT NULL,
	"identifier" text NOT NULL,
	"value" text NOT NULL,
	"expires_at" timestamp with time zone NOT NULL,
	"created_at" timestamp with time zone DEFAULT now() NOT NULL,
	"updated_at" timestamp with time zone DEFAULT now() NOT NULL
);
--> statement-breakpoint
ALTER TABLE "access"."credential" ADD CONSTRAINT "credential_person_id_person_id_fk" FOREIGN KEY ("person_id") REFERENCES "access"."person"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "access"."person_county" ADD CONSTRAINT "person_county_person_id_person_id_fk" FOREIGN KEY ("person_id") REFERENCES "access"."person"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "access"."person_role" ADD CONSTRAINT "person_role_person_id_person_id_fk" FOREIGN KEY ("person_id") REFERENCES "access"."person"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "access"."second_factor" ADD CONSTRAINT "second_factor_person_id_person_id_fk" FOREIGN KEY ("person_id") REFERENCES "access"."person"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "access"."session" ADD CONSTRAINT "session_person_id_person_id_fk" FOREIGN KEY ("person_id") REFERENCES "access"."person"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "activity_when" ON "access"."activity" USING btree ("at");--> statement-breakpoint
CREATE INDEX "activity_of_person" ON "access"."activity" USING btree ("person_id","id");--> statement-breakpoint
CREATE INDEX "credential_of_person" ON "access"."credential" USING btree ("person_id");--> statement-breakpoint
CREATE INDEX "second_factor_of_person" ON "access"."second_factor" USING btree ("person_id");--> statement-breakpoint
CREATE INDEX "session_of_person" ON "access"."session" USING btree ("person_id");--> statement-breakpoint
CREATE INDEX "verification_identifier" ON "access"."verification" USING btree ("identifier");--> statement-breakpoint
REVOKE ALL ON SCHEMA access FROM PUBLIC;
--> statement-breakpoint
GRANT USAGE ON SCHEMA access TO fencerow_staff;
--> statement-breakpoint
GRANT SELECT, INSERT, UPDATE, DELETE ON ALL TABLES IN SCHEMA access TO fencerow_staff;
--> statement-breakpoint
ALTER DEFAULT PRIVILEGES IN SCHEMA access GRANT SELECT, INSERT, UPDATE, DELETE ON TABLES TO fencerow_staff;
--> statement-breakpoint
REVOKE UPDATE, DELETE ON access.activity FROM fencerow_staff;
--> statement-breakpoint
CREATE FUNCTION access.refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
	RAISE EXCEPTION 'What was done stays written down: % on access.activity was refused.', lower(TG_OP)
		USING ERRCODE = 'restrict_violation';
END $$;
--> statement-breakpoint
CREATE TRIGGER refuse_change BEFORE UPDATE OR DELETE OR TRUNCATE ON access.activity FOR EACH STATEMENT EXECUTE FUNCTION access.refuse_change();
