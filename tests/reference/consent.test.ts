import { expect, test } from "vitest";
import type { Person } from "@/lib/access/actor";
import { daysAfter } from "@/lib/core/days";
import { recordConsent, withdrawConsent, type PlayerSubject } from "@/lib/domains/roster/policy";
import { consentDaysProblem, CONSENT_MOST_DAYS } from "@/lib/domains/roster/rules";

const ACADEMY = "00000000-0000-4000-8000-000000000001";
const PLAYER = "00000000-0000-4000-8000-000000000002";
const BORN = "2010-06-15";

/** Who may say yes for this player on a day. */
function maySayYes(today: string, as: "player" | "guardian"): boolean {
  const subject: PlayerSubject = { id: PLAYER, academyId: ACADEMY, birthDate: BORN, hasLeft: false };
  const person = {
    kind: "person", academyId: ACADEMY, userId: "u", sessionId: "s", role: as, language: "en", today, timeZone: "UTC", coachedPlayerIds: [], wardIds: as === "guardian" ? [PLAYER] : [],
    ownPlayerId: as === "player" ? PLAYER : null,
  } as unknown as Person;
  const [may, mayWithdraw] = [recordConsent, withdrawConsent].map((ability) => ability.allows(person, subject));
  expect(mayWithdraw).toBe(may);
  return may === true;
}

// Ages of digital consent. Sources: 16 CFR 312 (COPPA: under 13 a parent consents), as read in the Federal Trade Commission's FAQ;
// Regulation (EU) 2016/679 (GDPR) Art. 8: 16 years, member states may lower it to 13.
const CONSENT_AGES = [
  { law: "COPPA", parentBelowYears: 13 },
  { law: "GDPR Art. 8, lowest a state may choose", parentBelowYears: 13 },
  { law: "GDPR Art. 8", parentBelowYears: 16 },
];

test.each(CONSENT_AGES)("a player for whom $law asks a parent never says yes alone, to the last day", ({ parentBelowYears }) => {
  const birthday = `${2010 + parentBelowYears}-06-15`;
  for (const day of [daysAfter(birthday, -1), "2022-06-14"]) {
    expect(maySayYes(day, "player")).toBe(false);
    expect(maySayYes(day, "guardian")).toBe(true);
  }
});

test("the academy asks the guardian until the player is 18, stricter than every law in the table, and from that day the player too", () => {
  expect(Math.max(...CONSENT_AGES.map(({ parentBelowYears }) => parentBelowYears))).toBeLessThan(18);
  expect(maySayYes("2028-06-14", "player")).toBe(false);
  expect(maySayYes("2028-06-15", "player")).toBe(true);
});

test("a yes is asked for anew within a year: 366 days are too long", () => {
  expect(CONSENT_MOST_DAYS).toBe(365);
  expect(consentDaysProblem("2026-01-01", daysAfter("2026-01-01", 365), "2026-01-01")).toBeNull();
  expect(consentDaysProblem("2026-01-01", daysAfter("2026-01-01", 366), "2026-01-01")).toMatch(/at most 365 days/);
});
