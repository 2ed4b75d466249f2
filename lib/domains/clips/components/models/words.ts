import { levelWords, metres } from "@/lib/measure/several/near-models";
import { viewWords } from "@/lib/measure/several/beside-captions";
import { capital, takenWords } from "@/lib/measure/several/like-for-like";
import { SPORT_WORDS, type ModelState } from "../../models/rules";
import type { ModelTags } from "../../models/view";
import type { CameraView } from "../../view";

/** A day (YYYY-MM-DD) as "25 November 2026". */
export function dayWords(day: string): string {
  return new Intl.DateTimeFormat("en-GB", { day: "numeric", month: "long", year: "numeric", timeZone: "UTC" }).format(new Date(`${day}T00:00:00Z`));
}

/** "Filmed from the side and from behind". */
export function viewsWords(views: readonly CameraView[]): string {
  return `Filmed ${[...new Set(views)].map(viewWords).join(" and ")}`;
}

/** "Bats left, softball, 1.47 m (4′10″), level 11 to 12, still growing". */
export function hitterWords({ side, sport, heightM, level, isAdult }: Pick<ModelTags, "side" | "sport" | "heightM" | "level" | "isAdult">): string {
  const parts = [`Bats ${side}`, SPORT_WORDS[sport], heightM === null ? "height not noted" : metres(heightM), level === "adult" ? null : `level ${levelWords(level)}`, isAdult ? "a grown hitter" : "still growing"];
  return parts.filter(Boolean).join(", ");
}

/** "Off a tee, at a belt-high ball, at a ball down the middle". */
export function modelTakenWords({ task, pitchHeight, pitchSide }: Pick<ModelTags, "task" | "pitchHeight" | "pitchSide">): string {
  return capital(takenWords({ task, pitchHeight, pitchSide }));
}

/** Whether a model is shown today, and why it is not. */
export function stateWords(model: { readonly state: ModelState; readonly rightUntil: string; readonly daysLeft: number }): string {
  switch (model.state) {
    case "shown":
      return `Shown to coaches. The right holds for ${model.daysLeft === 1 ? "one more day" : `${model.daysLeft} more days`}, until ${dayWords(model.rightUntil)}.`;
    case "lapsed":
      return `Not shown: the right ended on ${dayWords(model.rightUntil)}. Record a new one to show it again.`;
    case "no-lesson-consent":
      return "Not shown: no consent to film the hitter for lessons is in force.";
    case "no-showing-consent":
      return "Not shown: no consent to show the hitter's clips to coaches is in force.";
    case "withdrawn":
      return "Withdrawn: it is shown nowhere.";
  }
}
