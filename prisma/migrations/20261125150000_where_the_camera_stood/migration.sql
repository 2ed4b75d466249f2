-- How far a camera stood off its line, with its doubt and who says so: a person, home plate in the picture, or the body.
ALTER TABLE "Clip" ADD COLUMN "cameraOffSdDeg" DOUBLE PRECISION;
ALTER TABLE "Clip" ADD COLUMN "cameraOffSource" TEXT;
ALTER TABLE "Clip" ADD COLUMN "plateMark" JSONB;
UPDATE "Clip" SET "cameraOffSource" = 'stated' WHERE "cameraOffDeg" IS NOT NULL;
ALTER TABLE "Clip" ADD CONSTRAINT "Clip_camera_line" CHECK (
  ("cameraOffSource" IS NULL OR ("cameraOffSource" IN ('stated', 'plate', 'widths') AND "cameraOffDeg" IS NOT NULL))
  AND ("cameraOffSdDeg" IS NULL OR ("cameraOffSdDeg" > 0 AND "cameraOffSource" IS NOT NULL))
  AND ("plateMark" IS NULL OR "cameraOffSource" IS NOT DISTINCT FROM 'plate')
);
