-- A clip that a player or a guardian sent: what was asked, whether a coach looked, and the answer.
CREATE TABLE "SentClip" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "uploadId" UUID NOT NULL,
    "sentById" UUID NOT NULL,
    "words" TEXT NOT NULL,
    "sentAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "lookedAt" TIMESTAMPTZ(3),
    "lookedById" UUID,
    "remindedAt" TIMESTAMPTZ(3),
    "answeredAt" TIMESTAMPTZ(3),
    "answeredById" UUID,
    "answer" TEXT,
    "clipId" UUID,
    "frameIndex" INTEGER,
    "marks" JSONB,
    "walkthroughId" UUID,
    "drillId" TEXT,

    CONSTRAINT "SentClip_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "SentClip_frame_is_of_a_clip" CHECK (("clipId" IS NULL) = ("frameIndex" IS NULL)),
    CONSTRAINT "SentClip_answer_is_signed" CHECK (("answeredAt" IS NULL) = ("answeredById" IS NULL)),
    CONSTRAINT "SentClip_answer_says_something" CHECK (("answeredAt" IS NULL) = ("answer" IS NULL AND "walkthroughId" IS NULL))
);
CREATE UNIQUE INDEX "SentClip_academyId_id_key" ON "SentClip"("academyId", "id");
CREATE UNIQUE INDEX "SentClip_uploadId_key" ON "SentClip"("uploadId");
CREATE UNIQUE INDEX "SentClip_academyId_playerId_uploadId_key" ON "SentClip"("academyId", "playerId", "uploadId");
CREATE INDEX "SentClip_academyId_playerId_sentAt_idx" ON "SentClip"("academyId", "playerId", "sentAt" DESC);
-- What waits is listed on the day page and looked through every hour.
CREATE INDEX "SentClip_waiting" ON "SentClip"("sentAt") WHERE "answeredAt" IS NULL;
-- A clip that is given to another player may not take the first family's words along: the row must go first.
CREATE UNIQUE INDEX "Upload_academyId_playerId_id_key" ON "Upload"("academyId", "playerId", "id");
ALTER TABLE "SentClip" ADD CONSTRAINT "SentClip_academyId_playerId_uploadId_fkey" FOREIGN KEY ("academyId", "playerId", "uploadId") REFERENCES "Upload"("academyId", "playerId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "SentClip" ADD CONSTRAINT "SentClip_academyId_clipId_fkey" FOREIGN KEY ("academyId", "clipId") REFERENCES "Clip"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "SentClip" ADD CONSTRAINT "SentClip_academyId_walkthroughId_fkey" FOREIGN KEY ("academyId", "walkthroughId") REFERENCES "Walkthrough"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
