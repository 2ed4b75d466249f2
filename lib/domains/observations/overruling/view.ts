import type { Id } from "@/lib/core/ids";
import type { LibraryParts } from "@/lib/domains/library/schema";
import type { RunOutput } from "../working-out/rules";

/** One fault that coaches keep saying no to: a hint that something the library believes about it is wrong. */
export interface OverruleHintView {
  readonly faultId: string;
  readonly name: string;
  /** All that were said, taken back ones too. */
  readonly count: number;
  readonly takenBack: number;
  readonly coachCount: number;
  readonly playerCount: number;
  /** How often it was chosen as a focus in the same time. */
  readonly chosenCount: number;
  readonly reasons: readonly { readonly id: Id; readonly reason: string; readonly by: string; readonly on: string; readonly isTakenBack: boolean }[];
  /** The links that put it there most often, as sentences with their strength: where to look first. */
  readonly links: readonly { readonly words: string; readonly strength: number; readonly count: number }[];
}

export interface OverruleRow {
  readonly id: Id;
  readonly faultId: string;
  readonly playerId: Id;
  readonly reason: string;
  readonly byId: Id;
  readonly at: Date;
  readonly undoneAt: Date | null;
  readonly output: RunOutput;
}

const LINKS_SHOWN = 3;

/** Most often overruled first. */
export function overruleHints(parts: LibraryParts, rows: readonly OverruleRow[], chosen: readonly { readonly faultId: string }[], names: ReadonlyMap<Id, string>): OverruleHintView[] {
  const nameOf = (id: string) => {
    const record = parts.faults.faults.find((fault) => fault.id === id) ?? parts.causes.nodes.find((node) => node.id === id) ?? parts.symptoms.symptoms.find((symptom) => symptom.id === id);
    return record && "name" in record ? record.name : id;
  };
  const ids = [...new Set(rows.map(({ faultId }) => faultId))];
  return ids
    .map((faultId): OverruleHintView => {
      const own = rows.filter((row) => row.faultId === faultId);
      return {
        faultId,
        name: nameOf(faultId),
        count: own.length,
        takenBack: own.filter(({ undoneAt }) => undoneAt !== null).length,
        coachCount: new Set(own.map(({ byId }) => byId)).size,
        playerCount: new Set(own.map(({ playerId }) => playerId)).size,
        chosenCount: chosen.filter((focus) => focus.faultId === faultId).length,
        reasons: own.map(({ id, reason, byId, at, undoneAt }) => ({ id, reason, by: names.get(byId) ?? "A coach", on: at.toISOString().slice(0, 10), isTakenBack: undoneAt !== null })),
        links: linksBehind(own, faultId, nameOf),
      };
    })
    .sort((a, b) => b.count - a.count || (a.name < b.name ? -1 : 1));
}

function linksBehind(rows: readonly OverruleRow[], faultId: string, nameOf: (id: string) => string): OverruleHintView["links"] {
  const counted = new Map<string, { words: string; strength: number; count: number }>();
  for (const { output } of rows) {
    const chain = output.outcome === "ranked" ? output.candidates.find(({ id }) => id === faultId)?.chain : undefined;
    for (const { cause, effect, strength, word } of chain?.links ?? []) {
      const key = `${cause} ${effect}`;
      const before = counted.get(key);
      counted.set(key, { words: `“${nameOf(cause)}” ${word} leads to “${nameOf(effect)}”`, strength, count: (before?.count ?? 0) + 1 });
    }
  }
  return [...counted.values()].sort((a, b) => b.count - a.count || b.strength - a.strength || (a.words < b.words ? -1 : 1)).slice(0, LINKS_SHOWN);
}
