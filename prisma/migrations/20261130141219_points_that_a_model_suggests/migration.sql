-- Body points that the pose model suggests: how sure it was, what its last look came to, and which frames it looked at.
ALTER TABLE "ClipPoint" ADD COLUMN "confidence" DOUBLE PRECISION;

CREATE TABLE "SuggestingRun" (
    "academyId" UUID NOT NULL,
    "clipId" UUID NOT NULL,
    "outcome" TEXT NOT NULL,
    "reason" TEXT,
    "model" TEXT,
    "modelVersion" TEXT,
    "basis" TEXT NOT NULL,
    "msPerFrame" DOUBLE PRECISION,
    "endedAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    CONSTRAINT "SuggestingRun_pkey" PRIMARY KEY ("academyId", "clipId")
);

CREATE TABLE "SuggestedFrame" (
    "academyId" UUID NOT NULL,
    "clipId" UUID NOT NULL,
    "frameIndex" INTEGER NOT NULL,
    "model" TEXT NOT NULL,
    "modelVersion" TEXT NOT NULL,
    "presence" DOUBLE PRECISION,
    "exchanged" TEXT[],
    "madeAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    CONSTRAINT "SuggestedFrame_pkey" PRIMARY KEY ("academyId", "clipId", "frameIndex")
);

ALTER TABLE "SuggestingRun" ADD CONSTRAINT "SuggestingRun_academyId_clipId_fkey" FOREIGN KEY ("academyId", "clipId") REFERENCES "Clip"("academyId", "id") ON DELETE CASCADE ON UPDATE RESTRICT;
ALTER TABLE "SuggestedFrame" ADD CONSTRAINT "SuggestedFrame_academyId_clipId_fkey" FOREIGN KEY ("academyId", "clipId") REFERENCES "Clip"("academyId", "id") ON DELETE CASCADE ON UPDATE RESTRICT;

-- A person's point has no confidence: nobody measured it.
ALTER TABLE "ClipPoint" ADD CONSTRAINT "ClipPoint_confidence_of_a_suggestion" CHECK ("confidence" IS NULL OR ("source" = 'suggested' AND "confidence" BETWEEN 0 AND 1));
ALTER TABLE "SuggestingRun" ADD CONSTRAINT "SuggestingRun_outcome" CHECK ("outcome" IN ('done', 'skipped', 'failed') AND ("reason" IS NULL) = ("outcome" = 'done'));
