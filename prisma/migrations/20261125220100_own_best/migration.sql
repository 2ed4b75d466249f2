-- The swing that a coach keeps as a player's own best, for a side and a view; the one before it can come back.
CREATE TABLE "OwnBest" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "side" TEXT NOT NULL,
    "view" TEXT NOT NULL,
    "swingId" UUID NOT NULL,
    "clipId" UUID NOT NULL,
    "keptById" UUID NOT NULL,
    "keptAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "replacedById" UUID,
    "takenBackAt" TIMESTAMPTZ(3),
    CONSTRAINT "OwnBest_pkey" PRIMARY KEY ("id")
);
CREATE UNIQUE INDEX "OwnBest_academyId_id_key" ON "OwnBest" ("academyId", "id");
CREATE INDEX "OwnBest_academyId_playerId_side_view_idx" ON "OwnBest" ("academyId", "playerId", "side", "view");
CREATE UNIQUE INDEX "OwnBest_one_in_force" ON "OwnBest" ("academyId", "playerId", "side", "view") WHERE "replacedById" IS NULL AND "takenBackAt" IS NULL;
ALTER TABLE "OwnBest" ADD CONSTRAINT "OwnBest_academyId_playerId_side_fkey" FOREIGN KEY ("academyId", "playerId", "side") REFERENCES "BattingSide"("academyId", "playerId", "side") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "OwnBest" ADD CONSTRAINT "OwnBest_academyId_playerId_swingId_fkey" FOREIGN KEY ("academyId", "playerId", "swingId") REFERENCES "Swing"("academyId", "playerId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "OwnBest" ADD CONSTRAINT "OwnBest_academyId_swingId_clipId_fkey" FOREIGN KEY ("academyId", "swingId", "clipId") REFERENCES "Clip"("academyId", "swingId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
