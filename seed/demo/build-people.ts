import { hash } from "@node-rs/argon2";
import { newId, type Id } from "@/lib/core/ids";
import { dayValue, daysAfter } from "@/lib/core/days";
import { todayIn } from "@/lib/platform/clock";
import { database } from "@/lib/platform/database";
import { buildAcademy, buildAssignment, buildConsent, buildGuardianship, buildLocation, buildPlayer, buildUser } from "../builders/people";
import { ACADEMY, DEMO_PASSWORD, GROWN_UPS, PLAYERS, type DemoPlayer } from "./people";

export interface DemoIds {
  readonly academyId: Id;
  /** Logins by the keys of people.ts. */
  readonly userIds: ReadonlyMap<string, Id>;
  readonly playerIds: ReadonlyMap<string, Id>;
}

/** The people of the demo academy: logins, players, families, coaches and consents. */
export async function buildDemoPeople(): Promise<DemoIds> {
  const { id: academyId } = await buildAcademy(ACADEMY);
  const { id: locationId } = await buildLocation({ academyId, name: ACADEMY.location, timeZone: ACADEMY.timeZone });
  const today = todayIn(ACADEMY.timeZone);
  const passwordHash = await hash(DEMO_PASSWORD);
  const since = daysAfter(today, -400);

  const userIds = new Map<string, Id>();
  for (const person of GROWN_UPS) {
    const until = person.hasLeft ? daysAfter(today, -40) : null;
    const user = await buildUser({
      academyId, displayName: person.name, email: person.email, passwordHash, roles: person.roles, from: since, until,
      deactivatedAt: until ? dayValue(until) : null,
    });
    userIds.set(person.key, user.id);
  }
  const playerIds = new Map<string, Id>();
  for (const player of PLAYERS) {
    const name = `${player.givenName} ${player.familyName}`;
    const login = player.userName || player.email ? await buildUser({ academyId, displayName: name, email: player.email ?? null, userName: player.userName, passwordHash, roles: ["player"], from: since }) : null;
    if (login) userIds.set(player.key, login.id);
    const { id } = await buildPlayer({ academyId, locationId, userId: login?.id, ...player, birthDate: birthDateOf(player, today) });
    playerIds.set(player.key, id);
    await buildRelations(academyId, id, player, userIds, today, since);
  }
  return { academyId, userIds, playerIds };
}

async function buildRelations(academyId: Id, playerId: Id, player: DemoPlayer, userIds: ReadonlyMap<string, Id>, today: string, since: string): Promise<void> {
  const idOf = (key: string) => {
    const id = userIds.get(key);
    if (!id) throw new RangeError(`nobody in the demo is called ${key}`);
    return id;
  };
  for (const key of player.coaches) await buildAssignment({ academyId, playerId, userId: idOf(key), from: since });
  // The coach who left taught two of them until then.
  if (["dell", "noor"].includes(player.key)) await buildAssignment({ academyId, playerId, userId: idOf("hale"), from: since, until: daysAfter(today, -40) });
  const guardians = GROWN_UPS.filter((person) => person.children?.includes(player.key));
  for (const guardian of guardians) await buildGuardianship({ academyId, playerId, userId: idOf(guardian.key), from: since });
  if (player.consentDaysLeft !== null) {
    const validUntil = daysAfter(today, player.consentDaysLeft);
    const giver = guardians[0] ? idOf(guardians[0].key) : userIds.get(player.key);
    await buildConsent({ academyId, playerId, recordedById: idOf("rosalind"), givenById: giver, givenOn: daysAfter(validUntil, -365), validUntil });
  }
  if (player.home) {
    const { hasCage = false, gear, ...home } = { hasCage: false, ...player.home };
    await database().homeSetup.create({ data: { academyId, playerId, hasCage, gear: [...gear], ...home } });
    const said = { academyId, playerId, saidById: idOf(guardians[0]?.key ?? "rosalind") };
    const week = { team: { weekdays: [2], swingsEach: 20 }, lessons: { weekdays: [], swingsEach: 0 }, games: { weekdays: [6], swingsEach: 15 } };
    await database().swingSource.createMany({ data: Object.entries(week).map(([source, usual]) => ({ ...said, source, ...usual })) });
    const from = dayValue(daysAfter(today, -30));
    await database().playerSeason.create({ data: { id: newId(), academyId, playerId, season: "off-season", from, setById: idOf(player.coaches[0] ?? "adair") } });
  }
}

function birthDateOf(player: DemoPlayer, today: string): string {
  const birthday = daysAfter(today, -player.daysSinceBirthday);
  return `${Number(birthday.slice(0, 4)) - player.ageYears}${birthday.slice(4).replace("-02-29", "-02-28")}`;
}

