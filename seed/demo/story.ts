import { ConflictError } from "@/lib/core/errors";
import type { Id } from "@/lib/core/ids";
import { addMark } from "@/lib/domains/clips/actions";
import { callFault, chooseFocus, overruleFault } from "@/lib/domains/observations/actions";
import { addDrill, chooseCue, chooseStill, sendNote, startPlan, writeNote, writePrivateNote } from "@/lib/domains/plans/actions";
import { getPlanDraft } from "@/lib/domains/plans/queries";
import { logPractice } from "@/lib/domains/practice/actions";
import { reportPain } from "@/lib/domains/roster/actions";
import { database } from "@/lib/platform/database";
import type { SwingTruth } from "../media/truth";
import { keepAsModel } from "./model-hitter";
import type { Scene, Story } from "./scene";
import { talk } from "./thread";

/** What the coaches made of the films of a player's side: told through the same actions that people use. */
export const STORIES: Readonly<Record<string, Story>> = {
  "ines right": async (scene) => {
    const { playerId, side, clipId, coach, player, truth } = scene;
    const frame = frameOf(truth, "launch");
    await ring(scene, frame, ["heel_b", "toe_b"], "foot went first");
    await see(scene, ["back-foot-overspin", "front-shoulder-opens", "front-leg-soft"], ["step-out", "lunge-forward"], ["head-pulls-off"]);
    await overruleFault.as(coach, { playerId, side, faultId: "hips-open-early", reason: "Her belt waits; only the foot hurries." });
    await chooseFocus.as(coach, { playerId, side, faultId: "back-foot-overspin" });
    await send(scene, {
      still: `${clipId} ${frame}`,
      keptWell: "Your load is quiet and your hands stay back. Keep that.",
      oneThing: "Belt first, then the foot.",
      why: "In this swing your back foot turned before your belt did. That opens the chest early.",
      forFamily: "Three short drills, four days a week. If anything hurts, stop and tell an adult.",
      cue: "Send your belt at the pitcher first",
      privateWords: "Somebody may have told her to twist the foot. Ask before the next lesson.",
    });
    if (player) {
      const drill = await database().planDrill.findFirst({ where: { plan: { playerId, state: "sent" } }, orderBy: { position: "asc" } });
      if (drill) await logPractice.as(player, { planDrillId: drill.id });
    }
    await talk(scene);
  },
  "tobin left": async (scene) => {
    const { playerId, side, coach } = scene;
    await see(scene, ["lunge-forward", "hands-drift-forward"], ["front-shoulder-opens"], []);
    await chooseFocus.as(coach, { playerId, side, faultId: "lunge-forward" });
    await draft(scene);
  },
  "bea right": async (scene) => {
    const { playerId, side, clipId, coach, player, truth } = scene;
    await see(scene, ["no-back-hip-load", "barrel-drag"], ["front-shoulder-opens"], []);
    await chooseFocus.as(coach, { playerId, side, faultId: "no-back-hip-load" });
    await send(scene, {
      still: `${clipId} ${frameOf(truth, "load")}`,
      keptWell: "You step straight at the pitcher, every time.",
      oneThing: "Sit into the back pocket before you go.",
      why: "The load stays on top of the foot, so the bat has to hurry.",
      forFamily: "Short and slow is right at first. Please leave the words to us.",
      privateWords: "Grip looks thin for this bat. Try a lighter one next time.",
    });
    if (player) await reportPain.as(player, { playerId, part: "knee", level: 4, words: "when I push" });
  },
  "oskar right": async (scene) => {
    const { playerId, side, coach } = scene;
    await see(scene, ["trunk-fold", "front-leg-soft"], [], ["back-foot-overspin"]);
    await chooseFocus.as(coach, { playerId, side, faultId: "front-leg-soft" });
  },
  "brannick right": keepAsModel,
  "brannick left": keepAsModel,
  "wren right": async (scene) => {
    await see(scene, ["barrel-drag", "back-elbow-leads"], ["front-shoulder-opens", "trunk-fold"], []);
  },
};

async function see(scene: Scene, seen: readonly string[], notSeen: readonly string[], notVisible: readonly string[]): Promise<void> {
  const { playerId, side, swingId, clipId, coach, truth } = scene;
  const calls = [seen.map((id) => [id, "seen"] as const), notSeen.map((id) => [id, "not-seen"] as const), notVisible.map((id) => [id, "not-visible"] as const)].flat();
  for (const [faultId, state] of calls) {
    await callFault.as(coach, { playerId, side, swingId, faultId, state, source: "eye", clipId, frameIndex: frameOf(truth, "contact") });
  }
}

function frameOf(truth: SwingTruth, event: "load" | "launch" | "contact"): number {
  return truth.contactFrame + Math.round(truth.events[event] * truth.spec.framesPerSecond);
}

async function ring({ clipId, coach, truth }: Scene, frameIndex: number, points: readonly ("heel_b" | "toe_b")[], text: string): Promise<void> {
  const places = points.flatMap((point) => truth.frames[frameIndex]?.points[point].picture ?? []);
  const middle = (axis: "x" | "y") => places.reduce((sum, place) => sum + place[axis], 0) / places.length;
  const radius = truth.spec.heightPx / 14;
  await addMark.as(coach, { clipId, frameIndex, shape: { v: 1, kind: "ring", cx: middle("x"), cy: middle("y"), rx: radius * 1.2, ry: radius } });
  await addMark.as(coach, { clipId, frameIndex, shape: { v: 1, kind: "words", x: middle("x"), y: middle("y") - radius * 1.8, text } });
}

/** Begins the plan and takes the drills that come first, as long as they fit. */
async function draft({ playerId, side, coach }: Scene): Promise<Id> {
  const { data } = await startPlan.as(coach, { playerId, side });
  const { planId } = data as { planId: Id };
  const page = await getPlanDraft.as(coach, { playerId, side });
  const minutesPerDay = page.draft?.minutesPerDay ?? 0;
  let minutes = 0;
  for (const drill of page.draft?.proposed.slice(0, 8) ?? []) {
    if (minutes > 0 && minutes + drill.minutes > minutesPerDay) continue;
    try {
      await addDrill.as(coach, { planId, drillId: drill.id });
      minutes += drill.minutes;
    } catch (error) {
      if (!(error instanceof ConflictError)) throw error;
    }
  }
  return planId;
}

interface Words {
  readonly still: string;
  readonly keptWell: string;
  readonly oneThing: string;
  readonly why: string;
  readonly forFamily: string;
  readonly cue?: string;
  readonly privateWords: string;
}

async function send(scene: Scene, { still, keptWell, oneThing, why, forFamily, cue, privateWords }: Words): Promise<void> {
  const { coach } = scene;
  const planId = await draft(scene);
  if (cue) await chooseCue.as(coach, { planId, cue, ownCue: "" });
  await chooseStill.as(coach, { planId, still });
  await writeNote.as(coach, { planId, keptWell, oneThing, why, forFamily });
  await writePrivateNote.as(coach, { planId, words: privateWords });
  await sendNote.as(coach, { planId });
}
