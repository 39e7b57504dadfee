CREATE TABLE "access"."factor_duty" (
	"role" text PRIMARY KEY NOT NULL,
	CONSTRAINT "factor_duty_role" CHECK ("access"."factor_duty"."role" in ('educator', 'analyst', 'publisher', 'administrator'))
);
