import { DefinitionRows } from "@/lib/ui/definition-rows";
import type { HomeView } from "../view";
import { ADULT_WORDS } from "./words";

/** What is at home, in words. */
export function HomeFacts({ home }: { home: HomeView | null }) {
  if (!home) return <p>Nobody has said yet what is at home. Until then only drills that need nothing are proposed.</p>;
  return (
    <DefinitionRows
      rows={[
        { term: "Gear", value: home.gear.length === 0 ? "none" : home.gear.map((item) => item.replaceAll("-", " ")).join(", ") },
        { term: "Space", value: `${home.widthM} m by ${home.lengthM} m${home.hasCage ? ", with a cage" : ""}` },
        { term: "Partners", value: String(home.partnerCount) },
        { term: "Grown-up", value: ADULT_WORDS[home.adult] },
        { term: "Time", value: `${home.minutesPerDay} minutes a day, ${home.daysPerWeek} days a week` },
      ]}
    />
  );
}
