import { fileSecondsOf, type FrameTimes } from "@/lib/core/frame-times";
import { Select } from "@/lib/ui/select";
import { addWords, factOptions } from "../add-words";
import type { SwingFacts } from "../../schema";
import type { Tile } from "../lesson/tiles";
import type { CutAnswers, SetCut } from "./cutter-state";
import { cutterWords as words } from "./cutter-words";

interface CutListProps {
  readonly cuts: readonly SetCut[];
  readonly inHand: number | null;
  readonly times: FrameTimes;
  readonly tiles: readonly Tile[];
  /** What was answered for the whole film. */
  readonly facts: SwingFacts;
  readonly onTake: (key: number) => void;
  readonly onAnswer: (key: number, answers: Partial<CutAnswers>) => void;
}

const tileValue = ({ playerId, side }: { readonly playerId: string; readonly side?: string }) => `${playerId} ${side ?? ""}`;

/** The swings that are set, each with whose it is; the one in hand also with what was hit and where the ball was. */
export function CutList({ cuts, inHand, times, tiles, facts, onTake, onAnswer }: CutListProps) {
  const start = fileSecondsOf(times, 0);
  const at = (frame: number) => (fileSecondsOf(times, frame) - start).toFixed(1);
  const whose = tiles.map((tile) => ({ value: tileValue(tile), label: tile.isOneOfTwo ? `${tile.name}, ${tile.side}` : tile.name }));
  return (
    <ol className="cut-list">
      {cuts.map((cut, i) => {
        const isHeld = cut.key === inHand;
        const answer = (answers: Partial<CutAnswers>) => onAnswer(cut.key, answers);
        return (
          <li key={cut.key} className={isHeld ? "now" : undefined}>
            <div>
              <button type="button" className="btn plain" aria-pressed={isHeld} onClick={() => onTake(cut.key)}>{words.cut(i + 1, at(cut.firstFrame), at(cut.lastFrame))}</button>
              <span className="note">{cut.by === "hand" ? words.byHand : cut.contactFrame === null ? words.seen : words.heard}</span>
            </div>
            <Select
              name={`whose-${cut.key}`} label={words.whose(i + 1)} options={whose} value={tileValue(cut)}
              onChange={(event) => { const tile = tiles.find((it) => tileValue(it) === event.target.value); if (tile) answer({ playerId: tile.playerId, side: tile.side }); }}
            />
            {isHeld ? (
              <>
                <Select name={`task-${cut.key}`} label={addWords.labels.task} options={factOptions.task} value={cut.task ?? facts.task} onChange={(event) => answer({ task: event.target.value as CutAnswers["task"] })} />
                <Select name={`height-${cut.key}`} label={addWords.labels.pitchHeight} options={factOptions.pitchHeight} value={cut.pitchHeight ?? facts.pitchHeight} onChange={(event) => answer({ pitchHeight: event.target.value as CutAnswers["pitchHeight"] })} />
                <Select name={`side-${cut.key}`} label={addWords.labels.pitchSide} options={factOptions.pitchSide} value={cut.pitchSide ?? facts.pitchSide} onChange={(event) => answer({ pitchSide: event.target.value as CutAnswers["pitchSide"] })} />
              </>
            ) : null}
          </li>
        );
      })}
    </ol>
  );
}
