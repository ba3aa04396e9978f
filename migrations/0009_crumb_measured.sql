CREATE TABLE "hand_counts" (
	"id" serial PRIMARY KEY NOT NULL,
	"photo_id" uuid NOT NULL,
	"user_id" integer NOT NULL,
	"frame" jsonb NOT NULL,
	"count" integer NOT NULL,
	"made_at" timestamp with time zone DEFAULT now() NOT NULL,
	"removed_at" timestamp with time zone
);
--> statement-breakpoint
CREATE TABLE "measurements" (
	"photo_id" uuid PRIMARY KEY NOT NULL,
	"asked" text NOT NULL,
	"state" text NOT NULL,
	"result" jsonb,
	"asked_at" timestamp with time zone DEFAULT now() NOT NULL,
	"done_at" timestamp with time zone
);
--> statement-breakpoint
ALTER TABLE "photos" ADD COLUMN "crumb_area" jsonb;--> statement-breakpoint
ALTER TABLE "photos" ADD COLUMN "ruler" jsonb;--> statement-breakpoint
ALTER TABLE "hand_counts" ADD CONSTRAINT "hand_counts_photo_id_photos_id_fk" FOREIGN KEY ("photo_id") REFERENCES "public"."photos"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "hand_counts" ADD CONSTRAINT "hand_counts_user_id_users_id_fk" FOREIGN KEY ("user_id") REFERENCES "public"."users"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "measurements" ADD CONSTRAINT "measurements_photo_id_photos_id_fk" FOREIGN KEY ("photo_id") REFERENCES "public"."photos"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "hand_counts_photo" ON "hand_counts" USING btree ("photo_id");