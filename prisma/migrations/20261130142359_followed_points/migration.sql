-- A place that was followed through the pictures from placed frames and taken by a coach: its own standard deviation in picture pixels.
ALTER TABLE "ClipPoint" ADD COLUMN "followedSdPx" DOUBLE PRECISION;
ALTER TABLE "ClipPoint" ADD CONSTRAINT "ClipPoint_followed" CHECK ("followedSdPx" IS NULL OR ("followedSdPx" >= 0 AND "source" = 'placed' AND "point" IN ('knob', 'tip')));
