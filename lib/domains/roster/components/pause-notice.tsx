import { ActButton } from "@/lib/domains/identity/components/act-button";
import { clearPauseAsCoach, clearPauseAsFamily } from "../actions";
import { INCIDENT_WORDS } from "../incidents/rules";
import type { PauseView, PlayerView } from "../view";
import { ClearHeadBlow } from "./clear-head-blow";
import { HeadBlowCaution } from "./head-blow";
import { dayWords, partWords } from "./words";

/** What stopped the swings, in a few words. */
export function causeWords({ cause, part, level }: PauseView): string {
  if (cause === "pain-report") return `Pain reported, ${partWords(part)}, ${level} of 10`;
  return cause === "head-blow" ? INCIDENT_WORDS[cause] : `${INCIDENT_WORDS[cause]}, ${partWords(part)}`;
}

/** Words that stand inside a sentence of ours. */
const withoutStop = (words: string) => words.replace(/[.\s]+$/, "");

/** Swings are paused: what was said, who has cleared it, and the reader's own part of clearing it. */
export function PauseNotice({ player }: { player: PlayerView }) {
  return player.pauses.map((pause) => {
    const waits = [pause.isClearedByCoach ? null : "a coach", pause.isClearedByFamily ? null : player.isMinor ? "a guardian" : "the player"].filter((who) => who !== null);
    const fields = { playerId: player.id, pauseId: pause.id };
    const isHeadBlow = pause.cause === "head-blow";
    return (
      <section key={pause.id} className="trouble" aria-label="Swings are paused">
        <h2 className="as-h3">{causeWords(pause)}: swings are paused.</h2>
        <p>
          {pause.reportedBy} {pause.cause === "pain-report" ? "said so" : "noted it"}
          {pause.words ? <>: “{withoutStop(pause.words)}”</> : null}. {pause.firstAid ? `Done at once: ${withoutStop(pause.firstAid)}. ` : null}Swings wait for {waits.join(" and ")} to clear it. If it stays, a
          licensed clinician sees it first.
        </p>
        {isHeadBlow ? <HeadBlowCaution /> : null}
        {pause.clinicianSaidOn ? <p>The family says that a licensed clinician said yes on {dayWords(pause.clinicianSaidOn)}.</p> : null}
        <div className="bar-line">
          {player.can.clearPauseAsCoach && !pause.isClearedByCoach ? (
            <ActButton action={clearPauseAsCoach} fields={fields}>Clear it as coach</ActButton>
          ) : null}
          {player.can.clearPauseAsFamily && !pause.isClearedByFamily && !isHeadBlow ? (
            <ActButton action={clearPauseAsFamily} fields={fields}>No pain any more: clear it</ActButton>
          ) : null}
        </div>
        {player.can.clearPauseAsFamily && !pause.isClearedByFamily && isHeadBlow ? <ClearHeadBlow action={clearPauseAsFamily} {...fields} /> : null}
      </section>
    );
  });
}
