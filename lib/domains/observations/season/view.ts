import type { LibraryParts } from "@/lib/domains/library/schema";
import { SEASON_WORDS } from "@/lib/domains/roster/seasons/rules";
import { keepsItsDrills, whyNotInSeason, type SeasonCase } from "./rules";

/** What the season says about choosing a focus. */
export interface SeasonStanding {
  /** "In season: keep and compete"; null while nobody said the season. */
  readonly words: string | null;
  /** Why a new change of the movement waits, in one sentence; null when nothing waits. */
  readonly refusal: string | null;
  /** Faults that may not become the focus now. */
  readonly waiting: readonly string[];
  /** Faults that keep the drills they had before the season, until the head coach agrees to others. */
  readonly keeping: readonly string[];
  readonly yeses: readonly { readonly faultId: string; readonly name: string; readonly reason: string; readonly by: string; readonly on: string }[];
  /** Whether the reader is the one who can agree. */
  readonly canAgree: boolean;
}

export function seasonStanding(asked: SeasonCase, faults: LibraryParts["faults"]["faults"], canAgree: boolean): SeasonStanding {
  const refused = faults.flatMap((fault) => {
    const words = whyNotInSeason(asked, fault);
    return words === null ? [] : [{ faultId: fault.id, words }];
  });
  return {
    words: asked.season && SEASON_WORDS[asked.season.season],
    refusal: refused[0]?.words ?? null,
    keeping: faults.filter((fault) => keepsItsDrills(asked, fault)).map(({ id }) => id),
    waiting: refused.map(({ faultId }) => faultId),
    yeses: asked.yeses.map((yes) => ({ ...yes, name: faults.find(({ id }) => id === yes.faultId)?.name ?? yes.faultId })),
    canAgree,
  };
}
