ALTER TABLE "bakes" ADD COLUMN "variant" text DEFAULT '' NOT NULL;--> statement-breakpoint
ALTER TABLE "plans" ADD COLUMN "variant" text DEFAULT '' NOT NULL;--> statement-breakpoint
ALTER TABLE "revisions" ADD COLUMN "own_ingredients" jsonb DEFAULT '[]'::jsonb NOT NULL;--> statement-breakpoint
ALTER TABLE "users" ADD COLUMN "measures" text DEFAULT 'us' NOT NULL;--> statement-breakpoint
-- Formulas written before amounts could be read in two ways get the fields that say so.
CREATE FUNCTION pg_temp.with_readings(content jsonb) RETURNS jsonb LANGUAGE sql AS $$
  SELECT '{"measures": "us", "pieceTolerance": "", "finishing": [], "variants": []}'::jsonb || content || jsonb_build_object('parts', (
    SELECT coalesce(jsonb_agg(part || jsonb_build_object('lines', (
      SELECT coalesce(jsonb_agg('{"readAs": ""}'::jsonb || line ORDER BY line_at), '[]')
      FROM jsonb_array_elements(part -> 'lines') WITH ORDINALITY AS written (line, line_at)
    )) ORDER BY part_at), '[]')
    FROM jsonb_array_elements(content -> 'parts') WITH ORDINALITY AS parts (part, part_at)
  ))
$$;--> statement-breakpoint
UPDATE "formulas" SET "draft" = pg_temp.with_readings("draft");--> statement-breakpoint
UPDATE "revisions" SET "content" = pg_temp.with_readings("content");
