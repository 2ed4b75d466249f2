import type { SeasonNow } from "@/lib/domains/roster/seasons/view";
import { keepsDrills, seasonRefusal, type SeasonQuestion } from "@/lib/prescribe/season";

/** What a season's rule is asked with: the season of today, what was worked on before it, and where the head coach said yes. */
export interface SeasonCase {
  readonly season: SeasonNow | null;
  /** Every focus of the side; days in the academy's time zone. */
  readonly foci: readonly { readonly faultId: string; readonly chosenOn: string; readonly endedOn: string | null }[];
  /** Faults to which the head coach said yes for this season, with the reason. */
  readonly yeses: readonly { readonly faultId: string; readonly reason: string; readonly by: string; readonly on: string }[];
}

type Fault = { readonly id: string; readonly area: string };

function questionOf({ foci, yeses }: SeasonCase, season: SeasonNow, fault: Fault): SeasonQuestion {
  const isOld = foci.some(({ faultId, chosenOn, endedOn }) => faultId === fault.id && chosenOn < season.from && (endedOn === null || endedOn >= season.from));
  return {
    season: season.season, area: fault.area, isNewFocus: !isOld, daysToFirstGame: season.daysToFirstGame,
    hasHeadCoachAgreed: yeses.some(({ faultId }) => faultId === fault.id),
  };
}

/** Why a fault may not be a focus now, in one sentence; null when it may. A focus from before the season may stay. */
export function whyNotInSeason(asked: SeasonCase, fault: Fault): string | null {
  return asked.season && seasonRefusal(questionOf(asked, asked.season, fault));
}

/** Whether a focus from before the season keeps the drills it had then, until the head coach agrees to others. */
export function keepsItsDrills(asked: SeasonCase, fault: Fault): boolean {
  return asked.season !== null && keepsDrills(questionOf(asked, asked.season, fault));
}
