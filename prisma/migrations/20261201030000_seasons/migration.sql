-- In which part of the year a player is. Rows are added and never changed: of those that hold on a day, the one said last counts.
CREATE TABLE "PlayerSeason" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "season" TEXT NOT NULL CHECK ("season" IN ('off-season', 'pre-season', 'in-season', 'break')),
    "from" DATE NOT NULL,
    "until" DATE,
    "firstGameOn" DATE,
    "setById" UUID NOT NULL,
    "setAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    CONSTRAINT "PlayerSeason_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "PlayerSeason_ends_after_it_begins" CHECK ("until" IS NULL OR "until" > "from")
);
CREATE UNIQUE INDEX "PlayerSeason_academyId_id_key" ON "PlayerSeason" ("academyId", "id");
CREATE INDEX "PlayerSeason_academyId_playerId_setAt_idx" ON "PlayerSeason" ("academyId", "playerId", "setAt" DESC);
ALTER TABLE "PlayerSeason" ADD CONSTRAINT "PlayerSeason_academyId_playerId_fkey" FOREIGN KEY ("academyId", "playerId") REFERENCES "Player"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- The head coach's yes to a new change of the movement in a season that has none. It belongs to the season and ends with it.
CREATE TABLE "SeasonYes" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "side" TEXT NOT NULL,
    "faultId" TEXT NOT NULL,
    "seasonId" UUID NOT NULL,
    "reason" TEXT NOT NULL CHECK ("reason" <> ''),
    "saidById" UUID NOT NULL,
    "saidAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    CONSTRAINT "SeasonYes_pkey" PRIMARY KEY ("id")
);
CREATE UNIQUE INDEX "SeasonYes_academyId_seasonId_side_faultId_key" ON "SeasonYes" ("academyId", "seasonId", "side", "faultId");
CREATE INDEX "SeasonYes_academyId_playerId_side_idx" ON "SeasonYes" ("academyId", "playerId", "side");
ALTER TABLE "SeasonYes" ADD CONSTRAINT "SeasonYes_academyId_playerId_side_fkey" FOREIGN KEY ("academyId", "playerId", "side") REFERENCES "BattingSide"("academyId", "playerId", "side") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "SeasonYes" ADD CONSTRAINT "SeasonYes_academyId_seasonId_fkey" FOREIGN KEY ("academyId", "seasonId") REFERENCES "PlayerSeason"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
