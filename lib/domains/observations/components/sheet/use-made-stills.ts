import { useCallback, useEffect, useMemo, useRef, useState } from "react";
import type { SheetCell, SheetRow } from "../../sheet/view";
import { makeStills, type MadeStill } from "./make-stills";

interface MadeStills {
  readonly stillOf: (row: SheetRow, cell: SheetCell) => MadeStill | undefined;
  readonly onLost: (row: SheetRow, frameIndex: number) => void;
  /** How many could not be made. */
  readonly missingCount: number;
  /** Makes those anew that could not be made. */
  readonly again: () => void;
}

const keyOf = (row: SheetRow, frameIndex: number) => `${row.clipId} ${frameIndex}`;

/** Stills for the cells for which none lies ready, clip by clip, the first row first. */
export function useMadeStills(rows: readonly SheetRow[]): MadeStills {
  const [made, setMade] = useState<ReadonlyMap<string, MadeStill>>(new Map());
  const [lost, setLost] = useState<ReadonlySet<string>>(new Set());
  const wanted = useMemo(
    () => rows.flatMap((row) => {
      const frames = row.cells.flatMap(({ frame }) => ("frameIndex" in frame ? [frame.frameIndex] : []));
      const open = [...new Set(frames)].filter((frame) => !row.picture.keptFrames.includes(frame) || lost.has(keyOf(row, frame)));
      return open.length > 0 ? [{ row, frames: open }] : [];
    }),
    [rows, lost],
  );
  const [attempt, setAttempt] = useState(0);
  const madeRef = useRef(made);
  useEffect(() => {
    madeRef.current = made;
  }, [made]);

  useEffect(() => {
    const left = new AbortController();
    const makeAll = async () => {
      for (const { row, frames } of wanted) {
        const open = frames.filter((frame) => !madeRef.current.has(keyOf(row, frame)));
        if (open.length === 0 || left.signal.aborted) continue;
        await makeStills(row.picture, open, left.signal, (frame, still) => setMade((before) => new Map(before).set(keyOf(row, frame), still)));
      }
    };
    void makeAll();
    return () => left.abort();
  }, [wanted, attempt]);
  useEffect(
    () => () => {
      for (const { url } of madeRef.current.values()) if (url) URL.revokeObjectURL(url);
    },
    [],
  );

  const stillOf = (row: SheetRow, cell: SheetCell) => ("frameIndex" in cell.frame ? made.get(keyOf(row, cell.frame.frameIndex)) : undefined);
  const onLost = useCallback((row: SheetRow, frameIndex: number) => setLost((before) => new Set(before).add(keyOf(row, frameIndex))), []);
  const again = useCallback(() => {
    const good = new Map([...madeRef.current].filter(([, still]) => still.problem === undefined));
    madeRef.current = good;
    setMade(good);
    setAttempt((now) => now + 1);
  }, []);
  const missingCount = [...made.values()].filter(({ problem }) => problem !== undefined).length;
  return { stillOf, onLost, missingCount, again };
}
