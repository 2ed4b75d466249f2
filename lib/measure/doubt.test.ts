import { describe, expect, it } from "vitest";
import { seededRandom } from "@/lib/core/random";
import type { CheckpointDefinition } from "@/lib/measure/checkpoint-definition";
import type { EventId, SwingEvent } from "@/lib/measure/clip-input";
import type { PointId } from "@/lib/measure/points";
import { readClip } from "@/lib/measure/read-clip";
import { EVENT_SECONDS, filmed, hitter, type Places } from "@/lib/measure/swing.fixture";
import library from "@/seed/library/checkpoints.json";

/** Readings at instants; those over windows are held to drawn hitters (tests/golden). */
const definitions = (library.checkpoints as unknown as readonly CheckpointDefinition[]).filter(({ window }) => !window);

/** Events without doubt of their own: heard, so that no frame interval is added. */
const heard = (sd: Partial<Record<EventId, number>> = {}, shift: Partial<Record<EventId, number>> = {}) =>
  Object.fromEntries(Object.entries(EVENT_SECONDS).map(([id, at]) => [id, { seconds: at + (shift[id as EventId] ?? 0), sdSeconds: sd[id as EventId] ?? 0, source: "sound" } satisfies SwingEvent]));

/** A hitter three times as large as the fixture's, so that a person's noise is 0.012 torso, above the pixel floor. */
const large = (seconds: number): Places => Object.fromEntries(Object.entries(hitter(seconds)).map(([point, [u, v]]) => [point, [3 * u, 3 * v]]));

function spread(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1));
}

describe("the stated doubt is the spread that noise really makes", () => {
  const DRAWS = 240;
  it("from the points, within a sixth in every checkpoint read at instants, when every placed point of the whole clip is shaken", () => {
    const truth = filmed(large, { fps: 120, swing: { events: heard() } });
    const stated = readClip(definitions, truth.clip, truth.swing);
    const torso = Math.hypot(...(["h", "v"] as const).map((axis) => (axis === "h" ? (large(-1).sh_f![0] + large(-1).sh_b![0] - large(-1).hip_f![0] - large(-1).hip_b![0]) / 2 : (large(-1).sh_f![1] + large(-1).sh_b![1] - large(-1).hip_f![1] - large(-1).hip_b![1]) / 2)));
    const random = seededRandom("shaken");
    const values = new Map<string, number[]>();
    for (let draw = 0; draw < DRAWS; draw++) {
      const shaken = filmed((t) => Object.fromEntries((Object.entries(large(t)) as [PointId, [number, number]][]).map(([point, [u, v]]) => [point, [u + 0.012 * torso * random.normal(), v + 0.012 * torso * random.normal()]])), { fps: 120, swing: { events: heard() } });
      for (const reading of readClip(definitions, shaken.clip, shaken.swing)) {
        if (reading.value !== null) values.set(reading.checkpointId, [...(values.get(reading.checkpointId) ?? []), reading.value]);
      }
    }
    const hasRoughScale = (reading: (typeof stated)[number]) => reading.reasons.some(({ id }) => id === "rough-scale");
    const judged = stated.filter((reading) => reading.value !== null && reading.inputsUsed.points.length > 0 && !hasRoughScale(reading));
    expect(judged.length).toBeGreaterThanOrEqual(13);
    for (const reading of judged) {
      const own = values.get(reading.checkpointId) ?? [];
      expect(own.length, reading.checkpointId).toBe(DRAWS);
      expect(Math.abs(spread(own) / (reading.sd ?? NaN) - 1), reading.checkpointId).toBeLessThan(1 / 6);
    }
  }, 60_000);

  it("from the time of an event, within a quarter where the value moves, when the event is shifted", () => {
    const sd = { plant: 0.006, load: 0.02, launch: 0.008 };
    const truth = filmed(large, { fps: 480, swing: { events: heard(sd) } });
    const stated = readClip(definitions, truth.clip, truth.swing);
    const random = seededRandom("late");
    const values = new Map<string, number[]>();
    for (let draw = 0; draw < 150; draw++) {
      const shift = { plant: sd.plant * random.normal(), load: sd.load * random.normal(), launch: sd.launch * random.normal() };
      const moved = { ...truth.swing, events: heard(sd, shift) };
      for (const reading of readClip(definitions, truth.clip, moved)) if (reading.value !== null) values.set(reading.checkpointId, [...(values.get(reading.checkpointId) ?? []), reading.value]);
    }
    for (const id of ["hands-back-at-plant", "shoulder-behind-knee", "top-hand-hold", "hip-travel", "plant-to-contact-time", "launch-to-contact-time"]) {
      const reading = stated.find((one) => one.checkpointId === id);
      expect(Math.abs(spread(values.get(id) ?? []) / (reading?.doubt?.time ?? NaN) - 1), id).toBeLessThan(0.25);
    }
  }, 60_000);
});
