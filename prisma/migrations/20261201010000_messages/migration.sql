-- Messages: one thread a player, who is in it, what was written, and from when to when messages go out.
CREATE TABLE "MessageThread" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "playerId" UUID NOT NULL,
    "startedAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "settledAt" TIMESTAMPTZ(3),
    CONSTRAINT "MessageThread_pkey" PRIMARY KEY ("id")
);
CREATE TABLE "ThreadPerson" (
    "academyId" UUID NOT NULL,
    "threadId" UUID NOT NULL,
    "userId" UUID NOT NULL,
    "part" TEXT NOT NULL CHECK ("part" IN ('coach', 'player', 'guardian')),
    "joinedAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "leftAt" TIMESTAMPTZ(3),
    CONSTRAINT "ThreadPerson_pkey" PRIMARY KEY ("academyId", "threadId", "userId", "part")
);
CREATE TABLE "Message" (
    "id" UUID NOT NULL,
    "academyId" UUID NOT NULL,
    "threadId" UUID NOT NULL,
    "authorId" UUID NOT NULL,
    "authorPart" TEXT NOT NULL,
    "words" TEXT NOT NULL CHECK (char_length("words") BETWEEN 1 AND 2000),
    "writtenAt" TIMESTAMPTZ(3) NOT NULL,
    "dueAt" TIMESTAMPTZ(3) NOT NULL CHECK ("dueAt" >= "writtenAt"),
    "goneAt" TIMESTAMPTZ(3),
    "rungAt" TIMESTAMPTZ(3),
    "takenBackAt" TIMESTAMPTZ(3),
    CONSTRAINT "Message_pkey" PRIMARY KEY ("id"),
    -- Only what a coach writes is ever held, and only what was held is taken back.
    CONSTRAINT "Message_held" CHECK ("authorPart" = 'coach' OR "goneAt" IS NOT NULL),
    CONSTRAINT "Message_gone_or_taken_back" CHECK ("goneAt" IS NULL OR "takenBackAt" IS NULL)
);
CREATE TABLE "ContactHours" (
    "academyId" UUID NOT NULL,
    "locationId" UUID NOT NULL,
    "opensHour" INTEGER NOT NULL,
    "closesHour" INTEGER NOT NULL,
    "changedById" UUID NOT NULL,
    "changedAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    CONSTRAINT "ContactHours_pkey" PRIMARY KEY ("academyId", "locationId"),
    CONSTRAINT "ContactHours_span" CHECK ("opensHour" >= 0 AND "closesHour" <= 24 AND "opensHour" < "closesHour")
);

CREATE UNIQUE INDEX "MessageThread_academyId_id_key" ON "MessageThread" ("academyId", "id");
CREATE UNIQUE INDEX "MessageThread_academyId_playerId_key" ON "MessageThread" ("academyId", "playerId");
CREATE INDEX "ThreadPerson_academyId_userId_idx" ON "ThreadPerson" ("academyId", "userId");
CREATE UNIQUE INDEX "Message_academyId_id_key" ON "Message" ("academyId", "id");
CREATE INDEX "Message_academyId_threadId_writtenAt_id_idx" ON "Message" ("academyId", "threadId", "writtenAt" DESC, "id");
CREATE INDEX "Message_waits" ON "Message" ("dueAt") WHERE "rungAt" IS NULL AND "takenBackAt" IS NULL;

ALTER TABLE "MessageThread" ADD CONSTRAINT "MessageThread_academyId_playerId_fkey" FOREIGN KEY ("academyId", "playerId") REFERENCES "Player"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "ThreadPerson" ADD CONSTRAINT "ThreadPerson_academyId_threadId_fkey" FOREIGN KEY ("academyId", "threadId") REFERENCES "MessageThread"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "ThreadPerson" ADD CONSTRAINT "ThreadPerson_academyId_userId_fkey" FOREIGN KEY ("academyId", "userId") REFERENCES "User"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "Message" ADD CONSTRAINT "Message_academyId_threadId_fkey" FOREIGN KEY ("academyId", "threadId") REFERENCES "MessageThread"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "Message" ADD CONSTRAINT "Message_academyId_threadId_authorId_authorPart_fkey" FOREIGN KEY ("academyId", "threadId", "authorId", "authorPart") REFERENCES "ThreadPerson"("academyId", "threadId", "userId", "part") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "ContactHours" ADD CONSTRAINT "ContactHours_academyId_locationId_fkey" FOREIGN KEY ("academyId", "locationId") REFERENCES "Location"("academyId", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- A birthday is completed on its day, that of 29 February on 1 March where there is no 29th (as lib/core/age.ts counts).
CREATE FUNCTION is_minor_on("birthDate" date, "day" date) RETURNS boolean LANGUAGE sql IMMUTABLE AS $$
  SELECT extract(year FROM age("day", "birthDate")) < 18
$$;

-- No message stands in, or goes out to, the thread of a minor without a guardian in it, and nobody writes who is not in it. Looked at when
-- the transaction ends, so that the order within it does not matter. A later stamp makes nobody of age.
CREATE FUNCTION keep_guardian_in_thread() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
  known record;
  moment timestamptz := COALESCE(NEW."goneAt", NEW."writtenAt");
  today date;
BEGIN
  SELECT p."id", p."userId", p."birthDate", l."timeZone" AS "placeZone", a."timeZone" AS "houseZone" INTO known
    FROM "MessageThread" t
    JOIN "Player" p ON p."academyId" = t."academyId" AND p."id" = t."playerId"
    JOIN "Location" l ON l."academyId" = p."academyId" AND l."id" = p."locationId"
    JOIN "Academy" a ON a."id" = p."academyId"
    WHERE t."academyId" = NEW."academyId" AND t."id" = NEW."threadId";
  today := (moment AT TIME ZONE known."houseZone")::date;
  IF TG_OP = 'INSERT' AND NOT EXISTS (
    SELECT 1 FROM "ThreadPerson" w
    WHERE w."academyId" = NEW."academyId" AND w."threadId" = NEW."threadId" AND w."userId" = NEW."authorId" AND w."part" = NEW."authorPart" AND w."leftAt" IS NULL
  ) THEN
    RAISE EXCEPTION 'who writes a message is in its thread' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  IF is_minor_on(known."birthDate", (LEAST(moment, now()) AT TIME ZONE known."placeZone")::date) AND NOT EXISTS (
    SELECT 1 FROM "ThreadPerson" w
    JOIN "Guardianship" g ON g."academyId" = w."academyId" AND g."userId" = w."userId" AND g."playerId" = known."id"
    JOIN "User" u ON u."id" = w."userId" AND u."deactivatedAt" IS NULL
    JOIN "RoleGrant" r ON r."academyId" = w."academyId" AND r."userId" = w."userId" AND r."role" = 'guardian'
    WHERE w."academyId" = NEW."academyId" AND w."threadId" = NEW."threadId" AND w."part" = 'guardian' AND w."leftAt" IS NULL
      AND w."userId" IS DISTINCT FROM known."userId"
      AND g."from" <= today AND (g."until" IS NULL OR g."until" > today)
      AND r."from" <= today AND (r."until" IS NULL OR r."until" > today)
  ) THEN
    RAISE EXCEPTION 'a message in the thread of a minor needs a guardian in it' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NULL;
END $$;
CREATE CONSTRAINT TRIGGER "Message_has_a_guardian_with_it" AFTER INSERT OR UPDATE OF "goneAt" ON "Message"
  DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION keep_guardian_in_thread();

-- A message is never edited: it goes, it rings, or it is taken back, each once.
CREATE FUNCTION keep_message() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF (to_jsonb(NEW) - 'goneAt' - 'rungAt' - 'takenBackAt') IS DISTINCT FROM (to_jsonb(OLD) - 'goneAt' - 'rungAt' - 'takenBackAt')
    OR (OLD."goneAt" IS NOT NULL AND NEW."goneAt" IS DISTINCT FROM OLD."goneAt")
    OR (OLD."rungAt" IS NOT NULL AND NEW."rungAt" IS DISTINCT FROM OLD."rungAt")
    OR (OLD."takenBackAt" IS NOT NULL AND NEW."takenBackAt" IS DISTINCT FROM OLD."takenBackAt") THEN
    RAISE EXCEPTION 'a message is never edited' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER "Message_is_never_edited" BEFORE UPDATE ON "Message" FOR EACH ROW EXECUTE FUNCTION keep_message();
