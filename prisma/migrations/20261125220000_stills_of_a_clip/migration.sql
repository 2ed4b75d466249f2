-- Which stills of a clip the worker has cut, all through one window.
CREATE TABLE "ClipStills" (
    "academyId" UUID NOT NULL,
    "clipId" UUID NOT NULL,
    "window" TEXT NOT NULL,
    "frames" INTEGER[],
    "cutAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    CONSTRAINT "ClipStills_pkey" PRIMARY KEY ("academyId", "clipId")
);
ALTER TABLE "ClipStills" ADD CONSTRAINT "ClipStills_academyId_clipId_fkey" FOREIGN KEY ("academyId", "clipId") REFERENCES "Clip"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
