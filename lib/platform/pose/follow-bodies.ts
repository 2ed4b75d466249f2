import { DETECTOR_SIDE } from "./anchors";
import { bodyJoints, JOINTS_SIDE, type BodyJoints } from "./body-joints";
import { sampleCrop, wholeCrop, type Crop, type Pixels } from "./crop";
import { cropOfBody, detectedBodies } from "./detected-bodies";

/** The two parts of the model: numbers of a picture in, numbers out. */
export interface PoseModel {
  readonly detect: (input: Float32Array) => Promise<{ scores: Float32Array; numbers: Float32Array }>;
  readonly joints: (input: Float32Array) => Promise<{ numbers: Float32Array; heat: Float32Array | null; flag: number }>;
}

/** A body on one frame; the number stays with the body from frame to frame. */
export interface FollowedBody extends Omit<BodyJoints, "next"> {
  readonly body: number;
}

/** People who are followed at the same time: hitter, catcher, whoever tosses, one who passes. */
export const MOST_BODIES = 4;
const LEAST_PRESENCE = 0.5;
/** People are looked for anew after so many frames, and after a pause in which a body moves on. */
const FRAMES_BETWEEN_LOOKS = 8;
const LONGEST_STEP_SECONDS = 0.05;
/** Middles nearer than this part of a body's square are the same body. */
const SAME_BODY = 0.2;

/** Follows every body through frames that are given one after the other. Nothing of a frame is kept. */
export class BodyFollower {
  private followed: { readonly body: number; readonly crop: Crop }[] = [];
  private nextBody = 0;
  private framesSinceLook = Infinity;
  private lastSeconds = -Infinity;
  private readonly small = new Float32Array(DETECTOR_SIDE * DETECTOR_SIDE * 3);
  private readonly large = new Float32Array(JOINTS_SIDE * JOINTS_SIDE * 3);

  constructor(private readonly model: PoseModel) {}

  /** @param seconds real time of the frame, increasing */
  async frame(picture: Pixels, seconds: number): Promise<readonly FollowedBody[]> {
    const isJump = seconds - this.lastSeconds > LONGEST_STEP_SECONDS;
    if (isJump || this.framesSinceLook >= FRAMES_BETWEEN_LOOKS || this.followed.length === 0) await this.look(picture, isJump);
    else this.framesSinceLook++;
    this.lastSeconds = seconds;
    const seen: FollowedBody[] = [];
    const still: { body: number; crop: Crop }[] = [];
    for (const { body, crop } of this.followed) {
      sampleCrop(picture, crop, JOINTS_SIDE, [0, 1], this.large);
      const { numbers, heat, flag } = await this.model.joints(this.large);
      const { next, ...found } = bodyJoints(crop, numbers, heat, flag);
      // Two that were followed have become one: the one followed longer stays.
      if (found.presence < LEAST_PRESENCE || still.some((other) => isSame(other.crop, next))) continue;
      seen.push({ body, ...found });
      still.push({ body, crop: next });
    }
    this.followed = still;
    return seen;
  }

  /** Who is on the frame: known bodies keep their numbers, after a jump they are taken where they are found now. */
  private async look(picture: Pixels, isJump: boolean): Promise<void> {
    this.framesSinceLook = 1;
    const whole = wholeCrop(picture);
    const { scores, numbers } = await this.model.detect(sampleCrop(picture, whole, DETECTOR_SIDE, [-1, 1], this.small));
    for (const crop of detectedBodies(scores, numbers).map((body) => cropOfBody(body, whole))) {
      const known = this.followed.findIndex((it) => isSame(it.crop, crop));
      const own = this.followed[known];
      if (own) {
        if (isJump) this.followed[known] = { ...own, crop };
      } else if (this.followed.length < MOST_BODIES) this.followed.push({ body: this.nextBody++, crop });
    }
  }
}

function isSame(a: Crop, b: Crop): boolean {
  return Math.hypot(a.x - b.x, a.y - b.y) < SAME_BODY * Math.max(a.size, b.size);
}
