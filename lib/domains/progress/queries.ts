import type { z } from "zod";
import { defineQuery } from "@/lib/access/define-query";
import { may } from "@/lib/access/guard";
import { ageYears } from "@/lib/core/age";
import type { Id } from "@/lib/core/ids";
import { clipAddress } from "@/lib/domains/clips/schema";
import { frameOfEvent } from "@/lib/domains/clips/stills/rules";
import { cutAddress, windowName } from "@/lib/domains/clips/stills/schema";
import { readKeptStills, readPicturedClips } from "@/lib/domains/clips/stills/scope";
import { checkpointDefinition, isMeasured } from "@/lib/domains/library/rules";
import { findEditionInForce, readEdition } from "@/lib/domains/library/scope";
import { comparableRule, overSwings } from "@/lib/domains/measurement/rules";
import { readKeptReadings, readSwingsUpTo } from "@/lib/domains/measurement/scope";
import { showsNumbers } from "@/lib/domains/practice/rules";
import type { PlayerSubject } from "@/lib/domains/roster/policy";
import { findPlayerSubject } from "@/lib/domains/roster/scope";
import { speaks } from "@/lib/measure/several/repeated-reading";
import { todayIn } from "@/lib/platform/clock";
import type { Database } from "@/lib/platform/database";
import { seeOwnSwing } from "./policy";
import { mostAlike, oldAndNew, PAIR_EVENTS, trendOf, type Trend } from "./rules";
import { mySwingForm } from "./schema";
import { findNewestNote, findNewestRead, readOwner, readShownClipIds } from "./scope";
import type { MySwingView, SwingPair } from "./view";

/** Own old and new swing at the same instants, and whether the one thing has changed. Nothing of anybody else. */
export const getMySwing = defineQuery({
  name: "progress.get-my-swing",
  input: mySwingForm,
  policy: may<z.infer<typeof mySwingForm>, PlayerSubject, "progress.see-own-swing">(seeOwnSwing, (input, db, actor) => findPlayerSubject(db, actor.academyId, input.playerId)),
  run: async ({ actor, input, granted, db }): Promise<MySwingView> => {
    const { academyId, id: playerId } = granted;
    const { location, birthDate, givenName, sides, isPermitted } = await readOwner(db, academyId, playerId, actor.today);
    const newest = await findNewestNote(db, academyId, playerId, input.side);
    const side = input.side ?? (newest?.side as MySwingView["side"] | undefined) ?? sides[0] ?? "right";
    const about = { playerId, givenName, sides, side, isPermitted, showsNumbers: showsNumbers(ageYears(birthDate, todayIn(location.timeZone))), oneThing: newest?.oneThing ?? null };
    if (!isPermitted) return { ...about, pair: null, trend: null };
    return { ...about, pair: await readPair(db, academyId, playerId, side), trend: newest && (await readTrend(db, academyId, playerId, side, newest.plan.focus.faultId)) };
  },
});

async function readPair(db: Database, academyId: Id, playerId: Id, side: string): Promise<SwingPair | null> {
  const shown = await readShownClipIds(db, academyId, playerId, side);
  const ids = shown.map(({ clipId }) => clipId);
  const [pictured, kept] = [await readPicturedClips(db, academyId, ids), await readKeptStills(db, academyId, ids)];
  const found = oldAndNew(
    pictured.map((clip) => {
      const at = PAIR_EVENTS.flatMap((event) => {
        const frame = frameOfEvent(clip, event);
        return "frameIndex" in frame ? [[event, frame.frameIndex] as const] : [];
      });
      return { clipId: clip.id, swingId: clip.swingId, view: clip.view, day: shown.find(({ clipId }) => clipId === clip.id)?.day ?? "", frames: Object.fromEntries(at), window: clip.window };
    }),
  );
  if (!found) return null;
  const stillOf = ({ clipId, window, frames }: typeof found.old, event: (typeof PAIR_EVENTS)[number]) => {
    const frame = frames[event] ?? 0;
    const cut = kept.get(clipId);
    // What the worker has not cut to the hitter yet is shown whole.
    return cut?.window === windowName(window) && cut.frames.includes(frame) ? cutAddress(clipId, window, frame) : clipAddress.still(clipId, frame);
  };
  const { old, now, events } = found;
  return { oldDay: old.day, newDay: now.day, instants: events.map((event) => ({ event, oldUrl: stillOf(old, event), newUrl: stillOf(now, event) })) };
}

const MOST_COMPARED = 24;

/** The checkpoint that says most of the fault and could be read, over the swings of which most were taken alike; null when there is none. */
async function readTrend(db: Database, academyId: Id, playerId: Id, side: string, faultId: string): Promise<Trend | null> {
  const edition = await findEditionInForce(db, academyId);
  if (!edition) return null;
  const { faults, checkpoints, terms } = await readEdition(db, academyId, edition.id);
  const asked = [...(faults.faults.find(({ id }) => id === faultId)?.checkpoints ?? [])].sort((a, b) => b.weight - a.weight);
  const rule = comparableRule(terms);
  for (const { checkpoint: checkpointId } of asked) {
    const record = checkpoints.checkpoints.find(({ id }) => id === checkpointId);
    const newest = record && isMeasured(record) ? await findNewestRead(db, academyId, playerId, side, checkpointId) : null;
    if (!record || !newest) continue;
    const { newestFirst } = await readSwingsUpTo(db, newest, rule.withinDays);
    const kept = await readKeptReadings(db, academyId, newestFirst.map((it) => it.id), checkpointId);
    const alike = mostAlike(newestFirst.filter((swing) => kept.some((it) => it.swingId === swing.id && it.value !== null)), rule, MOST_COMPARED);
    const { id, name, area, phase } = record;
    const rows = overSwings(alike[0]?.id ?? newest.id, alike, kept, { checkpoints: [{ id, name, area, phase, definition: checkpointDefinition(record) }] });
    const [best] = [...rows].sort((a, b) => b.readings.filter(speaks).length - a.readings.filter(speaks).length);
    if (best?.readings.some(speaks)) return trendOf(best.readings, best.unit, best.band);
  }
  return null;
}
