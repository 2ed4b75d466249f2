import { useEffect, useRef } from "react";
import { eventNames } from "@/lib/domains/clips/components/words";
import { sheetEvents, type SheetEvent } from "@/lib/domains/clips/stills/view";
import { sheetWords as words } from "./sheet-words";

interface EventTabsProps {
  readonly column: SheetEvent;
  readonly onGo: (event: SheetEvent) => void;
}

/** On a phone: which instant is shown. The one in hand is pushed into sight, however one came to it. */
export function EventTabs({ column, onGo }: EventTabsProps) {
  const listRef = useRef<HTMLUListElement>(null);
  useEffect(() => {
    const list = listRef.current;
    const here = list?.querySelector<HTMLElement>("[aria-current]");
    if (!list || !here) return;
    const [from, length] = [here.getBoundingClientRect().left - list.getBoundingClientRect().left, here.offsetWidth];
    list.scrollLeft += from + length / 2 - list.clientWidth / 2;
  }, [column]);
  return (
    <nav className="evtabs no-print" aria-label={words.events}>
      <ul ref={listRef}>
        {sheetEvents.map((event) => (
          <li key={event}>
            <button type="button" aria-current={event === column ? "true" : undefined} onClick={() => onGo(event)}>
              {eventNames[event]}
            </button>
          </li>
        ))}
      </ul>
    </nav>
  );
}
