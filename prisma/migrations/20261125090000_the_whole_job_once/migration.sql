CREATE EXTENSION IF NOT EXISTS citext;
CREATE EXTENSION IF NOT EXISTS pg_trgm;


-- CreateTable
CREATE TABLE "AuditEntry" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "operation" TEXT NOT NULL,
    "actorId" UUID,
    "subjectId" TEXT,

    CONSTRAINT "AuditEntry_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "MediaFile" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "contentHash" TEXT NOT NULL,
    "byteLength" BIGINT NOT NULL,
    "container" TEXT NOT NULL,
    "codec" TEXT NOT NULL,
    "widthPx" INTEGER NOT NULL,
    "heightPx" INTEGER NOT NULL,
    "rotationDeg" INTEGER NOT NULL,
    "durationS" DOUBLE PRECISION NOT NULL,
    "hasSound" BOOLEAN NOT NULL,
    "originalKey" TEXT NOT NULL,
    "steppingKey" TEXT NOT NULL,
    "posterKey" TEXT NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "MediaFile_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "FileFrameTimes" (
    "academyId" UUID NOT NULL,
    "fileId" UUID NOT NULL,
    "timeBaseNum" INTEGER NOT NULL,
    "timeBaseDen" INTEGER NOT NULL,
    "frameCount" INTEGER NOT NULL,
    "packedTicks" BYTEA NOT NULL,

    CONSTRAINT "FileFrameTimes_pkey" PRIMARY KEY ("academyId","fileId")
);

-- CreateTable
CREATE TABLE "Upload" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "userId" UUID NOT NULL,
    "facts" JSONB NOT NULL,
    "byteLength" BIGINT NOT NULL,
    "state" TEXT NOT NULL,
    "refusal" TEXT,
    "wasKnown" BOOLEAN NOT NULL DEFAULT false,
    "contentHash" TEXT,
    "fileId" UUID,
    "clipId" UUID,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "finishedAt" TIMESTAMPTZ(3),
    "dismissedAt" TIMESTAMPTZ(3),

    CONSTRAINT "Upload_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Swing" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "side" TEXT NOT NULL,
    "swingKind" TEXT NOT NULL,
    "task" TEXT NOT NULL,
    "effort" TEXT NOT NULL,
    "pitchHeight" TEXT NOT NULL,
    "pitchSide" TEXT NOT NULL,
    "pitchSpeed" TEXT NOT NULL,
    "batClass" TEXT NOT NULL,
    "filmedOn" DATE NOT NULL,
    "createdById" UUID NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "Swing_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Clip" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "swingId" UUID NOT NULL,
    "fileId" UUID NOT NULL,
    "firstFrame" INTEGER NOT NULL,
    "lastFrame" INTEGER NOT NULL,
    "view" TEXT NOT NULL,
    "isMirrored" BOOLEAN NOT NULL,
    "realSecondsPerFileSecond" DOUBLE PRECISION NOT NULL,
    "timeBasis" TEXT NOT NULL,
    "hasCameraMoved" BOOLEAN NOT NULL DEFAULT false,
    "hasCameraZoomed" BOOLEAN NOT NULL DEFAULT false,
    "isStabilised" BOOLEAN NOT NULL DEFAULT false,
    "cameraOffDeg" DOUBLE PRECISION,
    "createdById" UUID NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "Clip_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "SwingEvent" (
    "academyId" UUID NOT NULL,
    "swingId" UUID NOT NULL,
    "event" TEXT NOT NULL,
    "source" TEXT NOT NULL,
    "clipId" UUID NOT NULL,
    "frameIndex" INTEGER NOT NULL,
    "tick" BIGINT NOT NULL,
    "sdSeconds" DOUBLE PRECISION,
    "setById" UUID,
    "setAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "SwingEvent_pkey" PRIMARY KEY ("academyId","swingId","event","source")
);

-- CreateTable
CREATE TABLE "ClipPoint" (
    "academyId" UUID NOT NULL,
    "clipId" UUID NOT NULL,
    "frameIndex" INTEGER NOT NULL,
    "point" TEXT NOT NULL,
    "source" TEXT NOT NULL,
    "xPx" DOUBLE PRECISION NOT NULL,
    "yPx" DOUBLE PRECISION NOT NULL,
    "setById" UUID,
    "setAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "ClipPoint_pkey" PRIMARY KEY ("academyId","clipId","frameIndex","point","source")
);

-- CreateTable
CREATE TABLE "Mark" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "clipId" UUID NOT NULL,
    "frameIndex" INTEGER NOT NULL,
    "shape" JSONB NOT NULL,
    "createdById" UUID NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" TIMESTAMPTZ(3),

    CONSTRAINT "Mark_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "MediaRead" (
    "academyId" UUID NOT NULL,
    "sessionId" UUID NOT NULL,
    "clipId" UUID NOT NULL,
    "quarter" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "MediaRead_pkey" PRIMARY KEY ("academyId","sessionId","clipId","quarter")
);

-- CreateTable
CREATE TABLE "Academy" (
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "timeZone" TEXT NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "Academy_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "User" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "displayName" TEXT NOT NULL,
    "email" CITEXT,
    "userName" CITEXT,
    "passwordHash" TEXT,
    "deactivatedAt" TIMESTAMPTZ(3),
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "User_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "RoleGrant" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "userId" UUID NOT NULL,
    "role" TEXT NOT NULL,
    "from" DATE NOT NULL,
    "until" DATE,

    CONSTRAINT "RoleGrant_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Session" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "userId" UUID NOT NULL,
    "activeRole" TEXT NOT NULL,
    "device" TEXT NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expiresAt" TIMESTAMPTZ(3) NOT NULL,
    "revokedAt" TIMESTAMPTZ(3),

    CONSTRAINT "Session_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "SignInLink" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "userId" UUID NOT NULL,
    "purpose" TEXT NOT NULL,
    "secretHash" TEXT NOT NULL,
    "expiresAt" TIMESTAMPTZ(3) NOT NULL,
    "usedAt" TIMESTAMPTZ(3),
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "SignInLink_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "LibraryPart" (
    "academyId" UUID NOT NULL,
    "id" TEXT NOT NULL,
    "body" JSONB NOT NULL,

    CONSTRAINT "LibraryPart_pkey" PRIMARY KEY ("academyId","id")
);

-- CreateTable
CREATE TABLE "Fault" (
    "academyId" UUID NOT NULL,
    "id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "area" TEXT NOT NULL,
    "phase" TEXT NOT NULL,
    "sport" TEXT NOT NULL,
    "onlyFor" TEXT,
    "body" JSONB NOT NULL,
    "retiredAt" TIMESTAMPTZ(3),

    CONSTRAINT "Fault_pkey" PRIMARY KEY ("academyId","id")
);

-- CreateTable
CREATE TABLE "FaultName" (
    "academyId" UUID NOT NULL,
    "faultId" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "isMain" BOOLEAN NOT NULL,
    "searchText" TEXT NOT NULL,

    CONSTRAINT "FaultName_pkey" PRIMARY KEY ("academyId","faultId","name")
);

-- CreateTable
CREATE TABLE "FaultCue" (
    "academyId" UUID NOT NULL,
    "faultId" TEXT NOT NULL,
    "position" INTEGER NOT NULL,
    "text" TEXT NOT NULL,
    "focus" TEXT NOT NULL,

    CONSTRAINT "FaultCue_pkey" PRIMARY KEY ("academyId","faultId","position")
);

-- CreateTable
CREATE TABLE "Checkpoint" (
    "academyId" UUID NOT NULL,
    "id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "area" TEXT NOT NULL,
    "phase" TEXT NOT NULL,
    "formulaId" TEXT NOT NULL,
    "formulaVersion" INTEGER NOT NULL,
    "isMeasured" BOOLEAN NOT NULL,
    "body" JSONB NOT NULL,

    CONSTRAINT "Checkpoint_pkey" PRIMARY KEY ("academyId","id")
);

-- CreateTable
CREATE TABLE "FaultCheckpoint" (
    "academyId" UUID NOT NULL,
    "faultId" TEXT NOT NULL,
    "checkpointId" TEXT NOT NULL,
    "op" TEXT NOT NULL,
    "value" DOUBLE PRECISION NOT NULL,
    "valueYouth" DOUBLE PRECISION,
    "weight" DOUBLE PRECISION NOT NULL,
    "body" JSONB NOT NULL,

    CONSTRAINT "FaultCheckpoint_pkey" PRIMARY KEY ("academyId","faultId","checkpointId","op")
);

-- CreateTable
CREATE TABLE "Symptom" (
    "academyId" UUID NOT NULL,
    "id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "onlyFor" TEXT,

    CONSTRAINT "Symptom_pkey" PRIMARY KEY ("academyId","id")
);

-- CreateTable
CREATE TABLE "FaultSymptom" (
    "academyId" UUID NOT NULL,
    "faultId" TEXT NOT NULL,
    "symptomId" TEXT NOT NULL,
    "judgement" DOUBLE PRECISION NOT NULL,
    "strength" DOUBLE PRECISION NOT NULL,

    CONSTRAINT "FaultSymptom_pkey" PRIMARY KEY ("academyId","faultId","symptomId")
);

-- CreateTable
CREATE TABLE "CauseNode" (
    "academyId" UUID NOT NULL,
    "id" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "onlyFor" TEXT,
    "body" JSONB NOT NULL,

    CONSTRAINT "CauseNode_pkey" PRIMARY KEY ("academyId","id")
);

-- CreateTable
CREATE TABLE "CauseEdge" (
    "academyId" UUID NOT NULL,
    "id" TEXT NOT NULL,
    "causeId" TEXT NOT NULL,
    "effectId" TEXT NOT NULL,
    "judgement" DOUBLE PRECISION NOT NULL,
    "strength" DOUBLE PRECISION NOT NULL,
    "mechanism" TEXT NOT NULL,

    CONSTRAINT "CauseEdge_pkey" PRIMARY KEY ("academyId","id")
);

-- CreateTable
CREATE TABLE "Drill" (
    "academyId" UUID NOT NULL,
    "id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "sport" TEXT NOT NULL,
    "setup" TEXT NOT NULL,
    "minAge" INTEGER NOT NULL,
    "onlyFor" TEXT,
    "body" JSONB NOT NULL,
    "retiredAt" TIMESTAMPTZ(3),

    CONSTRAINT "Drill_pkey" PRIMARY KEY ("academyId","id")
);

-- CreateTable
CREATE TABLE "DrillFault" (
    "academyId" UUID NOT NULL,
    "drillId" TEXT NOT NULL,
    "faultId" TEXT NOT NULL,
    "effect" DOUBLE PRECISION NOT NULL,
    "role" TEXT NOT NULL,

    CONSTRAINT "DrillFault_pkey" PRIMARY KEY ("academyId","drillId","faultId")
);

-- CreateTable
CREATE TABLE "Edition" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "number" INTEGER NOT NULL,
    "contentHash" TEXT NOT NULL,
    "snapshot" JSONB NOT NULL,
    "summary" TEXT NOT NULL,
    "approvedById" UUID,
    "approvedAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "Edition_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Proposal" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "recordId" TEXT NOT NULL,
    "patch" JSONB NOT NULL,
    "reason" TEXT NOT NULL,
    "baseEditionId" UUID NOT NULL,
    "proposedById" UUID NOT NULL,
    "proposedAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "state" TEXT NOT NULL,
    "decidedById" UUID,
    "decidedAt" TIMESTAMPTZ(3),
    "decisionWords" TEXT,
    "editionId" UUID,

    CONSTRAINT "Proposal_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Reading" (
    "academyId" UUID NOT NULL,
    "clipId" UUID NOT NULL,
    "swingId" UUID NOT NULL,
    "checkpointId" TEXT NOT NULL,
    "formulaId" TEXT NOT NULL,
    "formulaVersion" INTEGER NOT NULL,
    "editionId" UUID NOT NULL,
    "inputsHash" TEXT NOT NULL,
    "value" DOUBLE PRECISION,
    "sd" DOUBLE PRECISION,
    "verdict" TEXT,
    "isGrey" BOOLEAN NOT NULL,
    "body" JSONB NOT NULL,
    "computedAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "Reading_pkey" PRIMARY KEY ("academyId","clipId","checkpointId")
);

-- CreateTable
CREATE TABLE "Observation" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "swingId" UUID NOT NULL,
    "faultId" TEXT NOT NULL,
    "state" TEXT NOT NULL,
    "source" TEXT NOT NULL,
    "clipId" UUID,
    "frameIndex" INTEGER,
    "reading" JSONB,
    "editionId" UUID NOT NULL,
    "calledById" UUID NOT NULL,
    "calledAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "replacedAt" TIMESTAMPTZ(3),

    CONSTRAINT "Observation_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "CauseAnswer" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "side" TEXT NOT NULL,
    "nodeId" TEXT NOT NULL,
    "isPresent" BOOLEAN NOT NULL,
    "answeredById" UUID NOT NULL,
    "answeredAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "replacedAt" TIMESTAMPTZ(3),

    CONSTRAINT "CauseAnswer_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "RankingRun" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "side" TEXT NOT NULL,
    "editionId" UUID NOT NULL,
    "engineVersion" TEXT NOT NULL,
    "input" JSONB NOT NULL,
    "output" JSONB NOT NULL,
    "ranById" UUID NOT NULL,
    "ranAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "RankingRun_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Overrule" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "side" TEXT NOT NULL,
    "faultId" TEXT NOT NULL,
    "reason" TEXT NOT NULL,
    "rankingRunId" UUID NOT NULL,
    "byId" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "undoneAt" TIMESTAMPTZ(3),

    CONSTRAINT "Overrule_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Focus" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "side" TEXT NOT NULL,
    "faultId" TEXT NOT NULL,
    "slot" INTEGER,
    "state" TEXT NOT NULL,
    "editionId" UUID NOT NULL,
    "rankingRunId" UUID,
    "chosenById" UUID NOT NULL,
    "chosenAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "changedAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "Focus_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Plan" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "side" TEXT NOT NULL,
    "focusId" UUID NOT NULL,
    "editionId" UUID NOT NULL,
    "level" TEXT NOT NULL,
    "minutesPerDay" INTEGER NOT NULL,
    "daysPerWeek" INTEGER NOT NULL,
    "startsOn" DATE NOT NULL,
    "endsOn" DATE NOT NULL,
    "cue" TEXT NOT NULL,
    "state" TEXT NOT NULL,
    "createdById" UUID NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "sentAt" TIMESTAMPTZ(3),

    CONSTRAINT "Plan_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "PlanDrill" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "planId" UUID NOT NULL,
    "position" INTEGER NOT NULL,
    "drillId" TEXT NOT NULL,
    "words" JSONB NOT NULL,
    "why" TEXT NOT NULL,
    "timesPerDay" INTEGER NOT NULL,
    "swingsPerDay" INTEGER NOT NULL,
    "minutesPerDay" INTEGER NOT NULL,

    CONSTRAINT "PlanDrill_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Note" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "side" TEXT NOT NULL,
    "planId" UUID NOT NULL,
    "authorId" UUID NOT NULL,
    "keptWell" TEXT NOT NULL,
    "oneThing" TEXT NOT NULL,
    "why" TEXT NOT NULL,
    "cue" TEXT NOT NULL,
    "forFamily" TEXT NOT NULL,
    "nextCheckOn" DATE NOT NULL,
    "clipId" UUID,
    "frameIndex" INTEGER,
    "marks" JSONB NOT NULL,
    "editionId" UUID NOT NULL,
    "sentAt" TIMESTAMPTZ(3),
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "Note_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "PrivateNote" (
    "academyId" UUID NOT NULL,
    "noteId" UUID NOT NULL,
    "words" TEXT NOT NULL,

    CONSTRAINT "PrivateNote_pkey" PRIMARY KEY ("academyId","noteId")
);

-- CreateTable
CREATE TABLE "PracticeLog" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "planDrillId" UUID NOT NULL,
    "day" DATE NOT NULL,
    "times" INTEGER NOT NULL,
    "swings" INTEGER NOT NULL,
    "loggedById" UUID NOT NULL,
    "loggedAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "correctsId" UUID,

    CONSTRAINT "PracticeLog_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Location" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "timeZone" TEXT NOT NULL,

    CONSTRAINT "Location_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Player" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "locationId" UUID NOT NULL,
    "userId" UUID,
    "givenName" TEXT NOT NULL,
    "familyName" TEXT NOT NULL,
    "birthDate" DATE NOT NULL,
    "sport" TEXT NOT NULL,
    "bats" TEXT NOT NULL,
    "heightM" DOUBLE PRECISION,
    "hasLeftSchool" BOOLEAN NOT NULL DEFAULT false,
    "leftAt" TIMESTAMPTZ(3),
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "Player_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "BattingSide" (
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "side" TEXT NOT NULL,
    "isSlapper" BOOLEAN NOT NULL DEFAULT false,

    CONSTRAINT "BattingSide_pkey" PRIMARY KEY ("academyId","playerId","side")
);

-- CreateTable
CREATE TABLE "Guardianship" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "userId" UUID NOT NULL,
    "relation" TEXT NOT NULL,
    "from" DATE NOT NULL,
    "until" DATE,

    CONSTRAINT "Guardianship_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Assignment" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "userId" UUID NOT NULL,
    "from" DATE NOT NULL,
    "until" DATE,

    CONSTRAINT "Assignment_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Consent" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "use" TEXT NOT NULL,
    "givenById" UUID,
    "recordedById" UUID NOT NULL,
    "method" TEXT NOT NULL,
    "wordsVersion" TEXT NOT NULL,
    "givenOn" DATE NOT NULL,
    "validUntil" DATE NOT NULL,
    "withdrawnAt" TIMESTAMPTZ(3),

    CONSTRAINT "Consent_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Permit" (
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "use" TEXT NOT NULL,
    "validUntil" DATE NOT NULL,

    CONSTRAINT "Permit_pkey" PRIMARY KEY ("academyId","playerId","use")
);

-- CreateTable
CREATE TABLE "Complaint" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "part" TEXT NOT NULL,
    "since" DATE NOT NULL,
    "until" DATE,
    "recordedById" UUID NOT NULL,

    CONSTRAINT "Complaint_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "PainReport" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "part" TEXT NOT NULL,
    "level" INTEGER NOT NULL,
    "words" TEXT NOT NULL,
    "reportedById" UUID NOT NULL,
    "reportedAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "PainReport_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Pause" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "painReportId" UUID NOT NULL,
    "startedAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "coachClearedAt" TIMESTAMPTZ(3),
    "coachClearedById" UUID,
    "familyClearedAt" TIMESTAMPTZ(3),
    "familyClearedById" UUID,
    "endedAt" TIMESTAMPTZ(3),

    CONSTRAINT "Pause_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "HomeSetup" (
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "gear" TEXT[],
    "widthM" DOUBLE PRECISION NOT NULL,
    "lengthM" DOUBLE PRECISION NOT NULL,
    "hasCage" BOOLEAN NOT NULL,
    "partnerCount" INTEGER NOT NULL,
    "adult" TEXT NOT NULL,
    "minutesPerDay" INTEGER NOT NULL,
    "daysPerWeek" INTEGER NOT NULL,
    "updatedAt" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "HomeSetup_pkey" PRIMARY KEY ("academyId","playerId")
);

-- CreateTable
CREATE TABLE "Notice" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "userId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "subjectId" UUID NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "readAt" TIMESTAMPTZ(3),

    CONSTRAINT "Notice_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "AuditEntry_academyId_at_id_idx" ON "AuditEntry"("academyId", "at" DESC, "id");

-- CreateIndex
CREATE UNIQUE INDEX "MediaFile_academyId_id_key" ON "MediaFile"("academyId", "id");

-- CreateIndex
CREATE UNIQUE INDEX "MediaFile_academyId_contentHash_key" ON "MediaFile"("academyId", "contentHash");

-- CreateIndex
CREATE INDEX "Upload_academyId_playerId_createdAt_idx" ON "Upload"("academyId", "playerId", "createdAt" DESC);

-- CreateIndex
CREATE UNIQUE INDEX "Upload_academyId_id_key" ON "Upload"("academyId", "id");

-- CreateIndex
CREATE INDEX "Swing_academyId_playerId_side_filmedOn_id_idx" ON "Swing"("academyId", "playerId", "side", "filmedOn" DESC, "id");

-- CreateIndex
CREATE UNIQUE INDEX "Swing_academyId_id_key" ON "Swing"("academyId", "id");

-- CreateIndex
CREATE INDEX "Clip_academyId_playerId_createdAt_idx" ON "Clip"("academyId", "playerId", "createdAt" DESC);

-- CreateIndex
CREATE UNIQUE INDEX "Clip_academyId_id_key" ON "Clip"("academyId", "id");

-- CreateIndex
CREATE INDEX "Mark_academyId_clipId_frameIndex_idx" ON "Mark"("academyId", "clipId", "frameIndex");

-- CreateIndex
CREATE UNIQUE INDEX "Mark_academyId_id_key" ON "Mark"("academyId", "id");

-- CreateIndex
CREATE INDEX "MediaRead_academyId_clipId_idx" ON "MediaRead"("academyId", "clipId");

-- CreateIndex
CREATE UNIQUE INDEX "User_email_key" ON "User"("email");

-- CreateIndex
CREATE UNIQUE INDEX "User_userName_key" ON "User"("userName");

-- CreateIndex
CREATE UNIQUE INDEX "User_academyId_id_key" ON "User"("academyId", "id");

-- CreateIndex
CREATE INDEX "RoleGrant_academyId_userId_idx" ON "RoleGrant"("academyId", "userId");

-- CreateIndex
CREATE INDEX "Session_academyId_userId_idx" ON "Session"("academyId", "userId");

-- CreateIndex
CREATE UNIQUE INDEX "SignInLink_secretHash_key" ON "SignInLink"("secretHash");

-- CreateIndex
CREATE UNIQUE INDEX "CauseEdge_academyId_causeId_effectId_key" ON "CauseEdge"("academyId", "causeId", "effectId");

-- CreateIndex
CREATE UNIQUE INDEX "Edition_academyId_id_key" ON "Edition"("academyId", "id");

-- CreateIndex
CREATE UNIQUE INDEX "Edition_academyId_number_key" ON "Edition"("academyId", "number");

-- CreateIndex
CREATE INDEX "Proposal_academyId_state_proposedAt_idx" ON "Proposal"("academyId", "state", "proposedAt");

-- CreateIndex
CREATE UNIQUE INDEX "Proposal_academyId_id_key" ON "Proposal"("academyId", "id");

-- CreateIndex
CREATE INDEX "Reading_academyId_swingId_idx" ON "Reading"("academyId", "swingId");

-- CreateIndex
CREATE INDEX "Observation_academyId_swingId_idx" ON "Observation"("academyId", "swingId");

-- CreateIndex
CREATE UNIQUE INDEX "Observation_academyId_id_key" ON "Observation"("academyId", "id");

-- CreateIndex
CREATE INDEX "CauseAnswer_academyId_playerId_side_idx" ON "CauseAnswer"("academyId", "playerId", "side");

-- CreateIndex
CREATE INDEX "RankingRun_academyId_playerId_side_ranAt_idx" ON "RankingRun"("academyId", "playerId", "side", "ranAt" DESC);

-- CreateIndex
CREATE UNIQUE INDEX "RankingRun_academyId_id_key" ON "RankingRun"("academyId", "id");

-- CreateIndex
CREATE INDEX "Overrule_academyId_playerId_side_idx" ON "Overrule"("academyId", "playerId", "side");

-- CreateIndex
CREATE UNIQUE INDEX "Overrule_academyId_id_key" ON "Overrule"("academyId", "id");

-- CreateIndex
CREATE INDEX "Focus_academyId_playerId_side_state_idx" ON "Focus"("academyId", "playerId", "side", "state");

-- CreateIndex
CREATE UNIQUE INDEX "Focus_academyId_id_key" ON "Focus"("academyId", "id");

-- CreateIndex
CREATE INDEX "Plan_academyId_playerId_side_state_idx" ON "Plan"("academyId", "playerId", "side", "state");

-- CreateIndex
CREATE UNIQUE INDEX "Plan_academyId_id_key" ON "Plan"("academyId", "id");

-- CreateIndex
CREATE UNIQUE INDEX "PlanDrill_academyId_id_key" ON "PlanDrill"("academyId", "id");

-- CreateIndex
CREATE UNIQUE INDEX "PlanDrill_academyId_planId_drillId_key" ON "PlanDrill"("academyId", "planId", "drillId");

-- CreateIndex
CREATE UNIQUE INDEX "Note_planId_key" ON "Note"("planId");

-- CreateIndex
CREATE INDEX "Note_academyId_playerId_sentAt_idx" ON "Note"("academyId", "playerId", "sentAt" DESC);

-- CreateIndex
CREATE UNIQUE INDEX "Note_academyId_id_key" ON "Note"("academyId", "id");

-- CreateIndex
CREATE UNIQUE INDEX "Note_academyId_planId_key" ON "Note"("academyId", "planId");

-- CreateIndex
CREATE INDEX "PracticeLog_academyId_playerId_day_idx" ON "PracticeLog"("academyId", "playerId", "day");

-- CreateIndex
CREATE UNIQUE INDEX "PracticeLog_academyId_id_key" ON "PracticeLog"("academyId", "id");

-- CreateIndex
CREATE UNIQUE INDEX "Location_academyId_id_key" ON "Location"("academyId", "id");

-- CreateIndex
CREATE UNIQUE INDEX "Player_userId_key" ON "Player"("userId");

-- CreateIndex
CREATE INDEX "Player_academyId_familyName_givenName_id_idx" ON "Player"("academyId", "familyName", "givenName", "id");

-- CreateIndex
CREATE UNIQUE INDEX "Player_academyId_id_key" ON "Player"("academyId", "id");

-- CreateIndex
CREATE UNIQUE INDEX "Player_academyId_userId_key" ON "Player"("academyId", "userId");

-- CreateIndex
CREATE INDEX "Guardianship_academyId_playerId_idx" ON "Guardianship"("academyId", "playerId");

-- CreateIndex
CREATE INDEX "Guardianship_academyId_userId_idx" ON "Guardianship"("academyId", "userId");

-- CreateIndex
CREATE INDEX "Assignment_academyId_playerId_idx" ON "Assignment"("academyId", "playerId");

-- CreateIndex
CREATE INDEX "Assignment_academyId_userId_idx" ON "Assignment"("academyId", "userId");

-- CreateIndex
CREATE INDEX "Consent_academyId_playerId_idx" ON "Consent"("academyId", "playerId");

-- CreateIndex
CREATE INDEX "Complaint_academyId_playerId_idx" ON "Complaint"("academyId", "playerId");

-- CreateIndex
CREATE INDEX "PainReport_academyId_playerId_idx" ON "PainReport"("academyId", "playerId");

-- CreateIndex
CREATE UNIQUE INDEX "PainReport_academyId_id_key" ON "PainReport"("academyId", "id");

-- CreateIndex
CREATE UNIQUE INDEX "Pause_painReportId_key" ON "Pause"("painReportId");

-- CreateIndex
CREATE INDEX "Pause_academyId_playerId_idx" ON "Pause"("academyId", "playerId");

-- CreateIndex
CREATE UNIQUE INDEX "Pause_academyId_painReportId_key" ON "Pause"("academyId", "painReportId");

-- CreateIndex
CREATE INDEX "Notice_academyId_userId_createdAt_idx" ON "Notice"("academyId", "userId", "createdAt" DESC);

-- CreateIndex
CREATE UNIQUE INDEX "Notice_academyId_userId_kind_subjectId_key" ON "Notice"("academyId", "userId", "kind", "subjectId");

-- AddForeignKey
ALTER TABLE "AuditEntry" ADD CONSTRAINT "AuditEntry_academyId_fkey" FOREIGN KEY ("academyId") REFERENCES "Academy"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "FileFrameTimes" ADD CONSTRAINT "FileFrameTimes_academyId_fileId_fkey" FOREIGN KEY ("academyId", "fileId") REFERENCES "MediaFile"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Upload" ADD CONSTRAINT "Upload_academyId_playerId_fkey" FOREIGN KEY ("academyId", "playerId") REFERENCES "Player"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Upload" ADD CONSTRAINT "Upload_academyId_fileId_fkey" FOREIGN KEY ("academyId", "fileId") REFERENCES "MediaFile"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Upload" ADD CONSTRAINT "Upload_academyId_clipId_fkey" FOREIGN KEY ("academyId", "clipId") REFERENCES "Clip"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Swing" ADD CONSTRAINT "Swing_academyId_playerId_fkey" FOREIGN KEY ("academyId", "playerId") REFERENCES "Player"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Clip" ADD CONSTRAINT "Clip_academyId_playerId_fkey" FOREIGN KEY ("academyId", "playerId") REFERENCES "Player"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Clip" ADD CONSTRAINT "Clip_academyId_swingId_fkey" FOREIGN KEY ("academyId", "swingId") REFERENCES "Swing"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Clip" ADD CONSTRAINT "Clip_academyId_fileId_fkey" FOREIGN KEY ("academyId", "fileId") REFERENCES "MediaFile"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "SwingEvent" ADD CONSTRAINT "SwingEvent_academyId_swingId_fkey" FOREIGN KEY ("academyId", "swingId") REFERENCES "Swing"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "SwingEvent" ADD CONSTRAINT "SwingEvent_academyId_clipId_fkey" FOREIGN KEY ("academyId", "clipId") REFERENCES "Clip"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "ClipPoint" ADD CONSTRAINT "ClipPoint_academyId_clipId_fkey" FOREIGN KEY ("academyId", "clipId") REFERENCES "Clip"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Mark" ADD CONSTRAINT "Mark_academyId_clipId_fkey" FOREIGN KEY ("academyId", "clipId") REFERENCES "Clip"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "MediaRead" ADD CONSTRAINT "MediaRead_academyId_clipId_fkey" FOREIGN KEY ("academyId", "clipId") REFERENCES "Clip"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "User" ADD CONSTRAINT "User_academyId_fkey" FOREIGN KEY ("academyId") REFERENCES "Academy"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "RoleGrant" ADD CONSTRAINT "RoleGrant_academyId_userId_fkey" FOREIGN KEY ("academyId", "userId") REFERENCES "User"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Session" ADD CONSTRAINT "Session_academyId_userId_fkey" FOREIGN KEY ("academyId", "userId") REFERENCES "User"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "SignInLink" ADD CONSTRAINT "SignInLink_academyId_userId_fkey" FOREIGN KEY ("academyId", "userId") REFERENCES "User"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "FaultName" ADD CONSTRAINT "FaultName_academyId_faultId_fkey" FOREIGN KEY ("academyId", "faultId") REFERENCES "Fault"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "FaultCue" ADD CONSTRAINT "FaultCue_academyId_faultId_fkey" FOREIGN KEY ("academyId", "faultId") REFERENCES "Fault"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "FaultCheckpoint" ADD CONSTRAINT "FaultCheckpoint_academyId_faultId_fkey" FOREIGN KEY ("academyId", "faultId") REFERENCES "Fault"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "FaultCheckpoint" ADD CONSTRAINT "FaultCheckpoint_academyId_checkpointId_fkey" FOREIGN KEY ("academyId", "checkpointId") REFERENCES "Checkpoint"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "FaultSymptom" ADD CONSTRAINT "FaultSymptom_academyId_faultId_fkey" FOREIGN KEY ("academyId", "faultId") REFERENCES "Fault"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "FaultSymptom" ADD CONSTRAINT "FaultSymptom_academyId_symptomId_fkey" FOREIGN KEY ("academyId", "symptomId") REFERENCES "Symptom"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "CauseEdge" ADD CONSTRAINT "CauseEdge_academyId_causeId_fkey" FOREIGN KEY ("academyId", "causeId") REFERENCES "CauseNode"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "CauseEdge" ADD CONSTRAINT "CauseEdge_academyId_effectId_fkey" FOREIGN KEY ("academyId", "effectId") REFERENCES "CauseNode"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "DrillFault" ADD CONSTRAINT "DrillFault_academyId_drillId_fkey" FOREIGN KEY ("academyId", "drillId") REFERENCES "Drill"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "DrillFault" ADD CONSTRAINT "DrillFault_academyId_faultId_fkey" FOREIGN KEY ("academyId", "faultId") REFERENCES "Fault"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Edition" ADD CONSTRAINT "Edition_academyId_fkey" FOREIGN KEY ("academyId") REFERENCES "Academy"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Proposal" ADD CONSTRAINT "Proposal_academyId_baseEditionId_fkey" FOREIGN KEY ("academyId", "baseEditionId") REFERENCES "Edition"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Proposal" ADD CONSTRAINT "Proposal_academyId_editionId_fkey" FOREIGN KEY ("academyId", "editionId") REFERENCES "Edition"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Reading" ADD CONSTRAINT "Reading_academyId_clipId_fkey" FOREIGN KEY ("academyId", "clipId") REFERENCES "Clip"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Reading" ADD CONSTRAINT "Reading_academyId_swingId_fkey" FOREIGN KEY ("academyId", "swingId") REFERENCES "Swing"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Observation" ADD CONSTRAINT "Observation_academyId_swingId_fkey" FOREIGN KEY ("academyId", "swingId") REFERENCES "Swing"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "CauseAnswer" ADD CONSTRAINT "CauseAnswer_academyId_playerId_side_fkey" FOREIGN KEY ("academyId", "playerId", "side") REFERENCES "BattingSide"("academyId", "playerId", "side") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "RankingRun" ADD CONSTRAINT "RankingRun_academyId_playerId_side_fkey" FOREIGN KEY ("academyId", "playerId", "side") REFERENCES "BattingSide"("academyId", "playerId", "side") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Overrule" ADD CONSTRAINT "Overrule_academyId_playerId_side_fkey" FOREIGN KEY ("academyId", "playerId", "side") REFERENCES "BattingSide"("academyId", "playerId", "side") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Overrule" ADD CONSTRAINT "Overrule_academyId_rankingRunId_fkey" FOREIGN KEY ("academyId", "rankingRunId") REFERENCES "RankingRun"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Focus" ADD CONSTRAINT "Focus_academyId_playerId_side_fkey" FOREIGN KEY ("academyId", "playerId", "side") REFERENCES "BattingSide"("academyId", "playerId", "side") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Focus" ADD CONSTRAINT "Focus_academyId_rankingRunId_fkey" FOREIGN KEY ("academyId", "rankingRunId") REFERENCES "RankingRun"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Plan" ADD CONSTRAINT "Plan_academyId_playerId_side_fkey" FOREIGN KEY ("academyId", "playerId", "side") REFERENCES "BattingSide"("academyId", "playerId", "side") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Plan" ADD CONSTRAINT "Plan_academyId_focusId_fkey" FOREIGN KEY ("academyId", "focusId") REFERENCES "Focus"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "PlanDrill" ADD CONSTRAINT "PlanDrill_academyId_planId_fkey" FOREIGN KEY ("academyId", "planId") REFERENCES "Plan"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Note" ADD CONSTRAINT "Note_academyId_playerId_side_fkey" FOREIGN KEY ("academyId", "playerId", "side") REFERENCES "BattingSide"("academyId", "playerId", "side") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Note" ADD CONSTRAINT "Note_academyId_planId_fkey" FOREIGN KEY ("academyId", "planId") REFERENCES "Plan"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Note" ADD CONSTRAINT "Note_academyId_clipId_fkey" FOREIGN KEY ("academyId", "clipId") REFERENCES "Clip"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "PrivateNote" ADD CONSTRAINT "PrivateNote_academyId_noteId_fkey" FOREIGN KEY ("academyId", "noteId") REFERENCES "Note"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "PracticeLog" ADD CONSTRAINT "PracticeLog_academyId_planDrillId_fkey" FOREIGN KEY ("academyId", "planDrillId") REFERENCES "PlanDrill"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "PracticeLog" ADD CONSTRAINT "PracticeLog_academyId_correctsId_fkey" FOREIGN KEY ("academyId", "correctsId") REFERENCES "PracticeLog"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Location" ADD CONSTRAINT "Location_academyId_fkey" FOREIGN KEY ("academyId") REFERENCES "Academy"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Player" ADD CONSTRAINT "Player_academyId_locationId_fkey" FOREIGN KEY ("academyId", "locationId") REFERENCES "Location"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Player" ADD CONSTRAINT "Player_academyId_userId_fkey" FOREIGN KEY ("academyId", "userId") REFERENCES "User"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "BattingSide" ADD CONSTRAINT "BattingSide_academyId_playerId_fkey" FOREIGN KEY ("academyId", "playerId") REFERENCES "Player"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Guardianship" ADD CONSTRAINT "Guardianship_academyId_playerId_fkey" FOREIGN KEY ("academyId", "playerId") REFERENCES "Player"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Guardianship" ADD CONSTRAINT "Guardianship_academyId_userId_fkey" FOREIGN KEY ("academyId", "userId") REFERENCES "User"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Assignment" ADD CONSTRAINT "Assignment_academyId_playerId_fkey" FOREIGN KEY ("academyId", "playerId") REFERENCES "Player"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Assignment" ADD CONSTRAINT "Assignment_academyId_userId_fkey" FOREIGN KEY ("academyId", "userId") REFERENCES "User"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Consent" ADD CONSTRAINT "Consent_academyId_playerId_fkey" FOREIGN KEY ("academyId", "playerId") REFERENCES "Player"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Permit" ADD CONSTRAINT "Permit_academyId_playerId_fkey" FOREIGN KEY ("academyId", "playerId") REFERENCES "Player"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Complaint" ADD CONSTRAINT "Complaint_academyId_playerId_fkey" FOREIGN KEY ("academyId", "playerId") REFERENCES "Player"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "PainReport" ADD CONSTRAINT "PainReport_academyId_playerId_fkey" FOREIGN KEY ("academyId", "playerId") REFERENCES "Player"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Pause" ADD CONSTRAINT "Pause_academyId_playerId_fkey" FOREIGN KEY ("academyId", "playerId") REFERENCES "Player"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Pause" ADD CONSTRAINT "Pause_academyId_painReportId_fkey" FOREIGN KEY ("academyId", "painReportId") REFERENCES "PainReport"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "HomeSetup" ADD CONSTRAINT "HomeSetup_academyId_playerId_fkey" FOREIGN KEY ("academyId", "playerId") REFERENCES "Player"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Notice" ADD CONSTRAINT "Notice_academyId_userId_fkey" FOREIGN KEY ("academyId", "userId") REFERENCES "User"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "Notice" ADD CONSTRAINT "Notice_academyId_playerId_fkey" FOREIGN KEY ("academyId", "playerId") REFERENCES "Player"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;


