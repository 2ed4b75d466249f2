-- Swings that the head coach keeps as models, each with the right by which it is shown.
CREATE TABLE "ModelSwing" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "swingId" UUID NOT NULL,
    "label" TEXT NOT NULL,
    "sport" TEXT NOT NULL,
    "level" TEXT NOT NULL,
    "isAdult" BOOLEAN NOT NULL,
    "heightM" DOUBLE PRECISION,
    "task" TEXT NOT NULL,
    "pitchHeight" TEXT NOT NULL,
    "pitchSide" TEXT NOT NULL,
    "rightHolder" TEXT NOT NULL,
    "rightBasis" TEXT NOT NULL,
    "rightUntil" DATE NOT NULL,
    "rightNote" TEXT NOT NULL,
    "recordedById" UUID NOT NULL,
    "recordedAt" TIMESTAMPTZ(3) NOT NULL,
    "keptAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "withdrawnAt" TIMESTAMPTZ(3),
    "withdrawnById" UUID,

    CONSTRAINT "ModelSwing_pkey" PRIMARY KEY ("id")
);

CREATE INDEX "ModelSwing_academyId_withdrawnAt_rightUntil_idx" ON "ModelSwing"("academyId", "withdrawnAt", "rightUntil");
CREATE INDEX "ModelSwing_academyId_swingId_idx" ON "ModelSwing"("academyId", "swingId");
CREATE UNIQUE INDEX "ModelSwing_academyId_id_key" ON "ModelSwing"("academyId", "id");
ALTER TABLE "ModelSwing" ADD CONSTRAINT "ModelSwing_academyId_playerId_swingId_fkey" FOREIGN KEY ("academyId", "playerId", "swingId") REFERENCES "Swing"("academyId", "playerId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "ModelSwing" ADD CONSTRAINT "ModelSwing_academyId_playerId_fkey" FOREIGN KEY ("academyId", "playerId") REFERENCES "Player"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

ALTER TABLE "ModelSwing" ADD CONSTRAINT "ModelSwing_sport" CHECK ("sport" IN ('baseball', 'softball'));
ALTER TABLE "ModelSwing" ADD CONSTRAINT "ModelSwing_basis" CHECK ("rightBasis" IN ('written-consent', 'own-consent', 'licensed'));
ALTER TABLE "ModelSwing" ADD CONSTRAINT "ModelSwing_withdrawn" CHECK (("withdrawnAt" IS NULL) = ("withdrawnById" IS NULL));
-- A swing is kept as a model once.
CREATE UNIQUE INDEX "ModelSwing_kept_once" ON "ModelSwing" ("academyId", "swingId") WHERE "withdrawnAt" IS NULL;
