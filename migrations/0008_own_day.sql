CREATE TABLE "bringings" (
	"id" serial PRIMARY KEY NOT NULL,
	"bake_day_id" integer NOT NULL,
	"user_id" integer NOT NULL,
	"thing" text NOT NULL,
	"amount" text DEFAULT '' NOT NULL,
	"made_at" timestamp with time zone DEFAULT now() NOT NULL
);
--> statement-breakpoint
CREATE TABLE "calendar_feeds" (
	"id" serial PRIMARY KEY NOT NULL,
	"user_id" integer NOT NULL,
	"token" text NOT NULL,
	"made_at" timestamp with time zone DEFAULT now() NOT NULL,
	"revoked_at" timestamp with time zone,
	CONSTRAINT "calendar_feeds_token_unique" UNIQUE("token")
);
--> statement-breakpoint
CREATE TABLE "kitchens" (
	"user_id" integer PRIMARY KEY NOT NULL,
	"content" jsonb NOT NULL,
	"changed_at" timestamp with time zone DEFAULT now() NOT NULL
);
--> statement-breakpoint
ALTER TABLE "classes" ADD COLUMN "allergen_list" text DEFAULT 'both' NOT NULL;--> statement-breakpoint
ALTER TABLE "memberships" ADD COLUMN "allergies" jsonb DEFAULT '{"keys":[],"words":""}'::jsonb NOT NULL;--> statement-breakpoint
ALTER TABLE "plans" ADD COLUMN "wishes" jsonb DEFAULT '{}'::jsonb NOT NULL;--> statement-breakpoint
ALTER TABLE "plans" ADD COLUMN "sequence" integer DEFAULT 0 NOT NULL;--> statement-breakpoint
ALTER TABLE "plans" ADD COLUMN "digest" text DEFAULT '' NOT NULL;--> statement-breakpoint
ALTER TABLE "plans" ADD COLUMN "moved_at" timestamp with time zone DEFAULT now() NOT NULL;--> statement-breakpoint
ALTER TABLE "users" ADD COLUMN "clock" text DEFAULT '24' NOT NULL;--> statement-breakpoint
ALTER TABLE "bringings" ADD CONSTRAINT "bringings_bake_day_id_bake_days_id_fk" FOREIGN KEY ("bake_day_id") REFERENCES "public"."bake_days"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "bringings" ADD CONSTRAINT "bringings_user_id_users_id_fk" FOREIGN KEY ("user_id") REFERENCES "public"."users"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "calendar_feeds" ADD CONSTRAINT "calendar_feeds_user_id_users_id_fk" FOREIGN KEY ("user_id") REFERENCES "public"."users"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "kitchens" ADD CONSTRAINT "kitchens_user_id_users_id_fk" FOREIGN KEY ("user_id") REFERENCES "public"."users"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
CREATE UNIQUE INDEX "bringings_thing" ON "bringings" USING btree ("bake_day_id","thing","user_id");--> statement-breakpoint
CREATE INDEX "calendar_feeds_user" ON "calendar_feeds" USING btree ("user_id");