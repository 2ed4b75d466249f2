-- A swing that was put down to the wrong player moves with everything, and two clips kept as separate swings may become one. For that
-- the references that name a swing together with its player, or a clip together with its swing, may wait for the end of a transaction.
ALTER TABLE "Clip" DROP CONSTRAINT "Clip_academyId_playerId_swingId_fkey";
ALTER TABLE "Clip" ADD CONSTRAINT "Clip_academyId_playerId_swingId_fkey" FOREIGN KEY ("academyId", "playerId", "swingId") REFERENCES "Swing"("academyId", "playerId", "id") ON DELETE RESTRICT ON UPDATE NO ACTION DEFERRABLE INITIALLY IMMEDIATE;
ALTER TABLE "Upload" DROP CONSTRAINT "Upload_academyId_playerId_swingId_fkey";
ALTER TABLE "Upload" ADD CONSTRAINT "Upload_academyId_playerId_swingId_fkey" FOREIGN KEY ("academyId", "playerId", "swingId") REFERENCES "Swing"("academyId", "playerId", "id") ON DELETE RESTRICT ON UPDATE NO ACTION DEFERRABLE INITIALLY IMMEDIATE;
ALTER TABLE "ModelSwing" DROP CONSTRAINT "ModelSwing_academyId_playerId_swingId_fkey";
ALTER TABLE "ModelSwing" ADD CONSTRAINT "ModelSwing_academyId_playerId_swingId_fkey" FOREIGN KEY ("academyId", "playerId", "swingId") REFERENCES "Swing"("academyId", "playerId", "id") ON DELETE RESTRICT ON UPDATE NO ACTION DEFERRABLE INITIALLY IMMEDIATE;
ALTER TABLE "OwnBest" DROP CONSTRAINT "OwnBest_academyId_playerId_swingId_fkey";
ALTER TABLE "OwnBest" ADD CONSTRAINT "OwnBest_academyId_playerId_swingId_fkey" FOREIGN KEY ("academyId", "playerId", "swingId") REFERENCES "Swing"("academyId", "playerId", "id") ON DELETE RESTRICT ON UPDATE NO ACTION DEFERRABLE INITIALLY IMMEDIATE;
ALTER TABLE "OwnBest" DROP CONSTRAINT "OwnBest_academyId_swingId_clipId_fkey";
ALTER TABLE "OwnBest" ADD CONSTRAINT "OwnBest_academyId_swingId_clipId_fkey" FOREIGN KEY ("academyId", "swingId", "clipId") REFERENCES "Clip"("academyId", "swingId", "id") ON DELETE RESTRICT ON UPDATE NO ACTION DEFERRABLE INITIALLY IMMEDIATE;
ALTER TABLE "SwingEvent" DROP CONSTRAINT "SwingEvent_academyId_swingId_clipId_fkey";
ALTER TABLE "SwingEvent" ADD CONSTRAINT "SwingEvent_academyId_swingId_clipId_fkey" FOREIGN KEY ("academyId", "swingId", "clipId") REFERENCES "Clip"("academyId", "swingId", "id") ON DELETE RESTRICT ON UPDATE NO ACTION DEFERRABLE INITIALLY IMMEDIATE;

-- A mark that gave way when two swings were joined is set aside, and comes back when they are parted.
ALTER TABLE "SwingEvent" DROP CONSTRAINT "SwingEvent_source";
ALTER TABLE "SwingEvent" ADD CONSTRAINT "SwingEvent_source" CHECK ("source" IN ('placed', 'suggested', 'sound', 'aside'));
