import { contactOf, type MovingBody } from "@/lib/measure/suggest-events/moving-body";
import type { Found } from "@/lib/measure/suggest-events/suggestion";

/**
 * Pitch release, from given facts only and never guessed from the hitter: heard or seen by a second camera (SD 0.010 s),
 * or contact less a flight from distance and a measured speed (`computed`; SD the flight's share, at least 0.015 s).
 * Source: phases, event release.
 */
export function suggestRelease(body: MovingBody): Found | null {
  const { release } = body.facts;
  const contact = contactOf(body);
  if (!release || contact === null) return null;
  if ("heardSeconds" in release) {
    return release.heardSeconds < contact ? { seconds: release.heardSeconds, sdSeconds: 0.01, note: null, source: "sound" } : null;
  }
  const { flightSeconds, relativeSpeedSd } = release;
  if (!(flightSeconds > 0 && flightSeconds < Infinity && relativeSpeedSd >= 0 && relativeSpeedSd < Infinity)) return null;
  return { seconds: contact - flightSeconds, sdSeconds: Math.max(0.015, flightSeconds * relativeSpeedSd), note: "computed", source: "computed" };
}
