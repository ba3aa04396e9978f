CREATE TABLE "changes" (
	"id" serial PRIMARY KEY NOT NULL,
	"bake_id" integer NOT NULL,
	"kind" text NOT NULL,
	"part_key" text DEFAULT '' NOT NULL,
	"ingredient" text DEFAULT '' NOT NULL,
	"instead" text DEFAULT '' NOT NULL,
	"quantity" text DEFAULT '' NOT NULL,
	"mass_g" double precision,
	"stage_key" text,
	"words" text DEFAULT '' NOT NULL,
	"made_at" timestamp with time zone DEFAULT now() NOT NULL,
	"removed_at" timestamp with time zone
);
--> statement-breakpoint
CREATE TABLE "comments" (
	"id" serial PRIMARY KEY NOT NULL,
	"bake_id" integer NOT NULL,
	"photo_id" uuid,
	"reading_id" integer,
	"stage_key" text,
	"user_id" integer NOT NULL,
	"words" text NOT NULL,
	"asks" boolean DEFAULT false NOT NULL,
	"made_at" timestamp with time zone DEFAULT now() NOT NULL,
	"removed_at" timestamp with time zone
);
--> statement-breakpoint
CREATE TABLE "corrections" (
	"id" serial PRIMARY KEY NOT NULL,
	"bake_id" integer NOT NULL,
	"user_id" integer NOT NULL,
	"reading_id" integer,
	"stage_key" text,
	"was" jsonb,
	"made_at" timestamp with time zone DEFAULT now() NOT NULL
);
--> statement-breakpoint
CREATE TABLE "entries" (
	"id" uuid PRIMARY KEY NOT NULL,
	"bake_id" integer NOT NULL,
	"user_id" integer NOT NULL,
	"digest" text NOT NULL,
	"kept_at" timestamp with time zone DEFAULT now() NOT NULL
);
--> statement-breakpoint
CREATE TABLE "photo_wishes" (
	"id" serial PRIMARY KEY NOT NULL,
	"photo_id" uuid NOT NULL,
	"formula_id" integer NOT NULL,
	"stage_key" text NOT NULL,
	"look" text NOT NULL,
	"asked_by" integer NOT NULL,
	"asked_at" timestamp with time zone DEFAULT now() NOT NULL,
	"answer" text,
	"answered_at" timestamp with time zone,
	CONSTRAINT "photo_wishes_once" UNIQUE("photo_id","formula_id","stage_key")
);
--> statement-breakpoint
ALTER TABLE "bakes" ADD COLUMN "version" integer DEFAULT 0 NOT NULL;--> statement-breakpoint
ALTER TABLE "marks" ADD COLUMN "pauses" jsonb DEFAULT '[]'::jsonb NOT NULL;--> statement-breakpoint
ALTER TABLE "marks" ADD COLUMN "started_typed" text DEFAULT '' NOT NULL;--> statement-breakpoint
ALTER TABLE "marks" ADD COLUMN "ended_typed" text DEFAULT '' NOT NULL;--> statement-breakpoint
ALTER TABLE "marks" ADD COLUMN "started_about_min" double precision;--> statement-breakpoint
ALTER TABLE "marks" ADD COLUMN "ended_about_min" double precision;--> statement-breakpoint
ALTER TABLE "photos" ADD COLUMN "look" text DEFAULT 'ready' NOT NULL;--> statement-breakpoint
ALTER TABLE "photos" ADD COLUMN "copied_from" uuid;--> statement-breakpoint
ALTER TABLE "photos" ADD COLUMN "taken_by" text DEFAULT 'sending' NOT NULL;--> statement-breakpoint
ALTER TABLE "readings" ADD COLUMN "taken_typed" text DEFAULT '' NOT NULL;--> statement-breakpoint
ALTER TABLE "readings" ADD COLUMN "taken_about_min" double precision;--> statement-breakpoint
ALTER TABLE "readings" ADD COLUMN "known" text DEFAULT 'measured' NOT NULL;--> statement-breakpoint
ALTER TABLE "readings" ADD COLUMN "of" text DEFAULT '' NOT NULL;--> statement-breakpoint
ALTER TABLE "readings" ADD COLUMN "removed_at" timestamp with time zone;--> statement-breakpoint
ALTER TABLE "changes" ADD CONSTRAINT "changes_bake_id_bakes_id_fk" FOREIGN KEY ("bake_id") REFERENCES "public"."bakes"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "comments" ADD CONSTRAINT "comments_bake_id_bakes_id_fk" FOREIGN KEY ("bake_id") REFERENCES "public"."bakes"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "comments" ADD CONSTRAINT "comments_photo_id_photos_id_fk" FOREIGN KEY ("photo_id") REFERENCES "public"."photos"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "comments" ADD CONSTRAINT "comments_reading_id_readings_id_fk" FOREIGN KEY ("reading_id") REFERENCES "public"."readings"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "comments" ADD CONSTRAINT "comments_user_id_users_id_fk" FOREIGN KEY ("user_id") REFERENCES "public"."users"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "corrections" ADD CONSTRAINT "corrections_bake_id_bakes_id_fk" FOREIGN KEY ("bake_id") REFERENCES "public"."bakes"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "corrections" ADD CONSTRAINT "corrections_user_id_users_id_fk" FOREIGN KEY ("user_id") REFERENCES "public"."users"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "corrections" ADD CONSTRAINT "corrections_reading_id_readings_id_fk" FOREIGN KEY ("reading_id") REFERENCES "public"."readings"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "entries" ADD CONSTRAINT "entries_bake_id_bakes_id_fk" FOREIGN KEY ("bake_id") REFERENCES "public"."bakes"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "entries" ADD CONSTRAINT "entries_user_id_users_id_fk" FOREIGN KEY ("user_id") REFERENCES "public"."users"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "photo_wishes" ADD CONSTRAINT "photo_wishes_photo_id_photos_id_fk" FOREIGN KEY ("photo_id") REFERENCES "public"."photos"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "photo_wishes" ADD CONSTRAINT "photo_wishes_formula_id_formulas_id_fk" FOREIGN KEY ("formula_id") REFERENCES "public"."formulas"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "photo_wishes" ADD CONSTRAINT "photo_wishes_asked_by_users_id_fk" FOREIGN KEY ("asked_by") REFERENCES "public"."users"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "changes_bake" ON "changes" USING btree ("bake_id");--> statement-breakpoint
CREATE INDEX "comments_bake" ON "comments" USING btree ("bake_id");--> statement-breakpoint
CREATE INDEX "corrections_bake" ON "corrections" USING btree ("bake_id");--> statement-breakpoint
CREATE INDEX "entries_bake" ON "entries" USING btree ("bake_id");--> statement-breakpoint
ALTER TABLE "photos" ADD CONSTRAINT "photos_copied_from_photos_id_fk" FOREIGN KEY ("copied_from") REFERENCES "public"."photos"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "photos_copied_from" ON "photos" USING btree ("copied_from");