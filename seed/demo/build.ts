import { database } from "@/lib/platform/database";
import { settings } from "@/lib/platform/settings";
import { buildLibrary } from "../builders/library";
import { buildDemoPeople } from "./build-people";
import { demoFilms } from "./films";
import { buildModelHitter } from "./model-hitter";
import { ACADEMY, PLAYERS } from "./people";
import { showFilms } from "./show";

/**
 * The demo academy, with its first films; the others are drawn while the house is open. What is there is left alone, and
 * what was broken off is begun anew.
 */
export async function buildDemo(): Promise<void> {
  const academies = await database().academy.findMany({ select: { id: true, name: true } });
  if (academies.some(({ name }) => name !== ACADEMY.name)) return;
  let academyId = academies[0]?.id;
  if (academyId && (await database().player.count({ where: { academyId } })) < PLAYERS.length) {
    await database().$executeRaw`TRUNCATE "Academy" CASCADE`;
    academyId = undefined;
  }
  academyId ??= (await buildDemoPeople()).academyId;
  await buildModelHitter(academyId);
  await buildLibrary(academyId);
  await showFilms(demoFilms(settings().DEMO_CLIPS).first, "us");
}
