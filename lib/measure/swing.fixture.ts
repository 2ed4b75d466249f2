import type { ClipInput, EventId, FramePoints, Side, SwingEvent, SwingInput } from "@/lib/measure/clip-input";
import { POINT_IDS, type PointId } from "@/lib/measure/points";

/** For tests: places in swing coordinates (u toward the pitcher, v up, pixels). */
export type Places = Readonly<Partial<Record<PointId, readonly [number, number]>>>;

/** For tests: how a clip is filmed and kept. */
export interface Filming {
  readonly fps?: number;
  readonly side?: Side;
  readonly mirrored?: boolean;
  readonly zoom?: number;
  readonly shift?: readonly [number, number];
  readonly source?: "placed" | "suggested";
  readonly clip?: Partial<ClipInput>;
  readonly swing?: Partial<SwingInput>;
}

/** For tests: the marked times, seconds from contact. */
export const EVENT_SECONDS = { stance: -1, load: -0.6, toe: -0.25, plant: -0.2, launch: -0.15, contact: 0 } as const;

const SD: Partial<Record<EventId, number>> = { stance: 0.05, load: 0.02, toe: 0.004, plant: 0.006, launch: 0.008, contact: 0.0012 };

/** For tests: an event at a time with its SD, in seconds. */
export function event(seconds: number, sdSeconds = 0, source: SwingEvent["source"] = "placed"): SwingEvent {
  return { seconds, sdSeconds, source };
}

/** A side-view clip from -1.1 s to +0.1 s whose points at a time are given by a function. */
export function filmed(placesAt: (seconds: number) => Places, filming: Filming = {}): { clip: ClipInput; swing: SwingInput } {
  const { fps = 240, side = "right", mirrored = false, zoom = 1, shift = [900, 700], source = "placed" } = filming;
  const seconds = Array.from({ length: Math.round(1.2 * fps) + 1 }, (_, i) => (i - Math.round(1.1 * fps)) / fps);
  const sign = (side === "right") === mirrored ? -1 : 1;
  const points: Record<number, FramePoints> = {};
  seconds.forEach((time, frame) => {
    const own: Partial<Record<PointId, { x: number; y: number; source: "placed" | "suggested" }>> = {};
    for (const [point, place] of Object.entries(placesAt(time)) as [PointId, readonly [number, number]][]) {
      own[point] = { x: shift[0] + sign * zoom * place[0], y: shift[1] - zoom * place[1], source };
    }
    if (Object.keys(own).length > 0) points[frame] = own;
  });
  const events = Object.fromEntries(Object.entries(EVENT_SECONDS).map(([id, at]) => [id, event(at, SD[id as EventId])]));
  const clip: ClipInput = {
    view: "side", mirrored, secondsFromContact: seconds, captureFps: fps, cameraOffDeg: 0,
    cameraMoved: false, cameraZoomed: false, stabilised: false, points, ...filming.clip,
  };
  const swing: SwingInput = { side, swingKind: "power", task: "live", ageYears: 25, events, ...filming.swing };
  return { clip, swing };
}

/** Points placed on the frames of events only, as a coach does it. */
export function onEvents(places: Readonly<Partial<Record<keyof typeof EVENT_SECONDS, Places>>>, filming: Filming = {}) {
  return filmed((time) => {
    const entry = Object.entries(EVENT_SECONDS).find(([, at]) => Math.abs(at - time) < 0.2 / (filming.fps ?? 240));
    return (entry && places[entry[0] as keyof typeof EVENT_SECONDS]) ?? {};
  }, filming);
}

/** A torso of 100 pixels with the hips' middle at (u, v). */
export function torso(u = 0, v = 100, lean: readonly [number, number] = [0, 100]): Places {
  return { hip_f: [u + 15, v], hip_b: [u - 15, v], sh_f: [u + lean[0] + 20, v + lean[1]], sh_b: [u + lean[0] - 20, v + lean[1]] };
}

/** A whole hitter and bat that moves smoothly; pixels, torso about 100. */
export function hitter(seconds: number): Places {
  const t = seconds;
  const gather = -8 * Math.exp(-(((t + 0.55) / 0.15) ** 2));
  const stride = 70 / (1 + Math.exp(-(t + 0.33) * 25));
  const drive = 45 / (1 + Math.exp(-(t + 0.12) * 22));
  const turn = 1 / (1 + Math.exp(-(t + 0.03) * 30));
  const hips = gather + 0.25 * stride + drive;
  const hands = hips - 22 + 75 * turn;
  const bat = Math.PI * (0.78 + 1.25 * turn);
  const knee = 12 * (1 - turn);
  const heel = 32 * turn;
  return {
    hip_f: [hips + 14, 118], hip_b: [hips - 14, 116], sh_f: [hips + 12 - 10 * turn, 216], sh_b: [hips - 26 + 10 * turn, 214],
    el_f: [hips + 6 + 30 * turn, 190], wr_f: [hands, 196 - 40 * turn], wr_b: [hands - 4, 200 - 40 * turn], el_b: [hips - 30 + 25 * turn, 175],
    kn_f: [22 + stride + knee, 62], an_f: [28 + stride, 12], kn_b: [-18 + 0.3 * drive, 60], an_b: [-34, 14],
    heel_b: [-36, 8 + heel], toe_b: [-30 + 3 * turn, 4], heel_f: [30 + stride, 4], toe_f: [34 + stride, 2],
    nose: [hips + 14, 240], ear_f: [hips + 2, 242], ear_b: [hips - 4, 242], helmet: [hips, 244],
    knob: [hands - 6, 192 - 40 * turn], tip: [hands - 6 + 90 * Math.cos(bat), 192 - 40 * turn + 90 * Math.sin(bat)],
  };
}

/** Only some points of a hitter. */
export function only(points: readonly PointId[], placesAt: (seconds: number) => Places = hitter): (seconds: number) => Places {
  return (seconds) => Object.fromEntries(Object.entries(placesAt(seconds)).filter(([point]) => points.includes(point as PointId)));
}

/** Every point but some. */
export function without(points: readonly PointId[], placesAt: (seconds: number) => Places = hitter): (seconds: number) => Places {
  return only(POINT_IDS.filter((point) => !points.includes(point)), placesAt);
}
