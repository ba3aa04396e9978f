CREATE TABLE "bake_days" (
	"id" serial PRIMARY KEY NOT NULL,
	"class_id" integer NOT NULL,
	"revision_id" integer NOT NULL,
	"title" text NOT NULL,
	"opens_on" date NOT NULL,
	"closes_on" date NOT NULL,
	"on_table_time" text NOT NULL,
	"look_for" text NOT NULL,
	"target_dough_c" double precision,
	"target_rise" double precision,
	"made_at" timestamp with time zone DEFAULT now() NOT NULL,
	CONSTRAINT "bake_days_window" CHECK ("bake_days"."opens_on" <= "bake_days"."closes_on")
);
--> statement-breakpoint
CREATE TABLE "bakes" (
	"id" serial PRIMARY KEY NOT NULL,
	"bake_day_id" integer NOT NULL,
	"revision_id" integer NOT NULL,
	"user_id" integer NOT NULL,
	"on_table_at" timestamp with time zone NOT NULL,
	"kitchen" text DEFAULT '' NOT NULL,
	"shared" boolean DEFAULT true NOT NULL,
	"inside_c" double precision,
	"dough_mass_g" double precision,
	"baked_mass_g" double precision,
	"height_mm" double precision,
	"own_words" text DEFAULT '' NOT NULL,
	"made_at" timestamp with time zone DEFAULT now() NOT NULL,
	"finished_at" timestamp with time zone,
	"abandoned_at" timestamp with time zone
);
--> statement-breakpoint
CREATE TABLE "classes" (
	"id" serial PRIMARY KEY NOT NULL,
	"name" text NOT NULL,
	"place" text NOT NULL,
	"zone" text NOT NULL,
	"made_at" timestamp with time zone DEFAULT now() NOT NULL
);
--> statement-breakpoint
CREATE TABLE "formulas" (
	"id" serial PRIMARY KEY NOT NULL,
	"owner_id" integer NOT NULL,
	"title" text NOT NULL,
	"draft" jsonb NOT NULL,
	"public_token" text,
	"made_at" timestamp with time zone DEFAULT now() NOT NULL,
	"changed_at" timestamp with time zone DEFAULT now() NOT NULL,
	CONSTRAINT "formulas_public_token_unique" UNIQUE("public_token")
);
--> statement-breakpoint
CREATE TABLE "invitations" (
	"id" serial PRIMARY KEY NOT NULL,
	"class_id" integer NOT NULL,
	"role" text NOT NULL,
	"token" text NOT NULL,
	"made_at" timestamp with time zone DEFAULT now() NOT NULL,
	"revoked_at" timestamp with time zone,
	CONSTRAINT "invitations_token_unique" UNIQUE("token")
);
--> statement-breakpoint
CREATE TABLE "marks" (
	"bake_id" integer NOT NULL,
	"stage_key" text NOT NULL,
	"started_at" timestamp with time zone NOT NULL,
	"ended_at" timestamp with time zone,
	CONSTRAINT "marks_bake_id_stage_key_pk" PRIMARY KEY("bake_id","stage_key"),
	CONSTRAINT "marks_order" CHECK ("marks"."ended_at" is null or "marks"."ended_at" >= "marks"."started_at")
);
--> statement-breakpoint
CREATE TABLE "memberships" (
	"class_id" integer NOT NULL,
	"user_id" integer NOT NULL,
	"role" text NOT NULL,
	"shown_name" text NOT NULL,
	"joined_at" timestamp with time zone DEFAULT now() NOT NULL,
	CONSTRAINT "memberships_class_id_user_id_pk" PRIMARY KEY("class_id","user_id")
);
--> statement-breakpoint
CREATE TABLE "one_time_links" (
	"token_hash" text PRIMARY KEY NOT NULL,
	"purpose" text NOT NULL,
	"user_id" integer,
	"expires_at" timestamp with time zone NOT NULL
);
--> statement-breakpoint
CREATE TABLE "photos" (
	"id" uuid PRIMARY KEY DEFAULT gen_random_uuid() NOT NULL,
	"user_id" integer NOT NULL,
	"bake_id" integer,
	"formula_id" integer,
	"subject" text NOT NULL,
	"stage_key" text,
	"taken_at" timestamp with time zone NOT NULL,
	"for_class" boolean NOT NULL,
	"width" integer NOT NULL,
	"height" integer NOT NULL,
	"made_at" timestamp with time zone DEFAULT now() NOT NULL,
	CONSTRAINT "photos_of_one_thing" CHECK (("photos"."bake_id" is null) <> ("photos"."formula_id" is null))
);
--> statement-breakpoint
CREATE TABLE "plans" (
	"bake_day_id" integer NOT NULL,
	"user_id" integer NOT NULL,
	"on_table_at" timestamp with time zone NOT NULL,
	CONSTRAINT "plans_bake_day_id_user_id_pk" PRIMARY KEY("bake_day_id","user_id")
);
--> statement-breakpoint
CREATE TABLE "readings" (
	"id" serial PRIMARY KEY NOT NULL,
	"bake_id" integer NOT NULL,
	"entry_id" uuid NOT NULL,
	"kind" text NOT NULL,
	"taken_at" timestamp with time zone NOT NULL,
	"stage_key" text,
	"value" double precision,
	"finger" text,
	"typed" text NOT NULL,
	"made_at" timestamp with time zone DEFAULT now() NOT NULL,
	CONSTRAINT "readings_entry_id_unique" UNIQUE("entry_id")
);
--> statement-breakpoint
CREATE TABLE "revisions" (
	"id" serial PRIMARY KEY NOT NULL,
	"formula_id" integer NOT NULL,
	"number" integer NOT NULL,
	"title" text NOT NULL,
	"content" jsonb NOT NULL,
	"what_changed" text NOT NULL,
	"published_at" timestamp with time zone DEFAULT now() NOT NULL,
	CONSTRAINT "revisions_number" UNIQUE("formula_id","number")
);
--> statement-breakpoint
CREATE TABLE "sessions" (
	"id" text PRIMARY KEY NOT NULL,
	"user_id" integer NOT NULL,
	"expires_at" timestamp with time zone NOT NULL
);
--> statement-breakpoint
CREATE TABLE "users" (
	"id" serial PRIMARY KEY NOT NULL,
	"sign_in_name" text NOT NULL,
	"password_hash" text NOT NULL,
	"is_owner" boolean DEFAULT false NOT NULL,
	"temperature_unit" text DEFAULT 'C' NOT NULL,
	"mass_unit" text DEFAULT 'g' NOT NULL,
	"zone" text NOT NULL,
	"made_at" timestamp with time zone DEFAULT now() NOT NULL
);
--> statement-breakpoint
ALTER TABLE "bake_days" ADD CONSTRAINT "bake_days_class_id_classes_id_fk" FOREIGN KEY ("class_id") REFERENCES "public"."classes"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "bake_days" ADD CONSTRAINT "bake_days_revision_id_revisions_id_fk" FOREIGN KEY ("revision_id") REFERENCES "public"."revisions"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "bakes" ADD CONSTRAINT "bakes_bake_day_id_bake_days_id_fk" FOREIGN KEY ("bake_day_id") REFERENCES "public"."bake_days"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "bakes" ADD CONSTRAINT "bakes_revision_id_revisions_id_fk" FOREIGN KEY ("revision_id") REFERENCES "public"."revisions"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "bakes" ADD CONSTRAINT "bakes_user_id_users_id_fk" FOREIGN KEY ("user_id") REFERENCES "public"."users"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "formulas" ADD CONSTRAINT "formulas_owner_id_users_id_fk" FOREIGN KEY ("owner_id") REFERENCES "public"."users"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "invitations" ADD CONSTRAINT "invitations_class_id_classes_id_fk" FOREIGN KEY ("class_id") REFERENCES "public"."classes"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "marks" ADD CONSTRAINT "marks_bake_id_bakes_id_fk" FOREIGN KEY ("bake_id") REFERENCES "public"."bakes"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "memberships" ADD CONSTRAINT "memberships_class_id_classes_id_fk" FOREIGN KEY ("class_id") REFERENCES "public"."classes"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "memberships" ADD CONSTRAINT "memberships_user_id_users_id_fk" FOREIGN KEY ("user_id") REFERENCES "public"."users"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "one_time_links" ADD CONSTRAINT "one_time_links_user_id_users_id_fk" FOREIGN KEY ("user_id") REFERENCES "public"."users"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "photos" ADD CONSTRAINT "photos_user_id_users_id_fk" FOREIGN KEY ("user_id") REFERENCES "public"."users"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "photos" ADD CONSTRAINT "photos_bake_id_bakes_id_fk" FOREIGN KEY ("bake_id") REFERENCES "public"."bakes"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "photos" ADD CONSTRAINT "photos_formula_id_formulas_id_fk" FOREIGN KEY ("formula_id") REFERENCES "public"."formulas"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "plans" ADD CONSTRAINT "plans_bake_day_id_bake_days_id_fk" FOREIGN KEY ("bake_day_id") REFERENCES "public"."bake_days"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "plans" ADD CONSTRAINT "plans_user_id_users_id_fk" FOREIGN KEY ("user_id") REFERENCES "public"."users"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "readings" ADD CONSTRAINT "readings_bake_id_bakes_id_fk" FOREIGN KEY ("bake_id") REFERENCES "public"."bakes"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "revisions" ADD CONSTRAINT "revisions_formula_id_formulas_id_fk" FOREIGN KEY ("formula_id") REFERENCES "public"."formulas"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "sessions" ADD CONSTRAINT "sessions_user_id_users_id_fk" FOREIGN KEY ("user_id") REFERENCES "public"."users"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "bake_days_class" ON "bake_days" USING btree ("class_id");--> statement-breakpoint
CREATE INDEX "bakes_bake_day" ON "bakes" USING btree ("bake_day_id");--> statement-breakpoint
CREATE INDEX "bakes_user" ON "bakes" USING btree ("user_id");--> statement-breakpoint
CREATE UNIQUE INDEX "memberships_shown_name" ON "memberships" USING btree ("class_id",lower("shown_name"));--> statement-breakpoint
CREATE INDEX "memberships_user" ON "memberships" USING btree ("user_id");--> statement-breakpoint
CREATE INDEX "photos_bake" ON "photos" USING btree ("bake_id");--> statement-breakpoint
CREATE INDEX "readings_bake" ON "readings" USING btree ("bake_id");--> statement-breakpoint
CREATE UNIQUE INDEX "users_sign_in_name" ON "users" USING btree (lower("sign_in_name"));