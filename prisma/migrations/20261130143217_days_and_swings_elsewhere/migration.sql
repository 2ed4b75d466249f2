-- Which weekdays a drill is done on (1 = Monday; empty = any day of the plan), how practice is laid out, and swings that
-- do not come from homework: what a usual week brings, and what was really swung.
ALTER TABLE "Plan" ADD COLUMN "practiceOrder" TEXT NOT NULL DEFAULT 'blocked' CHECK ("practiceOrder" IN ('blocked', 'mixed'));
ALTER TABLE "PlanDrill" ADD COLUMN "weekdays" INTEGER[] NOT NULL DEFAULT ARRAY[]::INTEGER[] CHECK ("weekdays" <@ ARRAY[1, 2, 3, 4, 5, 6, 7]);

CREATE TABLE "SwingSource" (
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "source" TEXT NOT NULL CHECK ("source" IN ('team', 'lessons', 'games')),
    "weekdays" INTEGER[] NOT NULL CHECK ("weekdays" <@ ARRAY[1, 2, 3, 4, 5, 6, 7]),
    "swingsEach" INTEGER NOT NULL CHECK ("swingsEach" BETWEEN 0 AND 500),
    "saidById" UUID NOT NULL,
    "saidAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    CONSTRAINT "SwingSource_pkey" PRIMARY KEY ("academyId", "playerId", "source")
);
ALTER TABLE "SwingSource" ADD CONSTRAINT "SwingSource_academyId_playerId_fkey" FOREIGN KEY ("academyId", "playerId") REFERENCES "Player"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

CREATE TABLE "SwingLog" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "day" DATE NOT NULL,
    "source" TEXT NOT NULL CHECK ("source" IN ('team', 'lessons', 'games')),
    "swings" INTEGER NOT NULL CHECK ("swings" BETWEEN 0 AND 500),
    "isGuess" BOOLEAN NOT NULL DEFAULT false,
    "loggedById" UUID NOT NULL,
    "loggedAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "takenBackAt" TIMESTAMPTZ(3),
    "takenBackById" UUID,
    CONSTRAINT "SwingLog_pkey" PRIMARY KEY ("id")
);
CREATE UNIQUE INDEX "SwingLog_academyId_id_key" ON "SwingLog" ("academyId", "id");
CREATE INDEX "SwingLog_academyId_playerId_day_idx" ON "SwingLog" ("academyId", "playerId", "day");
ALTER TABLE "SwingLog" ADD CONSTRAINT "SwingLog_academyId_playerId_fkey" FOREIGN KEY ("academyId", "playerId") REFERENCES "Player"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
