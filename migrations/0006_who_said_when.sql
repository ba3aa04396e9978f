ALTER TABLE "marks" ADD COLUMN "started_by" integer;--> statement-breakpoint
ALTER TABLE "marks" ADD COLUMN "ended_by" integer;--> statement-breakpoint
ALTER TABLE "marks" ADD CONSTRAINT "marks_started_by_users_id_fk" FOREIGN KEY ("started_by") REFERENCES "public"."users"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "marks" ADD CONSTRAINT "marks_ended_by_users_id_fk" FOREIGN KEY ("ended_by") REFERENCES "public"."users"("id") ON DELETE no action ON UPDATE no action;