CREATE TABLE "editions" (
	"id" serial PRIMARY KEY NOT NULL,
	"review_id" integer NOT NULL,
	"number" integer NOT NULL,
	"content" jsonb NOT NULL,
	"what_changed" text DEFAULT '' NOT NULL,
	"published_by" integer NOT NULL,
	"published_at" timestamp with time zone DEFAULT now() NOT NULL,
	CONSTRAINT "editions_number" UNIQUE("review_id","number")
);
--> statement-breakpoint
CREATE TABLE "judgements" (
	"id" serial PRIMARY KEY NOT NULL,
	"bake_id" integer NOT NULL,
	"user_id" integer NOT NULL,
	"by" text NOT NULL,
	"call" text NOT NULL,
	"explanation" text DEFAULT '' NOT NULL,
	"words" text DEFAULT '' NOT NULL,
	"model" jsonb,
	"made_at" timestamp with time zone DEFAULT now() NOT NULL,
	"removed_at" timestamp with time zone
);
--> statement-breakpoint
CREATE TABLE "reminders" (
	"id" serial PRIMARY KEY NOT NULL,
	"bake_day_id" integer NOT NULL,
	"user_id" integer NOT NULL,
	"sent_by" integer NOT NULL,
	"words" text DEFAULT '' NOT NULL,
	"made_at" timestamp with time zone DEFAULT now() NOT NULL,
	"seen_at" timestamp with time zone
);
--> statement-breakpoint
CREATE TABLE "review_comments" (
	"id" serial PRIMARY KEY NOT NULL,
	"review_id" integer NOT NULL,
	"user_id" integer NOT NULL,
	"words" text NOT NULL,
	"made_at" timestamp with time zone DEFAULT now() NOT NULL,
	"removed_at" timestamp with time zone
);
--> statement-breakpoint
CREATE TABLE "reviews" (
	"id" serial PRIMARY KEY NOT NULL,
	"bake_day_id" integer NOT NULL,
	"draft" jsonb NOT NULL,
	"made_at" timestamp with time zone DEFAULT now() NOT NULL,
	"changed_at" timestamp with time zone DEFAULT now() NOT NULL,
	CONSTRAINT "reviews_bake_day_id_unique" UNIQUE("bake_day_id")
);
--> statement-breakpoint
ALTER TABLE "bakes" ADD COLUMN "vessel" text DEFAULT '' NOT NULL;--> statement-breakpoint
ALTER TABLE "bakes" ADD COLUMN "cues" text[] DEFAULT '{}' NOT NULL;--> statement-breakpoint
ALTER TABLE "photos" ADD COLUMN "across_mm" double precision;--> statement-breakpoint
ALTER TABLE "editions" ADD CONSTRAINT "editions_review_id_reviews_id_fk" FOREIGN KEY ("review_id") REFERENCES "public"."reviews"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "editions" ADD CONSTRAINT "editions_published_by_users_id_fk" FOREIGN KEY ("published_by") REFERENCES "public"."users"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "judgements" ADD CONSTRAINT "judgements_bake_id_bakes_id_fk" FOREIGN KEY ("bake_id") REFERENCES "public"."bakes"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "judgements" ADD CONSTRAINT "judgements_user_id_users_id_fk" FOREIGN KEY ("user_id") REFERENCES "public"."users"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "reminders" ADD CONSTRAINT "reminders_bake_day_id_bake_days_id_fk" FOREIGN KEY ("bake_day_id") REFERENCES "public"."bake_days"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "reminders" ADD CONSTRAINT "reminders_user_id_users_id_fk" FOREIGN KEY ("user_id") REFERENCES "public"."users"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "reminders" ADD CONSTRAINT "reminders_sent_by_users_id_fk" FOREIGN KEY ("sent_by") REFERENCES "public"."users"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "review_comments" ADD CONSTRAINT "review_comments_review_id_reviews_id_fk" FOREIGN KEY ("review_id") REFERENCES "public"."reviews"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "review_comments" ADD CONSTRAINT "review_comments_user_id_users_id_fk" FOREIGN KEY ("user_id") REFERENCES "public"."users"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "reviews" ADD CONSTRAINT "reviews_bake_day_id_bake_days_id_fk" FOREIGN KEY ("bake_day_id") REFERENCES "public"."bake_days"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "judgements_bake" ON "judgements" USING btree ("bake_id");--> statement-breakpoint
CREATE INDEX "reminders_user" ON "reminders" USING btree ("user_id");--> statement-breakpoint
CREATE INDEX "reminders_bake_day" ON "reminders" USING btree ("bake_day_id");--> statement-breakpoint
CREATE INDEX "review_comments_review" ON "review_comments" USING btree ("review_id");