import { buildLibrary } from "@/seed/builders/library";
import { newId } from "@/lib/core/ids";
import { database } from "@/lib/platform/database";
import type { Cast } from "../cast";
import type { AccessRow } from "../row";

const STAFF = ["admin", "head", "coach", "otherCoach", "formerCoach", "adminElsewhere", "headElsewhere", "coachElsewhere"] as const;
const COACHES = ["head", "coach", "otherCoach", "formerCoach", "headElsewhere", "coachElsewhere"] as const;
/** A change proposed by the coach, in the academy of the cast. */
async function proposal({ academyId, userIds }: Cast) {
  const edition = await buildLibrary(academyId);
  const { id } = await database().proposal.create({
    data: { id: newId(), academyId, kind: "drill", recordId: "mirror-load", patch: {}, reason: "for the table", baseEditionId: edition.id, proposedById: userIds.coach, state: "open" },
  });
  return { proposalId: id };
}
const change = () => ({ subject: "drill", recordId: "mirror-load", baseEditionId: newId(), reason: "for the table" });

// The library is the whole academy's: which player a coach has is no matter. What a query finds is of the asker's own academy.
export const rows: readonly AccessRow[] = [
  { name: "library.get-translations", may: "everybody signed in", input: () => ({ texts: ["Mirror load check"] }) },
  { name: "library.get-edition-in-force", may: STAFF, input: () => ({}) },
  { name: "library.get-for-reasoning", may: STAFF, input: () => ({}) },
  { name: "library.get-checkpoint-definitions", may: STAFF, input: () => ({}) },
  { name: "library.get-drills-for-planning", may: STAFF, input: () => ({}) },
  { name: "library.search", may: STAFF, input: () => ({ text: "rollover" }) },
  { name: "library.get-index", may: STAFF, input: () => ({}) },
  { name: "library.get-fault", may: STAFF, input: () => ({ id: "barrel-drag" }) },
  { name: "library.get-drill", may: STAFF, input: () => ({ id: "mirror-load" }) },
  { name: "library.list-editions", may: STAFF, input: () => ({}) },
  { name: "library.get-record-for-change", may: COACHES, input: () => ({ subject: "drill", id: "mirror-load" }) },
  { name: "library.list-proposals", may: COACHES, input: () => ({}) },
  { name: "library.propose-change", may: COACHES, input: change },
  { name: "library.propose-new-drill", may: COACHES, input: () => ({ likeId: "mirror-load", name: "Another", baseEditionId: newId(), reason: "for the table" }) },
  { name: "library.get-proposal", may: ["head", "coach", "otherCoach", "formerCoach"], input: proposal },
  { name: "library.approve-proposal", may: ["head"], input: proposal },
  { name: "library.decline-proposal", may: ["head"], input: async (cast) => ({ ...(await proposal(cast)), words: "not for us now" }) },
  // Each takes back what is their own.
  { name: "library.withdraw-proposal", may: ["coach"], input: proposal },
];
