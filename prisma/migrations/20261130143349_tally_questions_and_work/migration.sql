-- One ball of a contact tally. What was not noted is null: it is unknown, not absent.
CREATE TABLE "TallyBall" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "side" TEXT NOT NULL,
    "day" DATE NOT NULL,
    "task" TEXT NOT NULL,
    "swingKind" TEXT NOT NULL,
    "pitchHeight" TEXT,
    "pitchSide" TEXT,
    "pitchSpeed" TEXT,
    "act" TEXT NOT NULL,
    "quality" TEXT,
    "direction" TEXT,
    "height" TEXT,
    "timing" TEXT,
    "spot" TEXT,
    "curve" TEXT,
    "notedById" UUID NOT NULL,
    "notedAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "takenBackAt" TIMESTAMPTZ(3),
    CONSTRAINT "TallyBall_pkey" PRIMARY KEY ("id")
);
CREATE UNIQUE INDEX "TallyBall_academyId_id_key" ON "TallyBall" ("academyId", "id");
CREATE INDEX "TallyBall_academyId_playerId_side_day_idx" ON "TallyBall" ("academyId", "playerId", "side", "day" DESC);
ALTER TABLE "TallyBall" ADD CONSTRAINT "TallyBall_swung_says_how" CHECK (("act" = 'swung') = ("quality" IS NOT NULL));
ALTER TABLE "TallyBall" ADD CONSTRAINT "TallyBall_academyId_playerId_side_fkey" FOREIGN KEY ("academyId", "playerId", "side") REFERENCES "BattingSide"("academyId", "playerId", "side") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- A coach's own call of what the ball does; it stands above the tally.
CREATE TABLE "SymptomCall" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "side" TEXT NOT NULL,
    "symptomId" TEXT NOT NULL,
    "state" TEXT NOT NULL,
    "editionId" UUID NOT NULL,
    "calledById" UUID NOT NULL,
    "calledAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "replacedAt" TIMESTAMPTZ(3),
    CONSTRAINT "SymptomCall_pkey" PRIMARY KEY ("id")
);
CREATE INDEX "SymptomCall_academyId_playerId_side_idx" ON "SymptomCall" ("academyId", "playerId", "side");
CREATE UNIQUE INDEX "SymptomCall_in_force" ON "SymptomCall" ("academyId", "playerId", "side", "symptomId") WHERE "replacedAt" IS NULL;
ALTER TABLE "SymptomCall" ADD CONSTRAINT "SymptomCall_state" CHECK ("state" IN ('seen', 'not-seen'));
ALTER TABLE "SymptomCall" ADD CONSTRAINT "SymptomCall_academyId_playerId_side_fkey" FOREIGN KEY ("academyId", "playerId", "side") REFERENCES "BattingSide"("academyId", "playerId", "side") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- An answer to one of the library's questions, tests, screens or tallies; what was skipped has no row.
CREATE TABLE "QuestionAnswer" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "side" TEXT NOT NULL,
    "questionId" TEXT NOT NULL,
    "answerId" TEXT NOT NULL,
    "editionId" UUID NOT NULL,
    "answeredById" UUID NOT NULL,
    "answeredOn" DATE NOT NULL,
    "answeredAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "replacedAt" TIMESTAMPTZ(3),
    CONSTRAINT "QuestionAnswer_pkey" PRIMARY KEY ("id")
);
CREATE INDEX "QuestionAnswer_academyId_playerId_side_idx" ON "QuestionAnswer" ("academyId", "playerId", "side");
CREATE UNIQUE INDEX "QuestionAnswer_in_force" ON "QuestionAnswer" ("academyId", "playerId", "side", "questionId") WHERE "replacedAt" IS NULL;
ALTER TABLE "QuestionAnswer" ADD CONSTRAINT "QuestionAnswer_academyId_playerId_side_fkey" FOREIGN KEY ("academyId", "playerId", "side") REFERENCES "BattingSide"("academyId", "playerId", "side") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- What the worker works out of one input: the order when it is wide, and whether it is steady. The same input is worked out once.
CREATE TABLE "RankingWork" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "side" TEXT NOT NULL,
    "editionId" UUID NOT NULL,
    "engineVersion" TEXT NOT NULL,
    "inputHash" TEXT NOT NULL,
    "input" JSONB NOT NULL,
    "output" JSONB,
    "steadiness" JSONB,
    "askedById" UUID NOT NULL,
    "askedAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "doneAt" TIMESTAMPTZ(3),
    CONSTRAINT "RankingWork_pkey" PRIMARY KEY ("id")
);
CREATE UNIQUE INDEX "RankingWork_once" ON "RankingWork" ("academyId", "playerId", "side", "editionId", "engineVersion", "inputHash");
ALTER TABLE "RankingWork" ADD CONSTRAINT "RankingWork_academyId_playerId_side_fkey" FOREIGN KEY ("academyId", "playerId", "side") REFERENCES "BattingSide"("academyId", "playerId", "side") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- The words that clicked for a player, for one fault: they stand first for that player and nobody else.
CREATE TABLE "ClickedCue" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "side" TEXT NOT NULL,
    "faultId" TEXT NOT NULL,
    "cue" TEXT NOT NULL,
    "notedById" UUID NOT NULL,
    "notedAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "replacedAt" TIMESTAMPTZ(3),
    CONSTRAINT "ClickedCue_pkey" PRIMARY KEY ("id")
);
CREATE INDEX "ClickedCue_academyId_playerId_side_idx" ON "ClickedCue" ("academyId", "playerId", "side");
CREATE UNIQUE INDEX "ClickedCue_in_force" ON "ClickedCue" ("academyId", "playerId", "side", "faultId") WHERE "replacedAt" IS NULL;
ALTER TABLE "ClickedCue" ADD CONSTRAINT "ClickedCue_academyId_playerId_side_fkey" FOREIGN KEY ("academyId", "playerId", "side") REFERENCES "BattingSide"("academyId", "playerId", "side") ON DELETE RESTRICT ON UPDATE RESTRICT;
