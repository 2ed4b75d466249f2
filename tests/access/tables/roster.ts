import type { AccessRow } from "../row";

const nothing = () => ({});
const pia: AccessRow["input"] = ({ playerId }) => ({ playerId });
const somebody = "9b1d2c4e-5f60-4a71-8b82-93a4b5c6d7e8";
const piaWith =
  (more: object): AccessRow["input"] =>
  ({ playerId }) => ({ playerId, ...more });

export const rows: readonly AccessRow[] = [
  { name: "roster.get-player", may: ["admin", "head", "coach", "player", "guardian"], input: pia },
  { name: "roster.get-player-facts", may: ["admin", "head", "coach", "player", "guardian"], input: pia },
  { name: "roster.get-swings-elsewhere", may: ["head", "coach", "player", "guardian"], input: pia },
  { name: "roster.say-swings-elsewhere", may: ["head", "coach", "guardian"], input: pia },
  { name: "roster.log-swings", may: ["head", "coach", "player", "guardian"], input: (cast) => ({ playerId: cast.playerId, day: "2026-11-25", source: "team", swings: 20 }) },
  { name: "roster.take-back-swings", may: ["head", "coach", "player", "guardian"], input: (cast) => ({ playerId: cast.playerId, logId: cast.playerId }) },
  { name: "roster.is-paused", may: ["admin", "head", "coach", "player", "guardian"], input: pia },
  { name: "roster.list-consents", may: ["admin", "player", "guardian"], input: pia },
  { name: "roster.get-player-record", may: ["admin"], input: pia },

  // Lists: who may open one; which rows stand in it is the scope's business and tested with the scope.
  { name: "roster.list-players", may: ["admin", "head", "coach", "otherCoach", "formerCoach", "adminElsewhere", "headElsewhere", "coachElsewhere"], input: nothing },
  { name: "roster.get-family-players", may: ["player", "otherPlayer", "guardian", "otherGuardian", "formerGuardian"], input: nothing },
  { name: "roster.list-coaches", may: ["admin", "head", "adminElsewhere", "headElsewhere"], input: nothing },
  { name: "roster.list-locations", may: ["admin", "adminElsewhere"], input: nothing },
  { name: "roster.list-notices", may: "everybody signed in", input: nothing },
  { name: "roster.read-notice", may: "everybody signed in", input: () => ({ noticeId: somebody }) },

  {
    name: "roster.add-player",
    may: ["admin", "adminElsewhere"],
    input: ({ locationId }) => ({ givenName: "A", familyName: "B", birthDate: "2014-05-05", sport: "baseball", bats: "right", isSlapper: "", heightM: "", locationId }),
  },
  {
    name: "roster.edit-player",
    may: ["admin"],
    input: piaWith({ givenName: "A", familyName: "B", birthDate: "2014-05-05", sport: "baseball", bats: "right", isSlapper: "", heightM: "", hasLeftSchool: "" }),
  },
  { name: "roster.leave-academy", may: ["admin"], input: pia },
  { name: "roster.take-back", may: ["admin"], input: pia },
  { name: "roster.add-guardian", may: ["admin"], input: piaWith({ displayName: "Kim", email: "kim@example.test", relation: "parent" }) },
  { name: "roster.end-guardianship", may: ["admin"], input: piaWith({ guardianshipId: somebody }) },
  { name: "roster.invite-player", may: ["admin"], input: piaWith({ email: "pia@example.test" }) },
  { name: "roster.assign-coach", may: ["admin", "head"], input: ({ playerId, userIds }) => ({ playerId, userId: userIds.otherCoach }) },
  { name: "roster.end-assignment", may: ["admin", "head"], input: piaWith({ assignmentId: somebody }) },
  { name: "roster.reassign-players", may: ["admin", "adminElsewhere"], input: ({ userIds }) => ({ fromUserId: userIds.coach, toUserId: userIds.otherCoach }) },

  // Pia is a minor: her guardian decides, she does not.
  { name: "roster.record-consent", may: ["admin", "guardian"], input: piaWith({ use: "lesson", givenById: "" }) },
  { name: "roster.withdraw-consent", may: ["admin", "guardian"], input: piaWith({ use: "lesson" }) },
  {
    name: "roster.set-home-setup",
    may: ["admin", "head", "coach", "guardian"],
    input: piaWith({ gear: [], widthM: 3, lengthM: 3, hasCage: "", partnerCount: 0, adult: "none", minutesPerDay: 15, daysPerWeek: 3 }),
  },
  { name: "roster.record-complaint", may: ["admin", "head", "coach", "guardian"], input: piaWith({ part: "knee" }) },
  { name: "roster.end-complaint", may: ["admin", "head", "coach", "guardian"], input: piaWith({ complaintId: somebody }) },
  { name: "roster.report-pain", may: ["head", "coach", "player", "guardian"], input: piaWith({ part: "knee", level: 3 }) },
  // An incident is noted by whoever was there for the academy; its list is the academy's, not the family's.
  { name: "roster.note-incident", may: ["admin", "head", "coach"], input: piaWith({ kind: "hit", part: "hand", happenedOn: "2026-11-25", words: "A ball came back off the frame.", firstAid: "" }) },
  { name: "roster.list-incidents", may: ["admin", "head", "adminElsewhere", "headElsewhere"], input: nothing },
  { name: "roster.set-season", may: ["head", "coach"], input: piaWith({ season: "in-season", from: "2026-11-25", until: "", firstGameOn: "" }) },
  { name: "roster.set-seasons", may: ["head", "headElsewhere"], input: ({ playerId }) => ({ playerIds: [playerId], season: "break", from: "2026-11-25", until: "", firstGameOn: "" }) },
  { name: "roster.list-seasons", may: ["head", "headElsewhere"], input: nothing },
  { name: "roster.clear-pause-as-coach", may: ["head", "coach"], input: piaWith({ pauseId: somebody }) },
  { name: "roster.clear-pause-as-family", may: ["guardian"], input: piaWith({ pauseId: somebody }) },
];
