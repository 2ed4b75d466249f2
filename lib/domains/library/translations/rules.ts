import { contentHash } from "@/lib/core/canonical-json";
import { textsOfTables } from "@/lib/prescribe/field-cautions";
import type { LibraryParts } from "../schema";

const HASH_DIGITS = 12;

/** What tells one English text from another: a translation holds for the text it was made from and for no other. */
export async function hashOfText(english: string): Promise<string> {
  return (await contentHash(english)).slice(0, HASH_DIGITS);
}

const FIELDS: Readonly<Record<string, readonly string[]>> = { drills: ["name", "steps", "cues", "equipment", "safety", "worked"], faults: ["playerWording"] };

/** Whether the library has a record with such a field; the record may say it in more or fewer lines than it did. */
export function isPlace(place: string, library: Pick<LibraryParts, "drills" | "faults">): boolean {
  const [kind = "", recordId = "", field = ""] = place.split("/");
  if (kind === "loads") return recordId === "field";
  const records = kind === "drills" ? library.drills.drills : kind === "faults" ? library.faults.faults : [];
  return records.some(({ id }) => id === recordId) && (FIELDS[kind]?.includes(field) ?? false);
}

/**
 * Every text of the library that a family reads, by its place. Equal texts of several drills are said once, at the first
 * of their places.
 */
export function familyTexts({ drills: { drills }, faults: { faults }, loads }: Pick<LibraryParts, "drills" | "faults" | "loads">): ReadonlyMap<string, string> {
  const many = (place: string, texts: readonly string[]) => texts.map((text, index): [string, string] => [`${place}/${index}`, text]);
  const places: [string, string][] = [
    ...drills.flatMap((drill): [string, string][] => {
      const place = `drills/${drill.id}`;
      return [
        [`${place}/name`, drill.name],
        ...many(`${place}/steps`, drill.steps),
        ...many(`${place}/cues`, drill.cues.map(({ text }) => text)),
        ...many(`${place}/equipment`, drill.equipment),
        ...many(`${place}/safety`, drill.safety),
        [`${place}/worked`, drill.worked.observe],
      ];
    }),
    ...faults.map(({ id, playerWording }): [string, string] => [`faults/${id}/playerWording`, playerWording]),
    ...many("loads/field", textsOfTables(loads)),
  ];
  const said = new Set<string>();
  return new Map(places.filter(([, text]) => text !== "" && !said.has(text) && said.add(text)));
}
