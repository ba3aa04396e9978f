ALTER TABLE "bakes" ADD COLUMN "piece_masses_g" double precision[] DEFAULT '{}' NOT NULL;--> statement-breakpoint
ALTER TABLE "bakes" ADD COLUMN "piece_masses_typed" text DEFAULT '' NOT NULL;