import { english, type PlainSentence, type Say } from "@/lib/core/words/say";
import { CAUTIONS } from "./cautions";
import type { Drill } from "./drill";

/** What can stand in a picture of a drill's set-up. A closed list: one drawing language for all drills. */
export const SCENE_PROPS = ["tee", "second-tee", "net", "screen", "tosser", "machine", "thrower", "wall", "mirror", "tape", "post"] as const;
export type SceneProp = (typeof SCENE_PROPS)[number];

/** A drill's set-up seen from above, as far as it is drawn. */
export interface Scene {
  readonly widthM: number;
  readonly lengthM: number;
  readonly props: readonly SceneProp[];
  /** A bat is swung: the circle of one bat length plus two steps is drawn. */
  readonly hasCircle: boolean;
  /** An adult stands by. */
  readonly hasAdult: boolean;
}

const SHOWN_BY: Readonly<Record<SceneProp, readonly string[]>> = {
  tee: ["tee", "any-tee", "adjustable-tee"],
  "second-tee": ["second-tee", "soft-tee"],
  net: ["net", "net-or-field", "hanging-soft-net", "wall-or-net"],
  screen: ["screen", "fine-mesh-screen"],
  tosser: [],
  machine: ["machine"],
  thrower: ["fed-ball"],
  wall: ["wall", "wall-or-fence"],
  mirror: ["mirror", "mirror-or-phone"],
  tape: ["tape", "chalk", "tape-or-chalk", "tape-or-cord"],
  post: ["post"],
};
const BATS = ["bat", "light-bat", "short-bat", "old-bat"];

/** What a drill's gear, setup and people put into its picture; never more than the drill names. */
export function sceneOf(drill: Pick<Drill, "gear" | "setup" | "spaceM" | "partnerCount" | "adult" | "dose">): Scene {
  const has = (items: readonly string[]) => items.some((item) => drill.gear.includes(item));
  const isTossed = drill.setup === "toss" && drill.partnerCount > 0;
  const props = SCENE_PROPS.filter((prop) => (prop === "tosser" ? isTossed : has(SHOWN_BY[prop])));
  return {
    widthM: drill.spaceM.w,
    lengthM: drill.spaceM.l,
    props: drill.setup === "machine" && !props.includes("machine") && !props.includes("thrower") ? [...props, "machine"] : props,
    hasCircle: drill.dose.fullSwings > 0 || has(BATS),
    hasAdult: drill.adult === "in-charge" || drill.adult === "operates",
  };
}

const NAMES: Readonly<Record<SceneProp, PlainSentence>> = {
  tee: "a tee in front of the hitter", "second-tee": "a second tee", net: "a taut net 2 to 3 m ahead", screen: "a screen", tosser: "somebody who tosses from behind the screen",
  machine: "a machine", thrower: "a machine or an adult who throws, behind a screen", wall: "a wall", mirror: "a mirror or phone", tape: "a line of tape on the ground", post: "a fixed post",
};

/** Cautions about gear that are ticked off with the set-up. */
const OF_GEAR: readonly string[] = [CAUTIONS.helmet, CAUTIONS["face-guard"], CAUTIONS.eyes, CAUTIONS["soft-balls"]];

/**
 * What is looked at together before a drill is done for the first time: ground, circle, net, screen, balls, who is there.
 * @param cautions those that hold for the player, as sentences
 * @param say the voice in which it is read
 */
export function setUpChecklist(scene: Scene, cautions: readonly string[], say: Say = english): string[] {
  const has = (prop: SceneProp) => scene.props.includes(prop);
  return [
    say("{width} by {length} m of ground are free and dry.", { width: scene.widthM, length: scene.lengthM }),
    ...(scene.hasCircle ? [say("The circle is clear: one bat length plus two steps all round, nobody behind.")] : []),
    ...(has("net") ? [say("The net is taut and stands 2 to 3 m ahead. Nothing behind it can break.")] : []),
    ...(has("tee") || has("second-tee") ? [say("The tee stands firm and its top is soft.")] : []),
    ...(has("screen") || has("tosser") || has("thrower") ? [say("Whoever tosses or throws is behind the screen.")] : []),
    ...(has("machine") ? [say("Only a grown-up feeds and touches the machine.")] : []),
    ...(scene.hasAdult ? [say("The grown-up who runs it is here.")] : []),
    ...cautions.filter((words) => OF_GEAR.includes(words)).map(say.told),
  ];
}

/** The picture in one sentence, for whoever hears the page. */
export function sceneWords(scene: Scene, say: Say = english): string {
  const things = scene.props.map((prop) => say(NAMES[prop]));
  if (scene.hasCircle) things.push(say("a clear circle of one bat length plus two steps, with nobody in it"));
  if (scene.hasAdult) things.push(say("an adult outside it"));
  const size = { width: scene.widthM, length: scene.lengthM };
  if (things.length === 0) return say("Seen from above, {width} by {length} m of free ground: the hitter.", size);
  return say("Seen from above, {width} by {length} m of free ground: the hitter, {things}.", { ...size, things: say.list(things) });
}
