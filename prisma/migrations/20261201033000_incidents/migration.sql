-- What a grown-up of the academy noted of a hit, a pain or a blow to the head. It stops swings as a report of pain does.
CREATE TABLE "Incident" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "kind" TEXT NOT NULL CHECK ("kind" IN ('hit', 'pain', 'head-blow')),
    "part" TEXT NOT NULL,
    "happenedOn" DATE NOT NULL,
    "words" TEXT NOT NULL CHECK ("words" <> ''),
    "firstAid" TEXT NOT NULL,
    "notedById" UUID NOT NULL,
    "notedAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    CONSTRAINT "Incident_pkey" PRIMARY KEY ("id")
);
CREATE UNIQUE INDEX "Incident_academyId_id_key" ON "Incident" ("academyId", "id");
CREATE INDEX "Incident_academyId_notedAt_idx" ON "Incident" ("academyId", "notedAt" DESC);
CREATE INDEX "Incident_academyId_playerId_idx" ON "Incident" ("academyId", "playerId");
ALTER TABLE "Incident" ADD CONSTRAINT "Incident_academyId_playerId_fkey" FOREIGN KEY ("academyId", "playerId") REFERENCES "Player"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- A pause has one cause, a report of pain or an incident; after a blow to the head the family says on which day a clinician said yes.
ALTER TABLE "Pause" ALTER COLUMN "painReportId" DROP NOT NULL;
ALTER TABLE "Pause" ADD COLUMN "incidentId" UUID;
ALTER TABLE "Pause" ADD COLUMN "clinicianSaidOn" DATE;
ALTER TABLE "Pause" ADD CONSTRAINT "Pause_has_one_cause" CHECK (("painReportId" IS NULL) <> ("incidentId" IS NULL));
CREATE UNIQUE INDEX "Pause_incidentId_key" ON "Pause" ("incidentId");
CREATE UNIQUE INDEX "Pause_academyId_incidentId_key" ON "Pause" ("academyId", "incidentId");
ALTER TABLE "Pause" ADD CONSTRAINT "Pause_academyId_incidentId_fkey" FOREIGN KEY ("academyId", "incidentId") REFERENCES "Incident"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
