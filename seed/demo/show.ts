import type { Id } from "@/lib/core/ids";
import { database } from "@/lib/platform/database";
import { truthOf } from "../media/truth";
import { asPerson } from "./as-person";
import { addFilm, drawAhead, type CheckedBy } from "./film";
import type { DemoFilm } from "./films";
import { MODEL_HITTER } from "./model-hitter";
import { ACADEMY, GROWN_UPS, PLAYERS } from "./people";
import { STORIES } from "./story";

/** Adds films one after the other, each with what its coach made of it. Safe to repeat: what is there is left alone. */
export async function showFilms(films: readonly DemoFilm[], checkedBy: CheckedBy): Promise<void> {
  const academy = await database().academy.findFirst({ where: { name: ACADEMY.name } });
  if (!academy) return;
  for (const [index, film] of films.entries()) {
    const next = films[index + 1];
    // While the house is open, the machine is its visitors'.
    if (next && checkedBy === "us") drawAhead(next);
    const coach = await asPerson(academy.id, await coachIdOf(film.coach), roleOf(film.coach));
    const player = await playerOf(academy.id, film.player);
    const self = player.userId && (film.sent || STORIES[`${film.player} ${film.spec.side}`]) ? await asPerson(academy.id, player.userId, "player") : null;
    const { clipId, swingId } = await addFilm(film, player.id, coach, self, checkedBy);
    const { side } = film.spec;
    const story = STORIES[`${film.player} ${side}`];
    const isTold = (await database().observation.count({ where: { academyId: academy.id, swing: { playerId: player.id, side } } })) > 0;
    if (!story || isTold || film.marked === "no") continue;
    await story({ playerId: player.id, side, swingId, clipId, truth: truthOf(film.spec), coach, player: self });
  }
}

const roleOf = (key: string) => (GROWN_UPS.find((person) => person.key === key)?.roles.includes("head-coach") ? "head-coach" : "coach");

async function coachIdOf(key: string): Promise<Id> {
  const email = GROWN_UPS.find((person) => person.key === key)?.email ?? "";
  return (await database().user.findUniqueOrThrow({ where: { email }, select: { id: true } })).id;
}

async function playerOf(academyId: Id, key: string): Promise<{ id: Id; userId: Id | null }> {
  const known = [...PLAYERS, MODEL_HITTER].find((player) => player.key === key);
  if (!known) throw new RangeError(`nobody in the demo is called ${key}`);
  const { givenName, familyName } = known;
  return database().player.findFirstOrThrow({ where: { academyId, givenName, familyName }, select: { id: true, userId: true } });
}
