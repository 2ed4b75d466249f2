-- Rules that no code path may get round.

-- Closed lists.
ALTER TABLE "User" ADD CONSTRAINT "User_can_be_named" CHECK ("email" IS NOT NULL OR "userName" IS NOT NULL);
ALTER TABLE "RoleGrant" ADD CONSTRAINT "RoleGrant_role" CHECK ("role" IN ('admin', 'head-coach', 'coach', 'player', 'guardian'));
ALTER TABLE "RoleGrant" ADD CONSTRAINT "RoleGrant_days" CHECK ("until" IS NULL OR "until" >= "from");
ALTER TABLE "SignInLink" ADD CONSTRAINT "SignInLink_purpose" CHECK ("purpose" IN ('invitation', 'reset'));
ALTER TABLE "Player" ADD CONSTRAINT "Player_sport" CHECK ("sport" IN ('baseball', 'softball'));
ALTER TABLE "Player" ADD CONSTRAINT "Player_bats" CHECK ("bats" IN ('right', 'left', 'both'));
ALTER TABLE "BattingSide" ADD CONSTRAINT "BattingSide_side" CHECK ("side" IN ('right', 'left'));
ALTER TABLE "BattingSide" ADD CONSTRAINT "BattingSide_slapper" CHECK (NOT "isSlapper" OR "side" = 'left');
ALTER TABLE "Guardianship" ADD CONSTRAINT "Guardianship_days" CHECK ("until" IS NULL OR "until" >= "from");
ALTER TABLE "Assignment" ADD CONSTRAINT "Assignment_days" CHECK ("until" IS NULL OR "until" >= "from");
ALTER TABLE "Consent" ADD CONSTRAINT "Consent_use" CHECK ("use" IN ('lesson', 'staff-training', 'public'));
ALTER TABLE "Consent" ADD CONSTRAINT "Consent_at_most_a_year" CHECK ("validUntil" > "givenOn" AND "validUntil" <= "givenOn" + 365);
ALTER TABLE "PainReport" ADD CONSTRAINT "PainReport_level" CHECK ("level" BETWEEN 0 AND 10);
ALTER TABLE "Upload" ADD CONSTRAINT "Upload_state" CHECK ("state" IN ('receiving', 'checking', 'ready', 'refused', 'cancelled'));
ALTER TABLE "Upload" ADD CONSTRAINT "Upload_ready_has_clip" CHECK (("state" = 'ready') = ("clipId" IS NOT NULL));
ALTER TABLE "Swing" ADD CONSTRAINT "Swing_side" CHECK ("side" IN ('right', 'left'));
ALTER TABLE "Clip" ADD CONSTRAINT "Clip_view" CHECK ("view" IN ('side', 'rear', 'front'));
ALTER TABLE "Clip" ADD CONSTRAINT "Clip_frames" CHECK ("firstFrame" >= 0 AND "lastFrame" >= "firstFrame");
ALTER TABLE "Clip" ADD CONSTRAINT "Clip_time" CHECK ("realSecondsPerFileSecond" > 0 AND "timeBasis" IN ('measured', 'stated', 'unknown'));
ALTER TABLE "SwingEvent" ADD CONSTRAINT "SwingEvent_source" CHECK ("source" IN ('placed', 'suggested', 'sound'));
ALTER TABLE "ClipPoint" ADD CONSTRAINT "ClipPoint_source" CHECK ("source" IN ('placed', 'suggested'));
ALTER TABLE "Observation" ADD CONSTRAINT "Observation_state" CHECK ("state" IN ('seen', 'not-seen', 'not-visible'));
ALTER TABLE "Observation" ADD CONSTRAINT "Observation_source" CHECK ("source" IN ('eye', 'reading', 'both'));
ALTER TABLE "Proposal" ADD CONSTRAINT "Proposal_state" CHECK ("state" IN ('open', 'approved', 'declined'));
ALTER TABLE "Plan" ADD CONSTRAINT "Plan_state" CHECK ("state" IN ('draft', 'sent', 'ended'));
ALTER TABLE "Plan" ADD CONSTRAINT "Plan_days" CHECK ("endsOn" >= "startsOn" AND "daysPerWeek" BETWEEN 1 AND 5);
ALTER TABLE "PracticeLog" ADD CONSTRAINT "PracticeLog_counts" CHECK ("times" BETWEEN 0 AND 500 AND "swings" BETWEEN 0 AND 500);
ALTER TABLE "CauseEdge" ADD CONSTRAINT "CauseEdge_strength" CHECK ("strength" > 0 AND "strength" < 1);
ALTER TABLE "FaultSymptom" ADD CONSTRAINT "FaultSymptom_strength" CHECK ("strength" > 0 AND "strength" < 1);

-- One open grant of a role, one open relation, one open complaint of a part.
CREATE UNIQUE INDEX "RoleGrant_one_open" ON "RoleGrant" ("academyId", "userId", "role") WHERE "until" IS NULL;
CREATE UNIQUE INDEX "Guardianship_one_open" ON "Guardianship" ("academyId", "playerId", "userId") WHERE "until" IS NULL;
CREATE UNIQUE INDEX "Assignment_one_open" ON "Assignment" ("academyId", "playerId", "userId") WHERE "until" IS NULL;
CREATE UNIQUE INDEX "Complaint_one_open" ON "Complaint" ("academyId", "playerId", "part") WHERE "until" IS NULL;

-- Two things in focus at most, per batting side: a slot is 1 or 2 and belongs to one focus.
ALTER TABLE "Focus" ADD CONSTRAINT "Focus_state" CHECK ("state" IN ('active', 'parked', 'ended'));
ALTER TABLE "Focus" ADD CONSTRAINT "Focus_slot" CHECK (("state" = 'active') = ("slot" IS NOT NULL) AND ("slot" IS NULL OR "slot" IN (1, 2)));
CREATE UNIQUE INDEX "Focus_slot_taken_once" ON "Focus" ("academyId", "playerId", "side", "slot") WHERE "state" = 'active';
CREATE UNIQUE INDEX "Focus_fault_once" ON "Focus" ("academyId", "playerId", "side", "faultId") WHERE "state" IN ('active', 'parked');

-- One call in force per swing, fault and coach; one answer in force; one standing overrule; one plan in force per focus.
CREATE UNIQUE INDEX "Observation_in_force" ON "Observation" ("academyId", "swingId", "faultId", "calledById") WHERE "replacedAt" IS NULL;
CREATE UNIQUE INDEX "CauseAnswer_in_force" ON "CauseAnswer" ("academyId", "playerId", "side", "nodeId") WHERE "replacedAt" IS NULL;
CREATE UNIQUE INDEX "Overrule_in_force" ON "Overrule" ("academyId", "playerId", "side", "faultId") WHERE "undoneAt" IS NULL;
CREATE UNIQUE INDEX "Plan_one_sent" ON "Plan" ("academyId", "playerId", "side", "focusId") WHERE "state" = 'sent';
CREATE UNIQUE INDEX "PracticeLog_corrected_once" ON "PracticeLog" ("academyId", "correctsId") WHERE "correctsId" IS NOT NULL;

-- The search box.
CREATE INDEX "FaultName_search" ON "FaultName" USING gin ("searchText" gin_trgm_ops);

-- What may be shown follows the consents, whoever changes them and however.
CREATE FUNCTION keep_permit() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
  changed record;
  until date;
BEGIN
  changed := COALESCE(NEW, OLD);
  SELECT max("validUntil") INTO until FROM "Consent"
    WHERE "academyId" = changed."academyId" AND "playerId" = changed."playerId" AND "use" = changed."use" AND "withdrawnAt" IS NULL;
  IF until IS NULL THEN
    DELETE FROM "Permit" WHERE "academyId" = changed."academyId" AND "playerId" = changed."playerId" AND "use" = changed."use";
  ELSE
    INSERT INTO "Permit" ("academyId", "playerId", "use", "validUntil") VALUES (changed."academyId", changed."playerId", changed."use", until)
      ON CONFLICT ("academyId", "playerId", "use") DO UPDATE SET "validUntil" = EXCLUDED."validUntil";
  END IF;
  RETURN NULL;
END $$;
CREATE TRIGGER "Consent_keeps_permit" AFTER INSERT OR UPDATE OR DELETE ON "Consent" FOR EACH ROW EXECUTE FUNCTION keep_permit();

-- Records that are only ever added.
CREATE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION 'rows of % are never changed', TG_TABLE_NAME USING ERRCODE = 'integrity_constraint_violation';
END $$;
CREATE TRIGGER "Edition_never_changes" BEFORE UPDATE OR DELETE ON "Edition" FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER "PracticeLog_never_changes" BEFORE UPDATE ON "PracticeLog" FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER "AuditEntry_never_changes" BEFORE UPDATE ON "AuditEntry" FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER "RankingRun_never_changes" BEFORE UPDATE ON "RankingRun" FOR EACH ROW EXECUTE FUNCTION refuse_change();

-- A note that was sent keeps its words.
CREATE FUNCTION keep_sent_words() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF OLD."sentAt" IS NOT NULL AND (to_jsonb(NEW) - 'clipId') IS DISTINCT FROM (to_jsonb(OLD) - 'clipId') THEN
    RAISE EXCEPTION 'a note that was sent keeps its words' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER "Note_keeps_sent_words" BEFORE UPDATE ON "Note" FOR EACH ROW EXECUTE FUNCTION keep_sent_words();
CREATE FUNCTION keep_sent_drills() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF EXISTS (SELECT 1 FROM "Plan" WHERE "academyId" = OLD."academyId" AND "id" = OLD."planId" AND "state" <> 'draft') THEN
    RAISE EXCEPTION 'a plan that was sent keeps its drills' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN COALESCE(NEW, OLD);
END $$;
CREATE TRIGGER "PlanDrill_keeps_sent_words" BEFORE UPDATE ON "PlanDrill" FOR EACH ROW EXECUTE FUNCTION keep_sent_drills();
