import Link from "next/link";
import type { ReactNode } from "react";
import { ADULT_WORDS } from "@/lib/domains/roster/components/words";
import type { DraftView, PlanPage } from "../draft/view";

/** What the plan is made for: time, gear, room, who is there, where it hurts. */
export function PlanFacts({ page, draft }: { page: PlanPage; draft: DraftView | null }) {
  const { home } = page;
  if (!home) return null;
  const facts: readonly (readonly [string, ReactNode])[] = [
    ["A day", `${draft?.minutesPerDay ?? home.minutesPerDay} minutes`],
    ["Days", draft ? `${draft.daysPerWeek} a week` : `${home.daysPerWeek} a week`],
    ["At home", page.gearNames.length === 0 ? "no gear" : gearWords(page.gearNames)],
    ["Room", `${home.widthM} by ${home.lengthM} m${home.hasCage ? ", cage" : ""}`],
    ["Who is there", `${home.partnerCount === 0 ? "no partner" : home.partnerCount === 1 ? "one partner" : `${home.partnerCount} partners`}, grown-up: ${ADULT_WORDS[home.adult].toLowerCase()}`],
    ["Swings elsewhere", page.elsewhere.words],
    ["Season", page.season.words ?? <Link href={`/players/${page.playerId}#season`}>not said yet</Link>],
    ["Complaints", page.complaints.length === 0 ? "none today" : page.complaints.join(", ")],
  ];
  return (
    <ul className="given" aria-label="What the plan is made for">
      {facts.map(([label, value]) => (
        <li key={label}>
          <span className="label">{label}</span>
          <span className="value">{value}</span>
        </li>
      ))}
    </ul>
  );
}

const NAMED = 4;

function gearWords(names: readonly string[]): string {
  const said = names.slice(0, NAMED).map((name) => (name.split(",")[0] ?? name).toLowerCase());
  return names.length > NAMED ? `${said.join(", ")} and ${names.length - NAMED} more` : said.join(", ");
}
