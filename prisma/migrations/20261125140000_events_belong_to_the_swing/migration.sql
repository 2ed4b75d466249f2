-- Several cameras of one swing: each clip has its own mark of contact, by which the clips are lined up; every other
-- event exists once for the swing and source, on whichever clip it was marked.
ALTER TABLE "SwingEvent" DROP CONSTRAINT "SwingEvent_pkey";
ALTER TABLE "SwingEvent" ADD CONSTRAINT "SwingEvent_pkey" PRIMARY KEY ("academyId", "clipId", "event", "source");
CREATE UNIQUE INDEX "SwingEvent_one_of_a_swing" ON "SwingEvent" ("academyId", "swingId", "event", "source") WHERE "event" <> 'contact';
CREATE INDEX "SwingEvent_academyId_swingId_idx" ON "SwingEvent" ("academyId", "swingId");

-- A clip is of the player whose swing it shows, and an event's clip is one of its swing's.
CREATE UNIQUE INDEX "Swing_academyId_playerId_id_key" ON "Swing" ("academyId", "playerId", "id");
CREATE UNIQUE INDEX "Clip_academyId_swingId_id_key" ON "Clip" ("academyId", "swingId", "id");
ALTER TABLE "Clip" DROP CONSTRAINT "Clip_academyId_swingId_fkey";
ALTER TABLE "Clip" ADD CONSTRAINT "Clip_academyId_playerId_swingId_fkey" FOREIGN KEY ("academyId", "playerId", "swingId") REFERENCES "Swing"("academyId", "playerId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "SwingEvent" DROP CONSTRAINT "SwingEvent_academyId_clipId_fkey";
ALTER TABLE "SwingEvent" ADD CONSTRAINT "SwingEvent_academyId_swingId_clipId_fkey" FOREIGN KEY ("academyId", "swingId", "clipId") REFERENCES "Clip"("academyId", "swingId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- The swing of which a film on its way is another camera.
ALTER TABLE "Upload" ADD COLUMN "swingId" UUID;
ALTER TABLE "Upload" ADD CONSTRAINT "Upload_academyId_playerId_swingId_fkey" FOREIGN KEY ("academyId", "playerId", "swingId") REFERENCES "Swing"("academyId", "playerId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
