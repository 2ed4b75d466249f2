import type { CheckpointDefinition } from "@/lib/measure/checkpoint-definition";
import type { ClipInput, FramePoints, SwingInput } from "@/lib/measure/clip-input";
import { readClip } from "@/lib/measure/read-clip";
import type { Reading } from "@/lib/measure/reading";
import type { ReadingRules } from "@/lib/measure/reading-rules";
import { openReader, type ClipReader } from "@/lib/measure/reread-clip";

interface Options {
  readonly rules?: ReadingRules;
}

/**
 * Reads a clip of which some points are suggested and not confirmed. What persons placed is read by itself, as if nothing were suggested: a draft
 * beside a placed point neither makes a reading grey nor moves it. Only a checkpoint that this leaves without a value is read once more with the drafts, and is grey.
 */
export function readWithDrafts(definitions: readonly CheckpointDefinition[], clip: ClipInput, swing: SwingInput, options: Options = {}): readonly Reading[] {
  const placed = placedOnly(clip);
  const readings = readClip(definitions, placed ?? clip, swing, options);
  return placed ? merged(readings, readClip(unread(definitions, readings), clip, swing, options)) : readings;
}

/** The same as readWithDrafts, ready to read again while a point is dragged. */
export function openReaderWithDrafts(definitions: readonly CheckpointDefinition[], clip: ClipInput, swing: SwingInput, options: Options = {}): ClipReader {
  const placed = placedOnly(clip);
  const reader = openReader(definitions, placed ?? clip, swing, options);
  return placed ? together(reader, openReader(unread(definitions, reader.readings), clip, swing, options)) : reader;
}

function together(placed: ClipReader, drafts: ClipReader): ClipReader {
  return { readings: merged(placed.readings, drafts.readings), moved: (...change) => together(placed.moved(...change), drafts.moved(...change)) };
}

function merged(placed: readonly Reading[], drafts: readonly Reading[]): readonly Reading[] {
  return placed.map((reading) => (reading.value === null ? (drafts.find((it) => it.checkpointId === reading.checkpointId && it.value !== null) ?? reading) : reading));
}

function unread(definitions: readonly CheckpointDefinition[], readings: readonly Reading[]): readonly CheckpointDefinition[] {
  const open = new Set(readings.filter(({ value }) => value === null).map(({ checkpointId }) => checkpointId));
  return definitions.filter(({ id }) => open.has(id));
}

/** The clip with the points of persons only; null when it has no others. */
function placedOnly(clip: ClipInput): ClipInput | null {
  let hasDrafts = false;
  const points: Record<number, FramePoints> = {};
  for (const [frame, places] of Object.entries(clip.points)) {
    const own = Object.entries(places).filter(([, place]) => place.source === "placed");
    hasDrafts ||= own.length < Object.keys(places).length;
    if (own.length > 0) points[Number(frame)] = Object.fromEntries(own);
  }
  return hasDrafts ? { ...clip, points } : null;
}
