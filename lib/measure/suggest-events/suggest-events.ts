import type { ClipInput, EventId, Side, SwingInput, View } from "@/lib/measure/clip-input";
import type { ReadingRules } from "@/lib/measure/reading-rules";
import { suggestContact } from "@/lib/measure/suggest-events/contact";
import { suggestExtension } from "@/lib/measure/suggest-events/extension";
import { suggestFinish } from "@/lib/measure/suggest-events/finish";
import { suggestFirstMove } from "@/lib/measure/suggest-events/first-move";
import { suggestLaunch } from "@/lib/measure/suggest-events/launch";
import { suggestLoad } from "@/lib/measure/suggest-events/load";
import { movingBody, type KnownEvent, type MovingBody } from "@/lib/measure/suggest-events/moving-body";
import { suggestPlant } from "@/lib/measure/suggest-events/plant";
import { suggestRelease } from "@/lib/measure/suggest-events/release";
import { suggestStance } from "@/lib/measure/suggest-events/stance";
import type { Found, Suggestion, SuggestionFacts } from "@/lib/measure/suggest-events/suggestion";
import { suggestToe } from "@/lib/measure/suggest-events/toe";

/** Where a rule holds and what it is. */
export interface SuggestionRule {
  readonly event: EventId;
  readonly views: readonly View[];
  /** It compares places across frames and needs a camera that stands still. */
  readonly stillCamera: boolean;
  readonly find: (body: MovingBody) => Found | null;
}

/** The rules in the order in which they may use each other. Source: phases, `events` and `eventsNote`; release, from facts only, comes last. */
export const SUGGESTION_RULES: readonly SuggestionRule[] = [
  { event: "contact", views: ["side", "front", "rear"], stillCamera: false, find: suggestContact },
  { event: "stance", views: ["side", "rear"], stillCamera: true, find: suggestStance },
  { event: "first-move", views: ["side", "rear"], stillCamera: true, find: suggestFirstMove },
  { event: "toe", views: ["side"], stillCamera: true, find: suggestToe },
  { event: "plant", views: ["side"], stillCamera: true, find: suggestPlant },
  { event: "load", views: ["side"], stillCamera: true, find: suggestLoad },
  { event: "launch", views: ["side", "rear"], stillCamera: true, find: suggestLaunch },
  { event: "extension", views: ["side", "front"], stillCamera: false, find: suggestExtension },
  { event: "finish", views: ["side", "front"], stillCamera: true, find: suggestFinish },
  { event: "release", views: ["side", "front", "rear"], stillCamera: false, find: suggestRelease },
];

/**
 * Suggestions for the events of a swing that nobody has marked, in the order of the rules; a later one may count from an
 * earlier one. Nothing is offered where points are missing, the view does not allow it, or the camera moved or zoomed
 * under a rule that needs it still. Unknown input gives no suggestion, never a throw.
 * @param clip its times count from contact where contact is known, else from any moment: suggestions are on that clock
 * @param known events already known; they stand and are not suggested
 */
export function suggestEvents(clip: ClipInput, side: Side, known: SwingInput["events"], facts: SuggestionFacts = {}, rules?: ReadingRules): readonly Suggestion[] {
  const body = movingBody(clip, side, {}, facts, rules);
  const { view } = clip;
  if (!body || view === null) return [];
  const isStill = !clip.cameraMoved && !clip.stabilised && !clip.cameraZoomed;
  const events: Partial<Record<EventId, KnownEvent>> = {};
  for (const [id, event] of Object.entries(known) as [EventId, KnownEvent | undefined][]) if (event && Number.isFinite(event.seconds)) events[id] = event;
  const suggestions: Suggestion[] = [];
  for (const { event, views, stillCamera, find } of SUGGESTION_RULES) {
    if (events[event] || !views.includes(view) || (stillCamera && !isStill)) continue;
    const found = find({ ...body, events });
    if (!found || !Number.isFinite(found.seconds) || !(found.sdSeconds > 0 && found.sdSeconds < Infinity)) continue;
    const suggestion: Suggestion = { source: "suggested", ...found, event };
    suggestions.push(suggestion);
    events[event] = { seconds: found.seconds, sdSeconds: found.sdSeconds, source: suggestion.source, note: found.note };
  }
  return suggestions;
}
