-- Who proposed a change may take it back; that is not the same as being declined.
ALTER TABLE "Proposal" DROP CONSTRAINT "Proposal_state";
ALTER TABLE "Proposal" ADD CONSTRAINT "Proposal_state" CHECK ("state" IN ('open', 'approved', 'declined', 'withdrawn'));
ALTER TABLE "Proposal" ADD CONSTRAINT "Proposal_kind" CHECK ("kind" IN ('drill', 'fault'));
ALTER TABLE "Proposal" ADD CONSTRAINT "Proposal_approved_has_edition" CHECK (("state" = 'approved') = ("editionId" IS NOT NULL));
