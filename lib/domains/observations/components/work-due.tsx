"use client";

import { useRouter } from "next/navigation";
import { useEffect, useRef } from "react";
import { askForOrder } from "../asking/actions";
import { AnswerForm } from "./answer-form";
import { words } from "./words";

/** Looked again so often, a little later each time: about a minute in all. */
const LOOKS = 12;
const FIRST_WAIT_MS = 1200;

interface WorkDueProps {
  given: { readonly playerId: string; readonly side: "right" | "left"; readonly kind: string | undefined };
  /** Without the worker there is no order at all. */
  isOrderDue: boolean;
}

/** Asks the worker for what the page does not wait for, and looks again until it is there. Without script it is a button. */
export function WorkDue({ given, isOrderDue }: WorkDueProps) {
  const router = useRouter();
  const hasAsked = useRef(false);
  const { playerId, side, kind } = given;
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const look = (times: number) => {
      if (times >= LOOKS) return;
      timer = setTimeout(() => {
        router.refresh();
        look(times + 1);
      }, FIRST_WAIT_MS * 1.25 ** times);
    };
    if (!hasAsked.current) void askForOrder({ playerId, side, kind });
    hasAsked.current = true;
    look(0);
    return () => clearTimeout(timer);
  }, [router, playerId, side, kind]);
  return (
    <div className="why" role="status">
      {isOrderDue ? <p>{words.order.beingWorkedOut}</p> : null}
      <noscript>
        <AnswerForm action={askForOrder} given={given}>
          <button type="submit" className="btn plain">
            {words.order.workOut}
          </button>
        </AnswerForm>
      </noscript>
    </div>
  );
}
