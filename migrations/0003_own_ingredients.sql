CREATE TABLE "class_ingredients" (
	"id" serial PRIMARY KEY NOT NULL,
	"class_id" integer NOT NULL,
	"name" text NOT NULL,
	"kind" text NOT NULL,
	"per_100g" jsonb NOT NULL,
	"portions" jsonb NOT NULL,
	"us_allergens" text[] NOT NULL,
	"eu_allergens" text[] NOT NULL,
	"remark" text NOT NULL,
	"made_at" timestamp with time zone DEFAULT now() NOT NULL
);
--> statement-breakpoint
ALTER TABLE "class_ingredients" ADD CONSTRAINT "class_ingredients_class_id_classes_id_fk" FOREIGN KEY ("class_id") REFERENCES "public"."classes"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
CREATE UNIQUE INDEX "class_ingredients_name" ON "class_ingredients" USING btree ("class_id",lower("name"));