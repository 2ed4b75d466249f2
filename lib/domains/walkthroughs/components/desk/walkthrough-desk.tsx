"use client";
import { ArrangeChapters } from "./arrange-chapters";
import { SendDesk } from "./send-desk";
import { WordsDesk } from "./words-desk";
import { TakeAway } from "../take-away";
import type { WalkthroughForCoach } from "../../view";

/** What its makers do with a walkthrough: chapters, words, sending, taking away. */
export function WalkthroughDesk({ view }: { readonly view: WalkthroughForCoach }) {
  return (
    <div className="flow talk-desk">
      <SendDesk view={view} />
      <ArrangeChapters key={view.chapters.map(({ id, takeId }) => `${id} ${takeId}`).join(" ")} view={view} />
      <WordsDesk view={view} />
      {view.isPermitted ? <TakeAway id={view.id} film={view.film} /> : null}
    </div>
  );
}
