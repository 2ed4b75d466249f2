-- What a coach said cannot be seen on a frame, and how fast a file says that it was filmed.
CREATE TABLE "UnseenPoint" (
    "academyId" UUID NOT NULL,
    "clipId" UUID NOT NULL,
    "frameIndex" INTEGER NOT NULL,
    "point" TEXT NOT NULL,
    "setById" UUID,
    "setAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "UnseenPoint_pkey" PRIMARY KEY ("academyId","clipId","frameIndex","point")
);
ALTER TABLE "UnseenPoint" ADD CONSTRAINT "UnseenPoint_academyId_clipId_fkey" FOREIGN KEY ("academyId", "clipId") REFERENCES "Clip"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

ALTER TABLE "MediaFile" ADD COLUMN "captureFps" DOUBLE PRECISION;
ALTER TABLE "MediaFile" ADD CONSTRAINT "MediaFile_capture_rate" CHECK ("captureFps" IS NULL OR "captureFps" > 0);
