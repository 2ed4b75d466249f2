import type { Id } from "@/lib/core/ids";
import { tileKeys } from "../../lesson/rules";
import type { LessonPlayer } from "../../lesson/schema";
import type { BattingSide } from "../../view";
import { lessonWords as words } from "./lesson-words";

/** A player from a side: what one key gives a clip to. */
export interface Tile {
  readonly playerId: Id;
  readonly name: string;
  readonly side: BattingSide;
  /** The player has a tile for each side. */
  readonly isOneOfTwo: boolean;
}

/** The tiles of who is here, in the order of ticking; a switch hitter has two. */
export function tilesOf(players: readonly LessonPlayer[], hereIds: readonly Id[]): readonly Tile[] {
  return hereIds.flatMap((id) => {
    const player = players.find((it) => it.id === id);
    return player ? player.sides.map((side) => ({ playerId: id, name: player.name, side, isOneOfTwo: player.sides.length > 1 })) : [];
  });
}

/** Large buttons, each with its key: a thumb or a key gives the clip. */
export function Tiles({ tiles, ownerId, onGive }: { readonly tiles: readonly Tile[]; readonly ownerId: Id | null; readonly onGive: (tile: number) => void }) {
  return (
    <div className="tiles" role="group" aria-label={words.whose}>
      {tiles.map(({ playerId, name, side, isOneOfTwo }, i) => (
        <button key={`${playerId} ${side}`} type="button" className="btn big" aria-keyshortcuts={tileKeys[i]} aria-pressed={playerId === ownerId} onClick={() => onGive(i)}>
          <kbd aria-hidden="true">{tileKeys[i]?.toUpperCase() ?? ""}</kbd>
          <span>
            {name}
            {isOneOfTwo ? `, ${side}` : ""}
          </span>
        </button>
      ))}
    </div>
  );
}
