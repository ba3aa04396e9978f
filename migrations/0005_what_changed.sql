ALTER TABLE "changes" ADD COLUMN "out_quantity" text DEFAULT '' NOT NULL;--> statement-breakpoint
ALTER TABLE "changes" ADD COLUMN "out_g" double precision;--> statement-breakpoint
ALTER TABLE "changes" ADD COLUMN "done_at" timestamp with time zone;--> statement-breakpoint
ALTER TABLE "changes" ADD COLUMN "done_typed" text DEFAULT '' NOT NULL;--> statement-breakpoint
ALTER TABLE "changes" ADD COLUMN "done_about_min" double precision;--> statement-breakpoint
ALTER TABLE "corrections" ADD COLUMN "change_id" integer;--> statement-breakpoint
ALTER TABLE "corrections" ADD CONSTRAINT "corrections_change_id_changes_id_fk" FOREIGN KEY ("change_id") REFERENCES "public"."changes"("id") ON DELETE cascade ON UPDATE no action;