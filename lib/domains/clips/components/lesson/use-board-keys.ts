import { useEffect, useRef } from "react";
import { boardCommandOf, type BoardCommand } from "../../lesson/rules";

const TYPED_INTO = "input:not([type=checkbox]):not([type=file]):not([type=radio]), select, textarea, video, dialog[open] *";

/** The board's keys, wherever on the page one is, save where something is typed or chosen by keys. */
export function useBoardKeys(isOn: boolean, tileCount: number, onCommand: (command: BoardCommand) => void): void {
  const latest = useRef({ tileCount, onCommand });
  useEffect(() => {
    latest.current = { tileCount, onCommand };
  });
  useEffect(() => {
    if (!isOn) return;
    const press = (event: KeyboardEvent) => {
      if (event.repeat || (event.target instanceof Element && event.target.matches(TYPED_INTO))) return;
      const command = boardCommandOf(event, latest.current.tileCount);
      if (!command) return;
      event.preventDefault();
      latest.current.onCommand(command);
    };
    document.addEventListener("keydown", press);
    return () => document.removeEventListener("keydown", press);
  }, [isOn]);
}
