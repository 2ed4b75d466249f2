-- The coach's talk over real frames: takes with their voice and their list of what was shown, chapters, and which clips are shown.
CREATE TABLE "Walkthrough" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "side" TEXT NOT NULL,
    "title" TEXT NOT NULL,
    "summary" TEXT NOT NULL DEFAULT '',
    "noteId" UUID,
    "createdById" UUID NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "sentAt" TIMESTAMPTZ(3),
    "filmState" TEXT NOT NULL DEFAULT 'none',
    "filmOf" TEXT,
    "filmKey" TEXT,

    CONSTRAINT "Walkthrough_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "WalkthroughTake" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "walkthroughId" UUID NOT NULL,
    "list" JSONB NOT NULL,
    "durationMs" INTEGER NOT NULL,
    "voiceState" TEXT NOT NULL,
    "voiceKey" TEXT,
    "voiceType" TEXT,
    "voiceMs" INTEGER,
    "cues" JSONB NOT NULL,
    "recordedById" UUID NOT NULL,
    "recordedAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "WalkthroughTake_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "WalkthroughChapter" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "walkthroughId" UUID NOT NULL,
    "takeId" UUID NOT NULL,
    "position" INTEGER NOT NULL,
    "fromMs" INTEGER NOT NULL,
    "toMs" INTEGER NOT NULL,
    "title" TEXT NOT NULL,
    "aboutKind" TEXT,
    "aboutId" TEXT,
    "swingId" UUID,

    CONSTRAINT "WalkthroughChapter_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "WalkthroughClip" (
    "academyId" UUID NOT NULL,
    "walkthroughId" UUID NOT NULL,
    "clipId" UUID NOT NULL,

    CONSTRAINT "WalkthroughClip_pkey" PRIMARY KEY ("academyId","walkthroughId","clipId")
);

CREATE UNIQUE INDEX "Walkthrough_academyId_id_key" ON "Walkthrough"("academyId", "id");
CREATE INDEX "Walkthrough_academyId_playerId_createdAt_idx" ON "Walkthrough"("academyId", "playerId", "createdAt" DESC);
CREATE INDEX "Walkthrough_academyId_noteId_idx" ON "Walkthrough"("academyId", "noteId");
CREATE UNIQUE INDEX "WalkthroughTake_academyId_id_key" ON "WalkthroughTake"("academyId", "id");
CREATE UNIQUE INDEX "WalkthroughTake_academyId_walkthroughId_id_key" ON "WalkthroughTake"("academyId", "walkthroughId", "id");
CREATE UNIQUE INDEX "WalkthroughChapter_academyId_id_key" ON "WalkthroughChapter"("academyId", "id");
CREATE INDEX "WalkthroughChapter_academyId_walkthroughId_position_idx" ON "WalkthroughChapter"("academyId", "walkthroughId", "position");
CREATE INDEX "WalkthroughClip_academyId_clipId_idx" ON "WalkthroughClip"("academyId", "clipId");

ALTER TABLE "Walkthrough" ADD CONSTRAINT "Walkthrough_academyId_playerId_fkey" FOREIGN KEY ("academyId", "playerId") REFERENCES "Player"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "Walkthrough" ADD CONSTRAINT "Walkthrough_academyId_noteId_fkey" FOREIGN KEY ("academyId", "noteId") REFERENCES "Note"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "WalkthroughTake" ADD CONSTRAINT "WalkthroughTake_academyId_walkthroughId_fkey" FOREIGN KEY ("academyId", "walkthroughId") REFERENCES "Walkthrough"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "WalkthroughChapter" ADD CONSTRAINT "WalkthroughChapter_academyId_walkthroughId_fkey" FOREIGN KEY ("academyId", "walkthroughId") REFERENCES "Walkthrough"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "WalkthroughChapter" ADD CONSTRAINT "WalkthroughChapter_academyId_walkthroughId_takeId_fkey" FOREIGN KEY ("academyId", "walkthroughId", "takeId") REFERENCES "WalkthroughTake"("academyId", "walkthroughId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "WalkthroughClip" ADD CONSTRAINT "WalkthroughClip_academyId_walkthroughId_fkey" FOREIGN KEY ("academyId", "walkthroughId") REFERENCES "Walkthrough"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

ALTER TABLE "Walkthrough" ADD CONSTRAINT "Walkthrough_side" CHECK ("side" IN ('right', 'left'));
ALTER TABLE "Walkthrough" ADD CONSTRAINT "Walkthrough_film" CHECK ("filmState" IN ('none', 'asked', 'ready', 'failed') AND (("filmState" = 'ready') = ("filmKey" IS NOT NULL)));
ALTER TABLE "WalkthroughTake" ADD CONSTRAINT "WalkthroughTake_voice" CHECK ("voiceState" IN ('none', 'awaited', 'kept') AND (("voiceState" = 'kept') = ("voiceKey" IS NOT NULL)));
ALTER TABLE "WalkthroughTake" ADD CONSTRAINT "WalkthroughTake_length" CHECK ("durationMs" BETWEEN 0 AND 1800000);
ALTER TABLE "WalkthroughChapter" ADD CONSTRAINT "WalkthroughChapter_stretch" CHECK ("fromMs" >= 0 AND "toMs" > "fromMs");
ALTER TABLE "WalkthroughChapter" ADD CONSTRAINT "WalkthroughChapter_about" CHECK (("aboutKind" IS NULL) = ("aboutId" IS NULL) AND ("aboutKind" IS NULL OR "aboutKind" IN ('checkpoint', 'fault', 'drill')));
