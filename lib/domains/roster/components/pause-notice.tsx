import { ActButton } from "@/lib/domains/identity/components/act-button";
import { clearPauseAsCoach, clearPauseAsFamily } from "../actions";
import type { PlayerView } from "../view";
import { partWords } from "./words";

/** Swings are paused: what was said, who has cleared it, and the reader's own part of clearing it. */
export function PauseNotice({ player }: { player: PlayerView }) {
  return player.pauses.map((pause) => {
    const waits = [pause.isClearedByCoach ? null : "a coach", pause.isClearedByFamily ? null : player.isMinor ? "a guardian" : "the player"].filter((who) => who !== null);
    const fields = { playerId: player.id, pauseId: pause.id };
    return (
      <section key={pause.id} className="trouble" aria-label="Swings are paused">
        <h2 className="as-h3">
          Pain reported, {partWords(pause.part)}, {pause.level} of 10: swings are paused.
        </h2>
        <p>
          {pause.reportedBy} said so{pause.words ? <>: “{pause.words}”</> : null}. Swings wait for {waits.join(" and ")} to clear it. If it stays, a licensed clinician
          sees it first.
        </p>
        <div className="bar-line">
          {player.can.clearPauseAsCoach && !pause.isClearedByCoach ? (
            <ActButton action={clearPauseAsCoach} fields={fields}>Clear it as coach</ActButton>
          ) : null}
          {player.can.clearPauseAsFamily && !pause.isClearedByFamily ? (
            <ActButton action={clearPauseAsFamily} fields={fields}>No pain any more: clear it</ActButton>
          ) : null}
        </div>
      </section>
    );
  });
}
