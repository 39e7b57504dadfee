CREATE TABLE "surveillance"."crop_area" (
	"crop" text NOT NULL,
	"year" integer NOT NULL,
	"county" text NOT NULL,
	"hectares" double precision NOT NULL,
	"source" text NOT NULL,
	"loaded_at" timestamp with time zone DEFAULT now() NOT NULL,
	"loaded_by" text NOT NULL,
	CONSTRAINT "crop_area_crop_year_county_pk" PRIMARY KEY("crop","year","county"),
	CONSTRAINT "crop_area_crop" CHECK ("surveillance"."crop_area"."crop" <> ''),
	CONSTRAINT "crop_area_county" CHECK ("surveillance"."crop_area"."county" ~ '^[0-9]{5}$'),
	CONSTRAINT "crop_area_hectares" CHECK ("surveillance"."crop_area"."hectares" >= 0 and "surveillance"."crop_area"."hectares" < 1e9)
);
