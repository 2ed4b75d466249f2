import { useEffect, useRef } from "react";
import type { Id } from "@/lib/core/ids";
import { initialsOf } from "@/lib/ui/initials";
import { Progress } from "@/lib/ui/progress";
import { sayPace } from "../sending/pace";
import type { SendingFilm } from "../sending/sending-line";
import { lessonWords as words } from "./lesson-words";

interface BoardRowProps {
  readonly films: readonly SendingFilm[];
  readonly inHandKey: number | null;
  readonly nameOf: (playerId: Id | null) => string | null;
  readonly onShow: (key: number) => void;
}

/** All clips in a row, each with its owner and how far it is; one press brings a clip back in hand. */
export function BoardRow({ films, inHandKey, nameOf, onShow }: BoardRowProps) {
  const rowRef = useRef<HTMLOListElement>(null);
  useEffect(() => {
    rowRef.current?.querySelector("[aria-current=true]")?.scrollIntoView({ block: "nearest", inline: "nearest" });
  }, [inHandKey]);
  const done = films.filter(({ state }) => state === "sent" || state === "known").length;
  const isGoing = films.some(({ playerId, state }) => playerId !== null && state !== "refused" && state !== "sent" && state !== "known");
  const pace = films.find(({ state }) => state === "sending")?.pace;
  return (
    <div className="board-row">
      {isGoing || done > 0 ? <Progress label={words.sending(done, films.length)} done={done} total={films.length} note={pace ? sayPace(pace) : null} /> : null}
      <ol ref={rowRef} aria-label={words.row}>
        {films.map(({ key, playerId, state }, i) => {
          const name = nameOf(playerId);
          return (
            <li key={key}>
              <button type="button" className={`cell ${state}`} aria-current={key === inHandKey} aria-label={words.cell(i + 1, name, words.states[state])} onClick={() => onShow(key)}>
                <span className="n">{i + 1}</span>
                <b>{name ? initialsOf(name) : "?"}</b>
              </button>
            </li>
          );
        })}
      </ol>
    </div>
  );
}
